"""The tiles of "something is different": each kind of change with its fields and its ready answers.

Typing with wet gloves is slow, so every question has answers to tap; own words are always possible.
"""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from soapbench.bench.plan import ChangeKind

Words = tuple[str | Promise, ...]


@dataclass(frozen=True)
class ChangeTile:
    kind: ChangeKind
    title: str | Promise
    fields: tuple[str, ...]
    whys: Words
    decisions: Words


GO_ON = _("Go on")

TILES: tuple[ChangeTile, ...] = (
    ChangeTile(
        "substituted",
        _("Something else instead"),
        ("line", "material"),
        (_("Out of stock"), _("Not enough left"), _("Looks or smells wrong")),
        (_("Use it in the same amount"), _("Use it, amount changed by hand")),
    ),
    ChangeTile(
        "amount off",
        _("Another amount"),
        ("line", "mass_g"),
        (_("Poured too much"), _("Not enough left"), _("Read the scale wrong")),
        (_("Keep it and reckon with it"), _("Took some out again")),
    ),
    ChangeTile(
        "temperature off",
        _("Too hot or too cold"),
        ("temp_c",),
        (_("Cooled too far"), _("Still too hot"), _("The room is different today")),
        (_("Go on at this temperature"), _("Warm it gently"), _("Wait longer")),
    ),
    ChangeTile(
        "drawn differently",
        _("Drawn differently"),
        ("path",),
        (_("The tool was not at hand"), _("The batter was too thick"), _("Wanted to try it")),
        (_("Keep it and cut to suit"),),
    ),
    ChangeTile(
        "thickened early",
        _("Thickened early"),
        ("portion", "minutes"),
        (_("The scent did it"), _("Blended too long"), _("Too warm"), _("Don't know")),
        (_("Spoon it in"), _("Pour it first"), _("Stir by hand only")),
    ),
    ChangeTile(
        "lost or spilt",
        _("Lost or spilt"),
        ("line", "portion", "mass_g"),
        (_("Spilt"), _("Stayed in the jug"), _("Thrown away")),
        (_("Go on with what is left"), _("Weigh the loss in again")),
    ),
    ChangeTile(
        "left out",
        _("Left out"),
        ("line",),
        (_("Out of stock"), _("Not wanted this time"), _("Forgotten")),
        (_("Go on without it"),),
    ),
    ChangeTile("not at hand", _("Not at hand"), (), (), (GO_ON,)),
    ChangeTile("another scale", _("Another scale"), (), (), (GO_ON,)),
    ChangeTile(
        "interrupted",
        _("Interrupted"),
        ("minutes",),
        (_("Called away"), _("No power"), _("Something broke")),
        (GO_ON, _("Stirred again, then went on")),
    ),
    ChangeTile("other", _("Something else"), (), (), (GO_ON,)),
)


def tiles_for(kinds: tuple[ChangeKind, ...]) -> tuple[ChangeTile, ...]:
    """Return the tiles that make sense at a prompt, in their fixed order."""
    return tuple(tile for tile in TILES if tile.kind in kinds)
