"""What a chosen way out does to the batch: what is still asked for, what counts at once, what is poured."""

from __future__ import annotations

from dataclasses import replace

from soapbench.bench.folding.book import LYE, POT_CHECK, SETTLE
from soapbench.bench.folding.changes import forget, reopen
from soapbench.bench.folding.effects import chemistry, outlook
from soapbench.bench.folding.superfat import situation
from soapbench.bench.folding.tally import Tally
from soapbench.bench.kinds import Remedied
from soapbench.bench.plan import Line, LineGroup
from soapbench.bench.state import Change, Fact
from soapbench.bench.words import grams, listed, percent
from soapbench.science.words import mark, say

# What the pot check found: these count what is said at once; every other way out asks for it to be weighed.
COUNTED = ("C15-out", "C15-twice")
WEIGH_AGAIN = ("C15-in", "C15-again")
# The alkali once more: from the scale back into its jar, or with water from the start when the lye is not to be used.
ALKALI_AGAIN, LYE_AGAIN = "C1", "remake"


# What to do with what is weighed in for a way out; it stands on the screen until the next step is done.
TO_DO = {
    "C4": mark("More lye: alkali into the water in small parts, let it cool, then into the jug of lye. Goggles on."),
    "C6": mark("Cool lye: alkali into the water in small parts, let it cool, then into fluid batter only. Goggles on."),
    "C7": mark("For the bigger batch."),
    "C8": mark("More water: cold, slowly, and stir until clear. Goggles on."),
}
MELTED = mark("Melt it, bring it to the warmth of the batter, blend it in while it is fluid.")


def _to_do(tally: Tally, code: str) -> str:
    if not tally.owed:
        return ""
    if code == "C5":
        return say(MELTED) if tally.is_combined else say("Into the pot with it.")
    return say(TO_DO[code]) if code in TO_DO else ""


def take_remedy(tally: Tally, fact: Fact, chosen: Remedied) -> None:
    """Apply a way out to the tally and keep it among the changes, with what follows from it."""
    before, about = outlook(tally), situation(tally)
    if chosen.factor is not None:
        tally.factor, tally.choice = chosen.factor, "recomputed"
        tally.mark_done(SETTLE, fact.happened_at)
    for key, mass in chosen.adds:
        line = tally.book.lines.get(key)
        if line is not None:
            _add(tally, line, mass, chosen)
    if chosen.lye_share is not None:
        tally.lye_share = chosen.lye_share
    if chosen.code.startswith("C15"):
        tally.pot_read_g = None
    if chosen.code in (ALKALI_AGAIN, LYE_AGAIN):
        _anew(tally, chosen.code)
    if chosen.code in WEIGH_AGAIN:
        tally.done.pop(POT_CHECK, None)
    tally.to_do = _to_do(tally, chosen.code)
    tally.decided = about  # what is off after it is another matter, and may ask again
    prompt = tally.book.prompts.get(fact.prompt)
    tally.changes.append(
        Change(
            event=fact.id,
            what="remedied",
            prompt=fact.prompt,
            prompt_title=prompt.title if prompt else "",
            why=about or say("Chosen at the bench."),
            decision=chosen.decision,
            effect=" ".join(part for part in (_said(tally, chosen), chemistry(tally, before)) if part) or say("Kept."),
            at=fact.happened_at,
            person=fact.person,
            details={"code": chosen.code},
        )
    )


def _add(tally: Tally, line: Line, mass_g: float, chosen: Remedied) -> None:
    weight = tally.weights.get(line.key)
    if chosen.code in COUNTED and weight is not None:
        left = round(max(0.0, weight.mass_g + mass_g), 6)
        tally.weights[line.key] = replace(weight, mass_g=left)
        if left == 0:
            forget(tally, line)
            tally.left_out[line.key] = chosen.decision
    elif tally.is_open(line):
        tally.shift[line.key] = tally.shift.get(line.key, 0.0) + mass_g
    elif mass_g > 0:
        tally.owed[line.key] = mass_g
        tally.done.pop(tally.book.weigh_prompts.get(line.key, ""), None)


def _anew(tally: Tally, code: str) -> None:
    """Ask for the alkali once more; of a lye that is set aside, all of it is spent."""
    groups: tuple[LineGroup, ...] = ("alkali",) if code == ALKALI_AGAIN else ("alkali", "water", "liquid")
    for line in tally.plan.in_group(*groups):
        if line.key not in tally.book.jug_keys:
            continue
        weight = tally.weights.get(line.key)
        if code == LYE_AGAIN and weight is not None and weight.lot is not None:
            tally.spent[weight.lot] = round(tally.spent.get(weight.lot, 0.0) + weight.mass_g, 6)
        reopen(tally, line)
    if code == LYE_AGAIN:
        tally.is_alkali_unknown = False
        tally.lye_share = 1.0
        tally.done.pop(LYE, None)


def _said(tally: Tally, chosen: Remedied) -> str:
    parts = []
    if chosen.factor is not None:
        parts.append(say("The batch is made {factor} as large as planned.", factor=percent(chosen.factor)))
    named = [
        say("{mass} of {name}", mass=("+" if mass > 0 else "") + grams(mass), name=tally.name_of(line))
        for key, mass in chosen.adds
        if (line := tally.book.lines.get(key)) is not None
    ]
    if named:
        parts.append(f"{listed(named)}.")
    if chosen.lye_share is not None:
        parts.append(say("{lye_share} of the lye is poured.", lye_share=percent(chosen.lye_share)))
    return " ".join(parts)
