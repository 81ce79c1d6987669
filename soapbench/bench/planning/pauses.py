"""The four pause points of seven items at most: before the alkali, before lye meets fats, before the pour, at the end.

The first is part of the gate and ticked one by one. The others are confirmed together, and stop nobody.
"""

from __future__ import annotations

from soapbench.bench.folding.book import CLEAN, PROTECTION
from soapbench.bench.plan import Prompt, Tick, Timer
from soapbench.bench.planning import cautions
from soapbench.bench.planning.asking import said
from soapbench.bench.planning.given import Batch
from soapbench.bench.planning.heat import lye_jug
from soapbench.science.words import mark, say

GEAR = (
    Tick(
        "goggles",
        mark("Splash goggles are on"),
        "protection",
        mark("Closed all round. Spectacles do not do."),
        alone=True,
    ),
    Tick(
        "gloves",
        mark("Gloves are on and have no holes"),
        "protection",
        mark("Nitrile, neoprene or butyl, long cuffs."),
        alone=True,
    ),
    Tick(
        "clothes",
        mark("Long sleeves, apron, closed shoes"),
        "protection",
        mark("No wool, no silk, no rings."),
        alone=True,
    ),
    Tick("water", mark("Running water is ten seconds away"), "room", mark("The way to it is clear."), alone=True),
    Tick("air", mark("The air is moving"), "room", mark("A window is open or the hood is on."), alone=True),
    Tick("people", mark("Children, animals, visitors are out"), "room", alone=True),
)
LOOK_MINUTES = 30.0  # when a loaf that overheats starts to show it; own choice


def before_alkali(batch: Batch) -> Prompt:
    """Return the pause before the jar of alkali is opened: each item is ticked by itself."""
    jug = Tick(
        "lye-tag",
        say("{lye_jug} is marked LYE", lye_jug=lye_jug(batch)[0]),
        "room",
        say("No plain water of like look near it."),
        alone=True,
    )
    return Prompt(
        key=PROTECTION,
        phase="lye",
        kind="tick",
        title=say("Stop. Before the alkali is opened"),
        detail=say("Tick each one. The lye prompts stay shut until then."),
        ticks=(*map(said, GEAR), jug),
        cautions=(cautions.GEAR,),
        changes=("interrupted", "other"),
    )


def before_combining() -> Prompt:
    """Return the pause before lye meets fats: from there on there is no long break."""
    return Prompt(
        key="before-combine",
        phase="combine",
        kind="tick",
        title=say("Stop. Before the lye meets the fats"),
        ticks=_of(
            "before-combine",
            ("lye", say("The lye is clear"), say("No grain in it. It is the jug marked LYE.")),
            ("fats", say("The fats are clear"), say("No solid bit, no cloud.")),
            ("reach", say("Cups, colours, scents stand ready"), say("In the order in which they go in.")),
            ("mould", say("The mould stands lined and level"), ""),
            ("gear", say("Goggles and gloves are on"), ""),
        ),
        changes=("temperature off", "interrupted", "other"),
    )


def before_pouring() -> Prompt:
    """Return the pause before the scents and the pour: from there on the working times run."""
    return Prompt(
        key="before-pour",
        phase="portions",
        kind="tick",
        title=say("Stop. Before the pour"),
        ticks=_of(
            "before-pour",
            ("trace", say("The batter is even, no oil on top"), ""),
            ("mould", say("Mould and divider are in place"), ""),
            ("tool", say("The drawing tool lies at hand"), ""),
            ("cups", say("No colour or addition is left over"), ""),
        ),
        changes=("thickened early", "interrupted", "other"),
    )


def before_leaving() -> Prompt:
    """Return the pause before the bench is left: the clean-up, and nothing caustic stays about."""
    return Prompt(
        key=CLEAN,
        phase="rest",
        kind="tick",
        title=say("Clean up before you leave the bench"),
        ticks=_of(
            CLEAN,
            ("jar", say("The alkali jar is shut and away"), ""),
            ("lye", say("No lye is left standing"), say("Jug, cups and blender are rinsed.")),
            ("bench", say("The bench is wiped twice"), ""),
            ("cups", say("No full cup is left over"), say("A scent or colour left over was forgotten.")),
            ("loaf", say("The mould is marked RAW SOAP"), say("With the batch code, out of reach.")),
            ("heat", say("Plate and blender are off"), ""),
        ),
        cautions=(cautions.RINSE,),
        timer=Timer("look", say("Loaf: look for swelling"), LOOK_MINUTES, until="look"),
        changes=("left out", "lost or spilt", "interrupted", "other"),
    )


def _of(prompt: str, *items: tuple[str, str, str]) -> tuple[Tick, ...]:
    return tuple(Tick(f"{prompt}:{key}", text, "room", detail) for key, text, detail in items)


def with_pause(batch: Batch, prompts: list[Prompt]) -> list[Prompt]:
    """Return the prompts of the portions with the pause before the first scent that starts a clock, or first pour."""
    starts = (n for n, prompt in enumerate(prompts) if prompt.kind == "pour" or prompt.timer is not None)
    at = next(starts, len(prompts))
    return [*prompts[:at], before_pouring(), *prompts[at:]]
