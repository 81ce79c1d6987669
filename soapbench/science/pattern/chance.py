"""An example of what chance does: batter swirled in the pot. Never a forecast; the same seed gives the same picture."""

from __future__ import annotations

from random import Random

from soapbench.science.pattern.draw import Axis, Distance, Drawn, Twist
from soapbench.science.pattern.face import walls_of
from soapbench.science.pattern.pool import Box
from soapbench.science.sources import OWN_CHOICE, Constant, Relation

TURNS = Constant("Turns of an example of a pot swirl", "", 90, "", OWN_CHOICE, "pot_swirl", why="It reads as mixed.")
AMOUNT = Constant("Angle of such a turn", "σ", 1.4, "rad", OWN_CHOICE, "pot_swirl", why="It reads as poured.")
SMALLEST_MM, LARGEST_MM, REACH_MM = 14.0, 46.0, 14.0
SEED = 7


def pot_swirl(box: Box, height: float, seed: int = SEED) -> tuple[Drawn, ...]:
    """Return wide turns from above and from the end, drawn from a seed; they keep volume and walls as any stroke does.

    Source: own choice; where a pot swirl comes to lie is chance.
    """
    random = Random(seed)
    views: tuple[tuple[Axis, float, float], ...] = (
        ("z", box.length, box.width),
        ("x", box.width, height),
        ("y", box.length, height),
    )
    return tuple(
        Drawn(axis, (), 1.0, REACH_MM, ready=_turns(random, wide, high, walls_of(box, height, axis)))
        for axis, wide, high in views
    )


def _turns(random: Random, wide: float, high: float, wall: Distance) -> tuple[Twist, ...]:
    found = []
    for _ in range(int(TURNS.value / 3)):
        u, v = random.uniform(0, wide), random.uniform(0, high)
        radius = min(random.uniform(SMALLEST_MM, LARGEST_MM), wall(u, v))
        if radius > 1:
            found.append(Twist(u, v, random.gauss(0, AMOUNT.value), radius))
    return tuple(found)


CONSTANTS = (TURNS, AMOUNT)
RELATIONS = (
    Relation(
        "Example of a pot swirl",
        "seeded turns, N(0, σ) each",
        "",
        OWN_CHOICE,
        "soapbench.science.pattern.chance.pot_swirl",
    ),
)
