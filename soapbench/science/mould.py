"""The mould: its room, how high the batter stands in it, and what stays behind in the pots."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from soapbench.science.errors import OutOfRange, chosen, fraction, not_negative, positive
from soapbench.science.interval import Interval
from soapbench.science.sources import OWN_CHOICE, Constant, Relation, Source

from .words import say

Shape = Literal["box", "slab", "cylinder", "cavities"]

GEOMETRY = Source("geometry", "Geometry", "volumes of a box and of a cylinder", "computed")
SHRUNK_MEAN = Source(
    "shrunk-mean", "Mean of the maker's own records, drawn towards a first guess", "normal-normal updating", "computed"
)
HEADROOM = Constant(
    "Room left under the rim",
    "h",
    3.0,
    "mm",
    OWN_CHOICE,
    "fits: a level fill must be carried",
    why="A level fill must be carried without a spill.",
)
POT_LOSS = Constant(
    "First guess of batter left in pots",
    "L",
    15.0,
    "g",
    OWN_CHOICE,
    "pot_loss, before any record",
    why="A coat of batter on a pot, a cup and a spatula.",
)
POT_LOSS_SD = Constant(
    "Spread of that guess", "s", 10.0, "g", OWN_CHOICE, "pot_loss", why="From a scraped steel pot to a tray of cups."
)
RECORD_SD = Constant(
    "Spread from batch to batch", "s", 5.0, "g", OWN_CHOICE, "pot_loss", why="The same hands scrape alike."
)


@dataclass(frozen=True, slots=True)
class Mould:
    """A mould by its inside measures in mm; a cylinder stands on end and is height_mm (or length_mm) deep."""

    shape: Shape
    length_mm: float = 0
    width_mm: float = 0
    height_mm: float = 0
    diameter_mm: float = 0
    cavities: int = 0
    cavity_ml: float = 0

    @property
    def depth_mm(self) -> float:
        """Return how deep the mould is; for a cylinder its length where no height is given. 0 when not known."""
        return self.height_mm or (self.length_mm if self.shape == "cylinder" else 0)

    @property
    def floor_mm2(self) -> float:
        """Return the area of the floor in mm²; 0 for cavities, whose walls may slope.

        Raises:
            OutOfRange: a measure that this shape needs is missing or not above zero.
        """
        if chosen(self.shape, get_args(Shape), "a shape of mould") == "cylinder":
            return math.pi * positive(self.diameter_mm, "The mould's diameter", "mm") ** 2 / 4
        if self.shape == "cavities":
            return 0
        length = positive(self.length_mm, "The mould's length", "mm")
        return length * positive(self.width_mm, "The mould's width", "mm")

    @property
    def volume_ml(self) -> float:
        """Return the room up to the rim in ml.

        Raises:
            OutOfRange: a measure that this shape needs is missing or not above zero.
        """
        if self.shape == "cavities":
            return positive(self.cavities, "The number of cavities", "") * positive(
                self.cavity_ml, "The volume of a cavity", "ml"
            )
        return self.floor_mm2 * positive(self.depth_mm, "The mould's depth", "mm") / 1000


@dataclass(frozen=True, slots=True)
class MouldFit:
    """Whether the batter goes in, how full the mould gets (1 = to the rim), how much is over, and the sentence."""

    ok: bool
    fill: float
    sentence: str
    over_ml: float = 0


def fill_height_mm(mould: Mould, volume_ml: float) -> float:
    """Return how high a volume stands in the mould, in mm; above the rim when it does not fit.

    For cavities it is the mean height over all of them, as if their walls were upright.

    Raises:
        OutOfRange: the volume is negative, a measure is missing, or the depth of the cavities is not given.

    Source: geometry.
    """
    not_negative(volume_ml, "The batter", "ml")
    if mould.shape == "cavities":
        return positive(mould.height_mm, "The depth of the cavities", "mm") * volume_ml / mould.volume_ml
    return volume_ml * 1000 / mould.floor_mm2


def fits(mould: Mould, volume_ml: float, headroom_mm: float = HEADROOM.value) -> MouldFit:
    """Return whether a volume goes into the mould and still leaves some room under the rim.

    Cavities are filled to the brim, so no headroom is asked of them.

    Raises:
        OutOfRange: a measure is missing or negative.

    Source: geometry; the headroom is an own choice.
    """
    not_negative(volume_ml, "The batter", "ml")
    fill = volume_ml / mould.volume_ml
    room = mould.volume_ml
    if mould.shape != "cavities":
        room -= mould.floor_mm2 * min(not_negative(headroom_mm, "The headroom", "mm"), mould.depth_mm) / 1000
    over = max(0.0, volume_ml - room)
    return MouldFit(over <= 1e-9, fill, _fit_sentence(mould, volume_ml, fill, over), over)


def fats_to_fill(mould: Mould, volume_per_g_of_fats: float, fill: float = 1.0) -> float:
    """Return the grams of fats that fill a mould to a share of its room.

    Args:
        mould: the mould.
        volume_per_g_of_fats: ml of batter made per gram of fats (batter_volume_ml by the mass of the fats);
            about 1.3 to 1.5.
        fill: share of the mould's room, above 0 to 1.

    Raises:
        OutOfRange: an input is not above zero, or the fill is above 1.

    Source: geometry.
    """
    positive(fraction(fill, "The fill of the mould"), "The fill of the mould", "")
    return mould.volume_ml * fill / positive(volume_per_g_of_fats, "The batter made per gram of fats", "ml")


def pot_loss(records: Sequence[tuple[float, float]]) -> Interval:
    """Return what stays in pots, cups and on tools, in g, with the band in which the next one falls.

    Args:
        records: pairs of (batter made in g, batter poured in g) from finished runs.

    The mean of the records is drawn towards a first guess of 15 ± 10 g (own choice), which two records
    outweigh. Standard normal updating; the band is ± 2 standard deviations, cut at 0.

    Raises:
        OutOfRange: more was poured than was made, or a mass is negative.

    Source: normal-normal updating; the first guess is an own choice.
    """
    losses = [_loss(made, poured) for made, poured in records]
    weight_prior, weight_each = 1 / POT_LOSS_SD.value**2, 1 / RECORD_SD.value**2
    total = weight_prior + weight_each * len(losses)
    mean = (POT_LOSS.value * weight_prior + sum(losses) * weight_each) / total
    spread = math.sqrt(1 / total + RECORD_SD.value**2)
    return Interval(max(0.0, mean - 2 * spread), mean, mean + 2 * spread)


def _loss(made_g: float, poured_g: float) -> float:
    positive(made_g, "The batter made")
    if not_negative(poured_g, "The batter poured") > made_g:
        raise OutOfRange(
            say(
                "{poured:.5g} g poured is more than the {made:.5g} g made. Look at the tare of the mould.",
                poured=poured_g,
                made=made_g,
            )
        )
    return made_g - poured_g


def _fit_sentence(mould: Mould, volume_ml: float, fill: float, over_ml: float) -> str:
    if mould.shape == "cavities":
        return _cavities_sentence(mould, volume_ml)
    height = fill_height_mm(mould, volume_ml)
    if over_ml <= 1e-9:
        return say(
            "The batter stands {height:.0f} mm high and fills {fill:.0f} % of the mould.",
            height=height,
            fill=100 * fill,
        )
    if fill > 1:
        beyond = volume_ml - mould.volume_ml
        return say(
            "The batter does not fit: {beyond:.0f} ml are over the rim. Have a second mould ready.", beyond=beyond
        )
    return say(
        "The batter stands {height:.0f} mm high, close under the rim of {depth:.0f} mm. Keep about "
        "{over:.0f} ml for a second mould.",
        height=height,
        depth=mould.depth_mm,
        over=over_ml,
    )


def _cavities_sentence(mould: Mould, volume_ml: float) -> str:
    count = volume_ml / mould.cavity_ml
    if count > mould.cavities + 1e-9:
        more = math.ceil(count - mould.cavities - 1e-9)
        return say(
            "The batter fills all {cavities} cavities and about {more} more. Have a second mould ready.",
            cavities=mould.cavities,
            more=more,
        )
    return say(
        "The batter fills {count} of {cavities} cavities.", count=math.floor(count + 1e-9), cavities=mould.cavities
    )


CONSTANTS = (HEADROOM, POT_LOSS, POT_LOSS_SD, RECORD_SD)
_HERE = "soapbench.science.mould."
RELATIONS = (
    Relation("Room of a mould", "l·w·h, π d²/4·h, or count·cavity", "ml", GEOMETRY, _HERE + "Mould.volume_ml"),
    Relation("Fill height", "h = V / floor", "mm", GEOMETRY, _HERE + "fill_height_mm"),
    Relation("Does it fit", "V ≤ room under the headroom", "ml", GEOMETRY, _HERE + "fits"),
    Relation("Fats to fill a mould", "room·fill / (ml of batter per g of fats)", "g", GEOMETRY, _HERE + "fats_to_fill"),
    Relation("Left in the pots", "precision-weighted mean ± 2 sd", "g", SHRUNK_MEAN, _HERE + "pot_loss"),
)
