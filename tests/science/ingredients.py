"""What sensible calls of the science are made from: an olive oil, a jug, a loaf."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from soapbench.science import (
    alkali,
    cooling,
    cooling_window,
    cure,
    cut,
    doses,
    fats,
    interval,
    mould,
    portions,
    pour,
    profile,
    profile_check,
    restricted,
    scale,
    working_time,
)

# No sums of the bench: the checks that raise, the page of sources, and the arithmetic under the sums, the fits and the
# lines of a drawing.


@dataclass(frozen=True)
class Choice:
    """A word out of a fixed list; any other word must be refused."""

    word: str


@dataclass(frozen=True)
class Made:
    """A thing made from other things, so that each of them can be spoilt."""

    how: Callable[..., Any]
    given: Mapping[str, Any]


def made(how: Callable[..., Any], **given: Any) -> Made:
    return Made(how, given)


OLIVE = made(fats.Fat, name="olive", mass_g=400.0, sv_low=184.0, sv_high=196.0)
SHEA = made(fats.Fat, name="shea", mass_g=200.0, sv_low=160.0, sv_high=195.0, sv_own=180.0)
BEESWAX = made(
    fats.Fat, name="beeswax", mass_g=20.0, sv_low=87.0, sv_high=104.0, kind=Choice("wax ester"), acid_value=20.0
)
FATS = (OLIVE, SHEA, BEESWAX)
ALKALI = made(alkali.Alkali, naoh_share=0.9, naoh_purity=0.98, koh_purity=0.9, shares_by=Choice("mass"))
WEIGHED = made(alkali.AlkaliMass, naoh_g=75.0, koh_g=12.0)
CITRIC = (made(alkali.Acid, name="citric acid", mass_g=5.0, koh_mg_per_g=876.0),)
SCALE = made(scale.Weighing, resolution_g=1.0, repeat_g=0.5, mpe_g=1.0)
BATCH = {"fats": FATS, "weighed": WEIGHED, "alkali": ALKALI, "acids": CITRIC}
PORTION = made(portions.Portion, letter="A", share=0.4, oil=(OLIVE,), acids=CITRIC)
LIMIT = made(doses.Limit, max_percent=1.4, of=Choice("finished product"), source="IFRA", confidence="published")
BOX = made(mould.Mould, shape=Choice("box"), length_mm=240.0, width_mm=84.0, height_mm=64.0)
CAVITIES = made(mould.Mould, shape=Choice("cavities"), height_mm=30.0, cavities=6, cavity_ml=120.0)
SLICES = made(cut.CutPlan, way=Choice("slices"), thickness_mm=25.0, trim_mm=3.0, kerf_mm=1.0)
READINGS = (
    made(cooling.Reading, minutes=0.0, temp_c=80.0),
    made(cooling.Reading, minutes=8.0, temp_c=66.0),
    made(cooling.Reading, minutes=16.0, temp_c=57.0),
)
PRIOR = made(cooling.Prior, ln_k_mean=-3.7, ln_k_sd=0.6)
LEARNT = made(cooling.LearntRate, mean=-3.7, sd=0.3, runs=2)
FIT = made(cooling.fit, readings=READINGS, room_c=20.0, prior=PRIOR)
WEIGHINGS = (
    made(cure.Weighed, day=0.0, mass_g=130.0),
    made(cure.Weighed, day=7.0, mass_g=124.0),
    made(cure.Weighed, day=21.0, mass_g=119.0),
)
CURE = made(cure.fit_drying, weighings=WEIGHINGS, water_fraction=0.2)
BAND = made(interval.Interval, low=20.0, central=25.0, high=30.0)
POT_TIMES = made(cooling_window.PotTimes, pot="lye", enters=BAND, leaves=BAND)
OLIVE_ACIDS = {"C16:0": (7.5, 20.0), "C18:1": (55.0, 83.0), "C18:2": (2.5, 21.0)}
FAT_PROFILE = made(profile.FatProfile, name="olive", mass_g=400.0, composition=OLIVE_ACIDS)
PUBLISHED_FAT = made(
    profile_check.PublishedFat,
    profile=FAT_PROFILE,
    saponification_value=(184.0, 196.0),
    iodine_value=(75.0, 94.0),
)
PROFILE = made(profile.profile_of, fats=(FAT_PROFILE,))
SCENTS = (made(restricted.Scent, name="clove", mass_g=5.0, parts={"eugenol": 0.85, "methyl eugenol": 0.0013}),)
BATTER = {"fats": ((400.0, 0.91), (200.0, 0.9)), "alkali_g": 85.0, "water_g": 170.0, "others_g": 20.0}
PORTIONS = (
    made(working_time.ScentedPortion, letter="A", working_minutes=12.0, scent_minutes=1.0, pour_minutes=1.5),
    made(working_time.ScentedPortion, letter="B", working_minutes=5.0, scent_minutes=1.5, pour_minutes=1.5),
)
DOSE = made(doses.PortionDose, portion="A", mass_g=4.0, product_g=400.0)
ENTRY = {
    "kind": Choice("fat"),
    "tares": {"jug": 120.0},
    "running_total_g": 700.0,
    "other_targets": {"palm": 300.0},
}

SHARED = made(cooling_window.Window, opens=20.0, closes=30.0, sentence="")
ROOM = made(pour.Room, length_mm=240.0, width_mm=84.0, height_mm=64.0)
STAGES = (
    made(pour.Stage, way="layer", portions=(("A", 400.0),)),
    made(pour.Stage, way="drops", portions=(("B", 200.0),), height_mm=80.0),
)
