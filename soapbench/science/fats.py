"""A weighed fat and the alkali that it takes, with the careful side for what is not sure to react."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal, get_args

from .atoms import KOH, NAOH_PER_KOH
from .errors import OutOfRange, chosen, not_negative, number
from .sources import OWN_CHOICE, STOICHIOMETRY, Constant, Relation, Source
from .words import say

Kind = Literal["triglyceride", "wax ester", "fatty acid", "unsaponifiable"]

_GLYCERIDES = Source(
    "simmons-1908-ii",
    "Simmons & Appleton, The Handbook of Soap Manufacture, London 1908",
    "chapter II, table of glycerides: butyrin, the lightest in natural fats, has the equivalent 100.7 (value 557)",
    "published",
)
_LANOLIN = Source(
    "bpc-1911-lanolin",
    "British Pharmaceutical Codex 1911, Adeps Lanae",
    "wool fat is nearly impossible to saponify in water",
    "published",
)

WIDE = Constant(
    "half-width of a published range above which the careful side is taken",
    "w",
    0.05,
    "share of the middle",
    OWN_CHOICE,
    "alkali to weigh",
    why="Beyond it the low end alone eats the 5 % superfat that most recipes carry.",
)
QUARTILE = Constant(
    "point of a wide range that counts for the alkali",
    "q",
    0.25,
    "share of the range",
    OWN_CHOICE,
    "alkali to weigh",
    why="Three lots of four then hold at least so much, if any value is as likely as another.",
)
HIGHEST_VALUE = Constant(
    "highest saponification value that a fat can have",
    "SV max",
    560.0,
    "mg KOH/g",
    _GLYCERIDES,
    "refusal of impossible values",
)
LOWEST_VALUE = Constant(
    "lowest saponification value believed of a fat or fatty acid",
    "SV min",
    100.0,
    "mg KOH/g",
    OWN_CHOICE,
    "refusal of impossible values",
    why="Trierucin has 160, and a fifth of unsaponifiable matter still leaves 128.",
)


@dataclass(frozen=True, slots=True)
class Fat:
    """A mass of one fat with the published range of its saponification value, mg KOH/g.

    sv_own is the supplier's certificate value of this very lot and wins over the range. acid_value matters for waxes
    only: the free acid of a wax reacts at once, its esters slowly. Rows of the same name and lot vary together.

    Raises:
        OutOfRange: a negative mass, a range upside down, or a value that no fat has.
    """

    name: str
    mass_g: float
    sv_low: float
    sv_high: float
    sv_own: float | None = None
    kind: Kind = "triglyceride"
    acid_value: float = 0.0
    lot: str = ""

    def __post_init__(self) -> None:
        chosen(self.kind, get_args(Kind), "a kind of fat")
        not_negative(self.mass_g, "The mass of {name}", name=self.name)
        not_negative(self.acid_value, "The acid value of {name}", "mg KOH/g", name=self.name)
        for value in (self.sv_low, self.sv_high, self.sv_own):
            if value is not None:
                check_saponification_value(value, self.name, self.kind)
        if self.sv_low > self.sv_high:
            raise OutOfRange(
                say(
                    "The saponification range of {name} is upside down: swap {sv_low:g} and {sv_high:g}.",
                    name=self.name,
                    sv_low=self.sv_low,
                    sv_high=self.sv_high,
                )
            )

    @property
    def sv_range(self) -> tuple[float, float]:
        """Return the ends between which this fat takes alkali at the bench, mg KOH/g.

        A wax counts from its free acid alone up to all of its esters; unsaponifiable matter takes nothing.
        """
        low, high = (self.sv_low, self.sv_high) if self.sv_own is None else (self.sv_own, self.sv_own)
        if self.kind == "unsaponifiable":
            return 0.0, 0.0
        if self.kind == "wax ester":
            return min(self.acid_value, high), high
        return low, high

    @property
    def sv_central(self) -> float:
        """Return the value in the middle of sv_range, or the lot's own value, mg KOH/g."""
        low, high = self.sv_range
        return (low + high) / 2

    @property
    def is_wide(self) -> bool:
        """Return whether the range is so wide that the alkali is worked out on its careful side."""
        low, high = self.sv_range
        return high - low > 2 * WIDE.value * self.sv_central

    @property
    def sv_for_alkali(self) -> float:
        """Return the value that counts for the alkali to weigh: the middle, or the lower quarter of a wide range."""
        low, high = self.sv_range
        return low + QUARTILE.value * (high - low) if self.is_wide else self.sv_central

    @property
    def mol(self) -> float:
        """Return the moles of alkali that this mass takes, central value."""
        return self.mass_g * self.sv_central / 1000 / KOH

    @property
    def koh_g(self) -> float:
        """Return the grams of pure KOH that this mass takes, central value."""
        return self.mass_g * self.sv_central / 1000

    @property
    def naoh_g(self) -> float:
        """Return the grams of pure NaOH that this mass takes, central value."""
        return self.koh_g * NAOH_PER_KOH


def check_saponification_value(value: float, name: str, kind: Kind = "triglyceride") -> float:
    """Return the value, mg KOH/g, when a fat of that kind can have it.

    Raises:
        OutOfRange: a misplaced decimal point, grams of NaOH in place of mg of KOH, no number, or an unknown kind.

    Source: butyrin, 557 mg KOH/g, is the upper end among glycerides (Simmons & Appleton 1908, chapter II).
    """
    number(value, "The saponification value of {name}", name=name)
    chosen(kind, get_args(Kind), "a kind of fat")
    lowest = LOWEST_VALUE.value if kind in ("triglyceride", "fatty acid") else 0.0
    if value > HIGHEST_VALUE.value:
        raise OutOfRange(
            say(
                "No fat has a saponification value of {value:g} mg KOH/g. Check the decimal point for {name}.",
                value=value,
                name=name,
            )
        )
    if value < lowest:
        raise OutOfRange(
            say(
                "{value:g} is too low for {name}. Enter the saponification value in mg of KOH per g, usually 180 to "
                "260; grams of NaOH per gram times 1402.7 gives it.",
                value=value,
                name=name,
            )
        )
    return value


def careful_note(fat: Fat) -> str | None:
    """Return the sentence that says why this fat is counted carefully, or None when it is counted in full.

    Source: British Pharmaceutical Codex 1911 for lanolin; British Pharmacopoeia for the slow esters of beeswax.
    """
    if fat.kind == "unsaponifiable":
        return say(
            "{name} hardly saponifies. It gets no alkali: counting its published value would leave free alkali "
            "in the bar.",
            name=fat.name,
        )
    if fat.kind == "wax ester":
        return say(
            "{name} is a wax. Its esters react slowly and give no glycerine, so it gets alkali for "
            "{sv_for_alkali:.0f} mg KOH/g only; what does not react stays in the bar as wax.",
            name=fat.name,
            sv_for_alkali=fat.sv_for_alkali,
        )
    if fat.is_wide:
        return say(
            "{name} varies a lot ({sv_low:g} to {sv_high:g} mg KOH/g). The alkali is worked out for "
            "{sv_for_alkali:.0f}, so a lean lot does not turn the bar harsh. The supplier's value for your lot "
            "would settle it.",
            name=fat.name,
            sv_low=fat.sv_low,
            sv_high=fat.sv_high,
            sv_for_alkali=fat.sv_for_alkali,
        )
    return None


def careful_notes(fats: Iterable[Fat]) -> tuple[str, ...]:
    """Return the careful notes of all fats that have one, in the order given.

    Source: as careful_note.
    """
    return tuple(note for fat in fats if (note := careful_note(fat)))


CONSTANTS = (WIDE, QUARTILE, HIGHEST_VALUE, LOWEST_VALUE)
RELATIONS = (
    Relation(
        "alkali taken by a fat",
        "KOH = mass x SV / 1000; NaOH = KOH x 0.71290",
        "g",
        STOICHIOMETRY,
        "soapbench.science.fats.Fat",
    ),
    Relation(
        "value that counts for a wide range",
        "SV = low + 0.25 x (high - low)",
        "mg KOH/g",
        OWN_CHOICE,
        "soapbench.science.fats.Fat",
    ),
    Relation(
        "values that no fat has are refused",
        "100 to 560 mg KOH/g",
        "mg KOH/g",
        _GLYCERIDES,
        "soapbench.science.fats.check_saponification_value",
    ),
    Relation(
        "why a fat is counted carefully",
        "wide range, wax ester or hardly saponifiable",
        "",
        _LANOLIN,
        "soapbench.science.fats.careful_note",
    ),
    Relation("careful notes of a recipe", "each fat in turn", "", _LANOLIN, "soapbench.science.fats.careful_notes"),
)
