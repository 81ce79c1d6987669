"""One sensible call of every public function of the science, as data that a test can spoil piece by piece."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from importlib import import_module
from inspect import getmembers, isfunction
from pkgutil import iter_modules
from typing import Any

import soapbench.science
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
WITHOUT_SUMS = {"arithmetic", "cooling_grid", "errors", "posterior", "pour_bump", "sources", "stroke_shapes"}
# The geometry of pours, drawings and cuts is held against other sums in tests of its own, with every shape it knows.
DRAWN = {
    "late_pour",
    "cut_advice",
    "cut_planes",
    "drawing_fit",
    "landing",
    "pour",
    "pour_bump",
    "stroke_shapes",
    "strokes",
}


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


def public_functions() -> dict[str, Callable[..., Any]]:
    """Return every public function of the science by its dotted name."""
    found: dict[str, Callable[..., Any]] = {}
    for name in sorted(module.name for module in iter_modules(soapbench.science.__path__)):
        module = import_module(f"soapbench.science.{name}")
        for function_name, function in getmembers(module, isfunction):
            if function.__module__ == module.__name__ and not function_name.startswith("_"):
                found[f"{name}.{function_name}"] = function
    return found


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

CALLS: dict[str, dict[str, Any]] = {
    "acids.acid_of": {"kind": Choice("lactic"), "mass_g": 20.0, "strength": 0.8},
    "acids.citric_acid": {"mass_g": 10.0, "form": Choice("anhydrous")},
    "acids.salt_made_g": {"kind": Choice("lactic"), "mass_g": 20.0, "strength": 0.8, "naoh_mole_share": 0.5},
    "acids.acid_for_salt_g": {"kind": Choice("lactic"), "salt_g": 20.0, "strength": 0.8, "naoh_mole_share": 0.5},
    "alkali.acid_mol": {"acids": CITRIC},
    "alkali.demand_mol": {"fats": FATS, "acids": CITRIC},
    "alkali.careful_mol": {"fats": FATS},
    "alkali.full_demand_naoh_g": {"fats": FATS},
    "alkali.alkali_mixture": {"mol": 2.0, "alkali": ALKALI},
    "alkali.alkali_for": {"fats": FATS, "superfat": 0.05, "alkali": ALKALI, "acids": CITRIC},
    "alkali.check_superfat": {"superfat": 0.05},
    "alkali.pure_equivalents": {"weighed": WEIGHED, "alkali": ALKALI},
    "alkali.superfat_of": BATCH,
    "alkali.excess_alkali_g": BATCH,
    "analysis.saponification_value": {"molar_mass": 885.0},
    "analysis.wax_saponification_value": {"molar_mass": 606.0},
    "analysis.mean_molar_mass": {"value": 190.0},
    "analysis.saponification_equivalent": {"value": 190.0},
    "analysis.value_from_titration": {"sample_g": 1.9, "volume_ml": 6.6, "mol_per_l": 1.0},
    "analysis.free_acid_share": {"acid_value": 15.0, "acid_molar_mass": 282.0},
    "analysis.ester_value": {"value": 196.0, "acid_value": 15.0},
    "atoms.molar_mass": {"c": 18, "h": 36, "o": 2, "na": 0, "k": 0},
    "balance.mass_balance": {"fat_g": 100.0, "saponification_value": 190.0, "acid_value": 7.0, "inert_share": 0.1},
    "batter.fats_volume_ml": {"fats": BATTER["fats"]},
    "batter.batter_volume_ml": {**BATTER, "solute": Choice("NaOH"), "temperature_c": 40.0, "air": 0.02},
    "batter.batter_density": {**BATTER, "solute": Choice("KOH"), "temperature_c": 40.0, "air": 0.02},
    "batter.measured_density": {"mass_in_mould_g": 1000.0, "volume_ml": 980.0},
    "carbonate.purity_without_carbonate": {"total_alkali": 0.98, "carbonate": 0.01, "solute": Choice("NaOH")},
    "carbonate.alkali_lost_g": {"carbon_dioxide_g": 2.0, "solute": Choice("NaOH")},
    "carbonate.alkali_as_carbonate_g": {"carbonate_g": 2.0, "solute": Choice("KOH")},
    "cooling.learn": {"learnt": LEARNT, "fit": FIT, "heat_capacity_kj_per_k": 1.5},
    "cooling_fit.fit": {"readings": READINGS, "room_c": 20.0, "prior": PRIOR, "peak_minutes": 1.0},
    "cooling.rate_of": {"fit": FIT},
    "cooling.minutes_to": {"fit": FIT, "target_c": 40.0},
    "cooling.curve_until": {"fit": FIT, "until_minutes": 90.0, "points": 5},
    "cooling.both_in_window": {"fit_lye": FIT, "fit_fats": FIT, "low_c": 35.0, "high_c": 45.0},
    "cooling_law.pot_heat_capacity": {
        "liquid_g": 500.0,
        "kj_per_kg_k": 3.6,
        "jug_g": 150.0,
        "material": Choice("polypropylene"),
    },
    "cooling_law.prior_for": {"heat_capacity_kj_per_k": 1.5, "learnt": LEARNT},
    "cooling_law.learn_rate": {
        "learnt": LEARNT,
        "ln_k_mean": -3.7,
        "ln_k_sd": 0.1,
        "heat_capacity_kj_per_k": 1.5,
    },
    "cooling_law.temperature_after": {
        "minutes": 30.0,
        "start_c": 80.0,
        "room_c": 20.0,
        "k": 0.02,
        "exponent": 1.3,
    },
    "cooling_law.minutes_between": {
        "start_c": 80.0,
        "target_c": 40.0,
        "room_c": 20.0,
        "k": 0.02,
        "exponent": 1.3,
    },
    "cooling_law.check_temperature": {"temp_c": 40.0},
    "cooling_window.window": {"lye": POT_TIMES, "fats": POT_TIMES, "low_c": 35.0, "high_c": 45.0},
    "cooling_window.check_window": {"low_c": 35.0, "high_c": 45.0},
    "cooling_window.below_window_advice": {"pot": "fats", "temp_c": 30.0, "low_c": 35.0, "high_c": 45.0},
    "cooling_window.ways_into_window": {
        "shared": SHARED,
        "lye_c": 50.0,
        "fats_c": 30.0,
        "low_c": 35.0,
        "high_c": 45.0,
    },
    "cooling_window.reading_doubt": {"readings": READINGS, "new": READINGS[2], "room_c": 20.0},
    "cure.fit_drying": {"weighings": WEIGHINGS, "water_fraction": 0.2, "resolution_g": 1.0, "thickness_mm": 25.0},
    "cure.expected_mass": {"fit": CURE, "day": 30.0},
    "cure.label_mass_g": {"fit": CURE, "day": 30.0},
    "cure.loss_per_week": {"fit": CURE, "day": 30.0},
    "cure.day_loss_below": {"fit": CURE, "threshold_g": 0.5},
    "cut_advice.advise_cut": {
        "path": "spiral",
        "rod": "upright",
        "pours": ("layer",),
        "shape": "box",
        "planned": "slices",
    },
    "cut_planes.planes": {"mould": BOX, "fill_height_mm": 60.0, "plan": SLICES},
    "cut_planes.turned": {
        "mould": BOX,
        "fill_height_mm": 60.0,
        "way": Choice("long planks"),
        "bar_ml": 120.0,
        "trim_mm": 3.0,
    },
    "cut.pieces_along": {"size_mm": 240.0, "target_mm": 25.0, "trim_mm": 6.0, "kerf_mm": 1.0},
    "cut.cut_yield": {"mould": BOX, "fill_height_mm": 60.0, "plan": SLICES, "density": 1.03},
    "cut.thickness_for_mass": {
        "mould": BOX,
        "fill_height_mm": 60.0,
        "mass_g": 120.0,
        "density": 1.03,
        "plan": SLICES,
    },
    "cut.cut_into": {"mould": BOX, "fill_height_mm": 60.0, "plan": SLICES, "bars": 8, "density": 1.03},
    "cut.cast_into": {"mould": CAVITIES, "volume_ml": 600.0, "bars": 5, "density": 1.03},
    "cut.mass_to_pour": {"mould": BOX, "bars_g": 1000.0, "plan": SLICES, "density": 1.03},
    "cut.wires_along": {"size_mm": 240.0, "wires": 9, "pitch_mm": 25.0},
    "doses.dose_g": {"amount": 3.0, "basis": Choice("percent of fats"), "fats_g": 600.0, "batter_g": 900.0},
    "doses.finished_g": {"batter_g": 900.0, "loss": 0.15},
    "doses.check_dose": {"name": "citral", "mass_g": 4.0, "product_g": 400.0, "limit": LIMIT},
    "doses.largest_dose_g": {"product_g": 400.0, "limit": LIMIT},
    "doses.check_portions": {"name": "citral", "doses": (DOSE, DOSE), "limit": LIMIT},
    "doses.spoon_to_g": {"spoons": 2.0, "spoon_ml": 5.0, "density_g_per_ml": 0.8},
    "doubts.entry_doubts": {"entered_g": 430.0, "target_g": 400.0, "resolution_g": 1.0, **ENTRY},
    "drawing_fit.bears": {"path": Choice("spiral"), "tool_kind": "comb", "spacing_mm": 10.0},
    "drawing_fit.trace_now": {"seen": "thin", "used": 0.4},
    "drawing_fit.is_borne": {"thickest": "medium", "now": "thin"},
    "drawing_fit.cannot_show": {"path": "spiral", "rod": "upright", "pours": ("layer",)},
    "drying.mass_after": {"days": 30.0, "start_g": 130.0, "final_g": 112.0, "tau_days": 30.0, "n": 0.8},
    "drying.day_for_loss": {
        "start_g": 130.0,
        "final_g": 112.0,
        "tau_days": 30.0,
        "n": 0.8,
        "threshold_g": 0.5,
    },
    "drying.student_95": {"freedom": 20},
    "drying.water_left": {"fresh_water_fraction": 0.2, "fresh_g": 130.0, "now_g": 120.0},
    "drying.water_at_pour": {"water_g": 200.0, "batter_g": 1000.0},
    "drying.settled": {"before": (121.0, 120.0, 122.0), "after": (120.5, 119.8, 121.9)},
    "false_trace.rest_result": {"oil_film": True, "thickens_as_it_cools": True, "warm_to_c": 35.0},
    "fats.check_saponification_value": {"value": 190.0, "name": "olive", "kind": Choice("triglyceride")},
    "fats.careful_note": {"fat": SHEA},
    "fats.careful_notes": {"fats": FATS},
    "fatty_acids.acid_molar_mass": {"code": Choice("C18:1")},
    "fatty_acids.glyceride_molar_mass": {"code": Choice("C18:1")},
    "fatty_acids.double_bonds": {"code": Choice("C18:1")},
    "fatty_acids.carbon_atoms": {"code": Choice("C18:1")},
    "fatty_acids.iodine_factor": {"code": Choice("C18:1")},
    "fatty_acids.free_acid_iodine_factor": {"code": Choice("C18:1")},
    "fatty_acids.sodium_soap_molar_mass": {"code": Choice("C18:1")},
    "jug.material": {"name": Choice("glass")},
    "jug.heat_capacity_of": {"material_name": Choice("glass")},
    "unmould.unmould_window": {
        "process": Choice("gel"),
        "lye_concentration": 0.33,
        "olive_share": 0.4,
        "salt_share": 0.0,
        "oven_hours": 1.0,
    },
    "unmould.look_again": {"firmness_hours": 24.0},
    "unmould.gel_is_settled": {"hours": 4.0},
    "jug.jug_check": {
        "material_name": Choice("polypropylene"),
        "jug_ml": 1000.0,
        "lye_ml": 400.0,
        "hottest_c": 95.0,
    },
    "lye.water_g": {"by": Choice("lye concentration"), "value": 0.33, "alkali_g": 85.0, "fats_g": 600.0},
    "lye.concentration": {"alkali_g": 85.0, "water_g": 170.0},
    "lye.water_to_alkali": {"strength": 0.33},
    "lye.lye_volume_ml": {"alkali_g": 85.0, "water_g": 170.0, "solute": Choice("NaOH"), "temperature_c": 60.0},
    "lye_heat.heat_of_solution": {"solute": Choice("KOH"), "w": 0.3, "purity": 0.9},
    "lye_heat.peak_temperature": {
        "alkali_g": 85.0,
        "water_g": 170.0,
        "start_c": 20.0,
        "solute": Choice("NaOH"),
        "ice_g": 40.0,
        "ice_c": -18.0,
        "jug_g": 150.0,
        "jug_material": Choice("polypropylene"),
        "purity": 0.98,
    },
    "lye_heat.start_warning": {"start_c": 26.0},
    "lye_heat.ice_for_peak": {"alkali_g": 85.0, "water_g": 170.0, "start_c": 20.0, "limit_c": 60.0},
    "lye_start.hottest_allowed": {"w": 0.33, "jug_c": 80.0},
    "lye_start.start_for_peak": {
        "alkali_g": 85.0,
        "water_g": 170.0,
        "limit_c": 90.0,
        "solute": Choice("NaOH"),
        "purity": 0.98,
    },
    "lye_start.lye_start": {
        "alkali_g": 85.0,
        "water_g": 170.0,
        "room_c": 28.0,
        "step_g": 0.1,
        "jug_c": 80.0,
        "solute": Choice("NaOH"),
        "purity": 0.98,
    },
    "lye_properties.density_g_per_ml": {"solute": Choice("NaOH"), "w": 0.33, "temperature_c": 40.0},
    "lye_properties.heat_capacity": {"solute": Choice("KOH"), "w": 0.33, "temperature_c": 40.0},
    "lye_properties.solubility_limit": {"solute": Choice("NaOH"), "temperature_c": 20.0},
    "lye_properties.boiling_point_c": {"w": 0.33},
    "lye_properties.vapour_pressure_kpa": {"w": 0.33, "temperature_c": 60.0},
    "lye_properties.enthalpy_kj_per_kg": {"w": 0.33, "temperature_c": 60.0},
    "lye_properties.check_solute": {"solute": Choice("KOH")},
    "lye_properties.check_strength": {"w": 0.33},
    "lye_properties.check_temperature": {"temperature_c": 40.0},
    "mixing.mixing_temperature": {
        "fats_g": 600.0,
        "fats_c": 45.0,
        "lye_g": 255.0,
        "lye_c": 35.0,
        "w": 0.33,
        "solute": Choice("NaOH"),
    },
    "mixing.fats_temperature_for": {"mix_c": 40.0, "fats_g": 600.0, "lye_g": 255.0, "lye_c": 35.0, "w": 0.33},
    "mixing.false_trace_warning": {"mix_c": 30.0, "highest_melting_c": 38.0},
    "mixing.saponification_rise": {
        "alkali_mol": 2.0,
        "fats_g": 600.0,
        "lye_g": 255.0,
        "w": 0.33,
        "solute": Choice("NaOH"),
    },
    "mixing.gel_temperature": {"water_fraction": 0.2},
    "mixing.heat_loss": {"batter_g": 900.0, "insulated": True},
    "mixing.gel_outlook": {
        "batter_g": 900.0,
        "water_fraction": 0.2,
        "mix_c": 40.0,
        "alkali_mol": 2.0,
        "fats_g": 600.0,
        "lye_g": 255.0,
        "insulated": False,
        "flags": ("honey",),
        "w": 0.33,
    },
    "mould.fill_height_mm": {"mould": BOX, "volume_ml": 1000.0},
    "mould.fits": {"mould": BOX, "volume_ml": 1000.0, "headroom_mm": 3.0},
    "mould.fats_to_fill": {"mould": CAVITIES, "volume_per_g_of_fats": 1.4, "fill": 0.9},
    "mould.pot_loss": {"records": ((1000.0, 985.0), (900.0, 888.0))},
    "portions.portion_superfats": {
        "base_fats": FATS,
        "weighed": WEIGHED,
        "alkali": ALKALI,
        "portions": (PORTION,),
        "acids": CITRIC,
    },
    "portions.portion_of": {"base_fats": FATS, "weighed": WEIGHED, "portion": PORTION},
    "portions.portion_interval": {
        "base_fats": FATS,
        "weighed": WEIGHED,
        "alkali": ALKALI,
        "portion": PORTION,
        "acids": CITRIC,
        "scale": SCALE,
    },
    "effect.fat_slope": {"fat": OLIVE, "fats": FATS, "superfat": 0.05},
    "effect.alkali_slope": {"jar": Choice("NaOH"), "fats": FATS, "alkali": ALKALI},
    "effect.mol_per_g": {"jar": Choice("KOH"), "alkali": ALKALI},
    "effect.tolerance_by_effect": {"slope_per_g": -0.0066, "target_g": 143.6, "resolution_g": 0.1},
    "split_weighing.split_weighing": {
        "to_go_g": 1351.5,
        "capacity_g": 1550.0,
        "resolution_g": 0.1,
        "tare_g": 640.0,
        "in_it_g": 0.0,
        "room_g": 4000.0,
        "cup_tare_g": 60.0,
        "cup_room_g": 900.0,
    },
    "pot.pot_check": {
        "expected_g": 800.0,
        "read_g": 700.0,
        "weighings": 3,
        "resolution_g": 1.0,
        "parts": {"olive": 400.0, "shea": 100.0},
    },
    "profile.check_composition": {"composition": OLIVE_ACIDS, "name": "olive"},
    "pour.room_of": {"mould": BOX},
    "pour.sinks_to": {"height_mm": 50.0},
    "pour.pour": {"room": ROOM, "stages": STAGES},
    "profile.profile_of": {"fats": (FAT_PROFILE,)},
    "profile.calculated_saponification_value": {"composition": OLIVE_ACIDS, "kind": Choice("triglyceride")},
    "profile.calculated_iodine_value": {"composition": OLIVE_ACIDS, "kind": Choice("fatty acid")},
    "profile_check.compare_values": {"fats": (PUBLISHED_FAT,)},
    "profile_words.sentences": {"profile": PROFILE},
    "profile_words.compare_with_published": {"what": "value", "calculated": BAND, "low": 184.0, "high": 196.0},
    "remedy_after.superfat_now": BATCH,
    "remedy_after.fat_to_add": {**BATCH, "superfat": 0.05, "other": OLIVE},
    "remedy_after.alkali_to_add": {**BATCH, "superfat": 0.05},
    "remedy_after.remedies_lye_in": {**BATCH, "superfat": 0.05},
    "remedy_answer.percent": {"share": 0.05},
    "remedy_answer.scaled": {"fats": FATS, "factor": 1.2},
    "remedy_before.recompute_alkali": {
        "fats": FATS,
        "superfat": 0.05,
        "alkali": ALKALI,
        "acids": CITRIC,
        "concentration": 0.33,
    },
    "remedy_before.water_for": {"alkali_g": 85.0, "concentration": 0.33},
    "remedy_before.keep_proportions": {"planned": FATS, "factor": 1.2},
    "remedy_before.shrink_to_stock": {"planned": FATS, "short": Choice("olive"), "have_g": 300.0},
    "remedy_before.substitute": {"planned": FATS, "short": Choice("olive"), "have_g": 300.0, "other": SHEA},
    "remedy_before.add_what_is_owed": {"actual": (OLIVE,), "planned": FATS},
    "remedy_before.take_less_of": {
        "actual": FATS,
        "planned": FATS,
        "over": Choice("olive"),
        "other": Choice("shea"),
    },
    "remedy_before.keep_planned_alkali": {"actual": FATS, "planned": WEIGHED, "alkali": ALKALI, "acids": CITRIC},
    "remedy_before.remedies_before_lye": {
        "fats_actual": FATS,
        "fats_planned": FATS,
        "superfat": 0.05,
        "alkali": ALKALI,
        "acids": CITRIC,
    },
    "remedy_dose.dose_for_portion": {"rate": 0.03, "share": 0.4, "fats_g": 600.0},
    "remedy_dose.dose_for_rest": {"dose_g": 18.0, "poured_share": 0.3},
    "remedy_dose.mould_gap": {"volume_ml": 900.0, "mould_ml": 1000.0},
    "remedy_dose.keep_the_shade": {"share": 0.4, "have_g": 3.0, "need_g": 4.0, "batter_g": 900.0},
    "remedy_dose.keep_the_size": {"rate": 0.02, "have_g": 3.0, "need_g": 4.0},
    "remedy_dose.cure_progress": {"fresh_g": 130.0, "now_g": 120.0, "fresh_water": 0.2, "week_ago_g": 121.0},
    "remedy_lye.pour_part_of_lye": {"made_g": 85.0, "solution_g": 255.0, "needed_g": 80.0},
    "remedy_lye.make_more_lye": {"made_g": 85.0, "solution_g": 255.0, "needed_g": 90.0},
    "remedy_lye.put_water_right": {"alkali_g": 85.0, "water_g": 150.0, "concentration": 0.33},
    "remedy_lye.share_of_stock_lye": {"needed_g": 85.0, "stock_alkali_g": 400.0, "stock_water_g": 600.0},
    "remedy_lye.remedies_lye_made": {
        "fats": FATS,
        "made": WEIGHED,
        "water_g": 170.0,
        "superfat": 0.05,
        "alkali": ALKALI,
        "acids": CITRIC,
    },
    "restricted.strictest_limit": {"substance": "citral"},
    "restricted.substance_totals": {"scents": SCENTS},
    "restricted.check_substances": {"scents": SCENTS, "product_g": 900.0},
    "restricted.largest_share_of_oil": {"substance": Choice("citral"), "share_in_oil": 0.8},
    "rounding.round_to": {"mass_g": 123.4, "resolution_g": 1.0},
    "rounding.round_keeping_total": {"masses": (123.4, 234.6, 0.3), "resolution_g": 1.0},
    "rounding.tolerance_g": {"kind": Choice("alkali"), "target_g": 85.0, "resolution_g": 0.1},
    "rounding.smallest_sensible_g": {"resolution_g": 0.1},
    "rounding.scale_too_coarse": {"resolution_g": 1.0, "alkali_g": 85.0},
    "scale.weighing_u": {"scale": SCALE},
    "scale.weighing_limit": {"scale": SCALE},
    "scale_check.check_limit_g": {"known_g": 200.0, "resolution_g": 0.1},
    "scale_check.scale_check": {"known_g": 200.0, "read_g": 200.1, "resolution_g": 0.1},
    "scale.permissible_error_g": {"load_g": 500.0, "interval_g": 1.0, "scale_class": Choice("III")},
    "scent_time.working_minutes": {"behaviour": Choice("calm"), "records": (18.0, 22.0)},
    "scent_time.learnt_minutes": {"guess": 10.0, "records": (8.0, 9.0)},
    "scent_time.usual_trace_minutes": {"records": (4.0, 6.0)},
    "scent_time.at_temperature": {"minutes": 10.0, "measured_c": 40.0, "wanted_c": 35.0},
    "scent_time.planning_minutes": {"working": BAND},
    "scent_time.cooler_by_k": {"factor": 1.4},
    "strokes.rod_of": {"tool_kind": "hanger"},
    "strokes.path_of": {
        "name": Choice("spiral"),
        "length_mm": 240.0,
        "width_mm": 84.0,
        "passes": 4,
        "spacing_mm": 12.0,
        "height_mm": 60.0,
    },
    "superfat.superfat_interval": {**BATCH, "scale": SCALE, "alkali_scale": SCALE, "purity_half_width": 0.01},
    "superfat.value_half_width": {"fat": OLIVE},
    "superfat.scale_step_in_superfat": {"resolution_g": 1.0, "fats": FATS, "alkali": ALKALI},
    "landing.landings": {"room": ROOM, "stage": STAGES[1]},
    "late_pour.late_act": {"working_minutes": 8.0, "over_minutes": 3.0},
    "late_pour.pours_left": {"portions": PORTIONS, "thickened": Choice("A")},
    "late_pour.spoon_after_minutes": {"working_minutes": 8.0},
    "taking.taking": {"weighed_g": 4.0, "needed_g": 3.0, "tolerance_g": 0.1, "carrier_g": 8.0},
    "units.to_grams": {"value": 12.5, "unit": Choice("oz")},
    "units.from_grams": {"grams": 354.0, "unit": Choice("oz")},
    "units.pounds_and_ounces": {"grams": 1000.0},
    "units.to_celsius": {"value": 104.0, "unit": Choice("°F")},
    "units.from_celsius": {"celsius": 40.0, "unit": Choice("°F")},
    "units.to_mm": {"value": 3.5, "unit": Choice("in")},
    "units.from_mm": {"mm": 89.0, "unit": Choice("in")},
    "ways.superfat_from_excess_fat": {"excess": 0.05},
    "ways.excess_fat_from_superfat": {"superfat": 0.05},
    "ways.alkali_in_full": {"fats": FATS, "alkali": ALKALI},
    "ways.superfat_of_added_fat": {"base": FATS, "extra": (OLIVE,)},
    "ways.two_ways": {"superfat": 0.05},
    "working_time.schedule": {"portions": PORTIONS, "batter_minutes": 60.0},
}
