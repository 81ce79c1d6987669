"""A batch with three portions poured in stages, for the tests of pour, drawing and cut; of our own invention."""

from dataclasses import replace

from soapbench.bars.formula import Additive, Drawing, Portion, PourStage
from soapbench.bench.pictures.loaf import Loaf
from soapbench.bench.planning.given import Tool, Vessel
from tests.bench.sample import BENCH, SWIRLED, Hand, plan_of

STAGED = replace(
    SWIRLED,
    portions=(Portion("A", "Pale", 4), Portion("B", "Dark", 3, texture="hatched"), Portion("C", "Red", 1)),
    additives=(
        Additive("indigo", 6, "grams per kg of fats", "B", "olive", 3),
        Additive("rosemary", 2, "percent of fats", "A"),
        Additive("clove", 1, "percent of fats", "B"),
    ),
    pour=(
        PourStage("layer", ("A",), 0.5, 40),
        PourStage("side by side", ("B", "A"), 0.5, 60),
        PourStage("down the middle", ("B",), 0.5, 80),
        PourStage("drops", ("C",), 1.0, 150),
    ),
    drawing=Drawing("zigzag", "skewer", 5, 20),
)
WORKSHOP = replace(
    BENCH,
    vessels=(*BENCH.vessels, Vessel("Cup one", "cup", "steel", 900, 61.3), Vessel("Cup two", "cup", "steel", 500, 50)),
    tools=(*BENCH.tools, Tool("hanger", "Hanger", "hanger"), Tool("comb", "Comb", "comb")),
)


def staged(formula=STAGED, bench=WORKSHOP, **changes):
    """Return a hand at the start of a run of the staged pour."""
    return Hand(plan_of(formula, bench=bench, **changes)).start()


def loaf_of(hand):
    return Loaf(hand.plan, hand.state)
