"""The worked case as plain data, of our own invention, and a hand that plays a run of it."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from soapbench.bars.formula import (
    Additive,
    AlkaliChoice,
    Cut,
    Drawing,
    FatLine,
    Formula,
    Portion,
    PourStage,
    Water,
)
from soapbench.bench.payloads import parse, stored
from soapbench.bench.plan import PlanLot, PlanScale
from soapbench.bench.planning import make_plan
from soapbench.bench.planning.given import Bench, Order, SizeAsked, Tool, Vessel
from soapbench.bench.run import fold
from soapbench.bench.state import Fact
from soapbench.science.mould import Mould
from soapbench.shelf.facts import MaterialFacts

JARS = {"alkali:naoh": "NaOH", "alkali:koh": "KOH"}
START = datetime(2026, 11, 25, 8, 0, tzinfo=UTC)


def fat(key, sv, **more):
    return MaterialFacts(key, key.title(), "fat", sv_low=sv - 3, sv_high=sv + 3, **more)


# Grams of NaOH per gram, as the worked case counts them: olive 0.1345, coconut 0.183, palm 0.1415; × 1402.7.
FACTS = {
    "olive": fat("olive", 188.66, state="liquid", lot=11, lot_code="O-1"),
    "coconut": fat("coconut", 256.70, state="soft", lot=12, lot_code="C-1"),
    "palm": fat("palm", 198.49, state="solid"),
    "sodium_hydroxide": MaterialFacts("sodium_hydroxide", "Sodium hydroxide", "alkali", lot=13, lot_code="N-1"),
    "potassium_hydroxide": MaterialFacts("potassium_hydroxide", "Potassium hydroxide", "alkali"),
    "water": MaterialFacts("water", "Water", "liquid"),
    "indigo": MaterialFacts("indigo", "Indigo", "colourant"),
    "rosemary": MaterialFacts("rosemary", "Rosemary", "scent", limit_percent=2.0, working_minutes=8),
    "clove": MaterialFacts("clove", "Clove", "scent", limit_percent=2.0, working_minutes=3),
    "citric": MaterialFacts("citric", "Citric acid", "addition", takes_koh_mg_per_g=876.0),
    "milk": MaterialFacts("milk", "Milk", "liquid", water_fraction=0.88),
}
STAND_INS = {
    "lard": fat("lard", 195.0, state="soft", lot=21, lot_code="L-1"),
    "ochre": MaterialFacts("ochre", "Ochre", "colourant"),
    "cedar": MaterialFacts("cedar", "Cedar", "scent"),
}
LOTS = (
    PlanLot(11, "olive", "O-1"),
    PlanLot(12, "coconut", "C-1"),
    PlanLot(14, "olive", "O-2", sv_own=192.0),
    PlanLot(13, "sodium_hydroxide", "N-1"),
    PlanLot(15, "sodium_hydroxide", "N-2", purity=0.97),
    PlanLot(21, "lard", "L-1"),
)
BENCH = Bench(
    workshop="Invented Works",
    is_invented=True,
    room_c=20.0,
    emergency="Emergency 000, poison centre 001",
    scale=PlanScale("bench-scale", "Bench scale", 0.1, 5000),
    mould_name="Long loaf",
    mould=Mould("box", 300, 80, 80),
    vessels=(Vessel("Jug", "lye", "polypropylene", 2000, 120), Vessel("Pot", "pot", "steel", 5000, 640)),
    tools=(Tool("skewer", "Skewer", "skewer"), Tool("wire", "Wire cutter", "cutter")),
)
PLAIN = Formula(
    fats=(FatLine("olive", 40), FatLine("coconut", 30), FatLine("palm", 30)),
    portions=(Portion("A", "Whole", 1),),
    alkali=AlkaliChoice(naoh_purity=1.0),
    water=Water("water to alkali ratio", 2.0),
    cut=Cut("slices", 25.0, 3.0, "wire"),
)
SWIRLED = replace(
    PLAIN,
    portions=(Portion("A", "Pale", 2), Portion("B", "Dark", 1, texture="hatched")),
    additives=(
        Additive("indigo", 6, "grams per kg of fats", "B", "olive", 3),
        Additive("rosemary", 2, "percent of fats", "A"),
        Additive("clove", 1, "percent of fats", "B"),
    ),
    pour=(PourStage("side by side", ("A", "B")),),
    drawing=Drawing("zigzag", "skewer", 5, 20),
)


def order(formula=PLAIN, **changes):
    """Return an order of 1000 g of fats; changes go into the order."""
    made = Order(
        bar="Invented Bar",
        bar_slug="invented-bar",
        revision=1,
        formula=formula,
        size=SizeAsked("fats", 1000.0),
        facts=FACTS,
        stand_ins=STAND_INS,
        lots=LOTS,
        bench=BENCH,
        made_by="Ada",
        made_at=START.isoformat(),
    )
    return replace(made, **changes)


def plan_of(formula=PLAIN, **changes):
    return make_plan(order(formula, **changes))


class Hand:
    """Plays a run: each call appends a fact a minute later, as the log would keep it."""

    def __init__(self, plan):
        self.plan = plan
        self.facts = []
        self.now = START
        self.person, self.device, self.seen = "Ada", "phone", None

    def tap(self, kind, prompt="", **payload):
        self.now += timedelta(minutes=1)
        number = len(self.facts) + 1
        id = f"00000000-0000-7000-8000-{number:012d}"
        read = stored(parse(kind, payload))
        self.facts.append(Fact(id, number, kind, prompt, read, self.now, self.now, self.person, self.device))
        self.facts[-1] = replace(self.facts[-1], seen=self.seen)
        return id

    def at(self, person, device, seen=None):
        """Go on as somebody else on a phone that had seen so many events; None: all of them."""
        self.person, self.device, self.seen = person, device, len(self.facts) if seen is None else seen
        return self

    def wait(self, **span):
        self.now += timedelta(**span)

    @property
    def state(self):
        return fold(self.plan, self.facts)

    def start(self):
        self.tap("started", cautions_read=True)
        for prompt in self.plan.prompts:
            if prompt.phase == "gather":
                self.answer(prompt, self.state)
        return self

    def tick_all(self, prompt):
        for tick in prompt.ticks:
            self.tap("ticked", prompt.key, item=tick.key)
        self.tap("done", prompt.key)

    def weigh(self, line, mass=None, **more):
        prompt = next((p.key for p in self.plan.prompts if p.kind == "weigh" and p.line == line), "")
        grams = self.state.targets[line] if mass is None else mass
        if line in JARS:
            more.setdefault("jar", JARS[line])
        return self.tap("weighed", prompt, line=line, mass_g=grams, **more)

    def change(self, what, prompt="", why="it is so", decision="go on", **fields):
        """Write down that something differs from the plan."""
        return self.tap("changed", prompt, what=what, why=why, decision=decision, **fields)

    def until(self, key, **masses):
        """Answer every prompt as planned up to the one of that key, which stays open; "" plays to the end."""
        while (state := self.state).current != key:
            prompt = self.plan.prompt(state.current)
            if prompt.kind == "weigh" and prompt.line in masses:
                self.weigh(prompt.line, masses[prompt.line])
            else:
                self.answer(prompt, state)
        return self

    def answer(self, prompt, state):
        """Answer one prompt as planned."""
        answers = {
            "weigh": lambda: self.weigh(prompt.line),
            "settle": lambda: self.tap("settled", prompt.key, choice="recomputed"),
            "read": lambda: self.tap("read", prompt.key, pot="lye", temp_c=80),
            "pot check": lambda: self.tap("pot-checked", prompt.key, mass_g=state.pot_g),
            "rest test": lambda: self.tap("rest-tested", prompt.key, oil_film=False, thickens_as_it_cools=False),
            "trace": lambda: self.tap("trace-seen", prompt.key, trace="thin"),
            "split": lambda: self.tap(
                "split", prompt.key, portion=prompt.portion, mass_g=state.targets[f"portion:{prompt.portion}"]
            ),
            "draw": lambda: self.tap("drawn", prompt.key, path="zigzag", tool="skewer", passes=5),
            "look": lambda: self.tap("looked", prompt.key, gel="unknown"),
            "firmness": lambda: self.tap("firmness-checked", prompt.key, is_firm=True),
            "cut": lambda: self.tap("cut", prompt.key, bars=10, mass_g=1300, offcuts_g=50),
            "test": lambda: self.tap("tested", prompt.key, method="pH of a 1 % solution", value=9.8, passed=True),
            "release": lambda: self.tap("released", prompt.key, bars=10),
            "tick": lambda: self.tick_all(prompt),
            "scale check": lambda: self.tap("scale-checked", prompt.key, known_g=200, read_g=200.1),
        }
        answers.get(prompt.kind, lambda: self.tap("done", prompt.key))()


def hand(formula=PLAIN, **changes):
    return Hand(plan_of(formula, **changes))


def at(key, formula=PLAIN, **masses):
    """Return a hand that has played a run up to the prompt of that key."""
    return hand(formula).start().until(key, **masses)


def change(played, what, **more):
    """Tap a change, with a reason and a decision that say nothing."""
    return played.tap("changed", what=what, why="because", decision="go on", **more)
