"""What must hold whatever the batch: sums scale, splitting and rounding lose nothing, intervals hold Monte Carlo."""

import math
import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soapbench.science.alkali import Alkali, AlkaliMass, Fat, alkali_for, demand_mol
from soapbench.science.atoms import KOH, NAOH
from soapbench.science.cooling import Reading, fit, minutes_to, prior_for
from soapbench.science.cooling_law import minutes_between, temperature_after
from soapbench.science.cure import Weighed, expected_mass, fit_drying
from soapbench.science.doses import PortionDose, check_portions, dose_g
from soapbench.science.drying import mass_after
from soapbench.science.lye import water_g
from soapbench.science.portions import Portion, portion_of, portion_superfats
from soapbench.science.restricted import Scent, substance_totals
from soapbench.science.rounding import round_keeping_total
from soapbench.science.scale import Weighing
from soapbench.science.superfat import superfat_interval, value_half_width
from soapbench.science.taking import taking

SODIUM = Alkali(naoh_purity=0.98)
values = st.tuples(st.floats(150, 280), st.floats(0, 20)).map(lambda pair: (pair[0], pair[0] + pair[1]))
recipes = st.lists(st.tuples(st.floats(50, 2000), values), min_size=1, max_size=4).map(
    lambda rows: [Fat(f"fat {index}", mass, *value) for index, (mass, value) in enumerate(rows)]
)
shares = st.lists(st.floats(0.05, 1), min_size=2, max_size=5).map(lambda parts: [part / sum(parts) for part in parts])
times = st.floats(0.01, 50)


def larger(recipe, factor):
    return [replace(fat, mass_g=fat.mass_g * factor) for fat in recipe]


@given(recipes, times)
def test_a_batch_so_many_times_as_large_takes_so_many_times_the_alkali_the_water_and_the_scent(recipe, factor):
    small = alkali_for(recipe, 0.05, SODIUM)
    large = alkali_for(larger(recipe, factor), 0.05, SODIUM)
    fats = sum(fat.mass_g for fat in recipe)

    assert large.naoh_g == pytest.approx(small.naoh_g * factor)
    assert water_g("lye concentration", 0.33, large.naoh_g, 0) == pytest.approx(
        water_g("lye concentration", 0.33, small.naoh_g, 0) * factor
    )
    assert dose_g(3, "percent of fats", fats * factor, 0) == pytest.approx(
        dose_g(3, "percent of fats", fats, 0) * factor
    )


@given(recipes, times)
def test_the_interval_of_a_batch_does_not_change_when_batch_and_scale_grow_together(recipe, factor):
    small = superfat_interval(recipe, alkali_for(recipe, 0.05, SODIUM), SODIUM, (), Weighing(1.0))
    grown = larger(recipe, factor)
    large = superfat_interval(grown, alkali_for(grown, 0.05, SODIUM), SODIUM, (), Weighing(factor))

    assert (large.low, large.high) == (pytest.approx(small.low), pytest.approx(small.high))


@given(recipes, shares)
def test_portions_together_hold_the_fats_and_the_alkali_of_the_batch(recipe, parts):
    weighed = AlkaliMass(alkali_for(recipe, 0.05, SODIUM).naoh_g, 3.0)

    split = [portion_of(recipe, weighed, Portion("A", part)) for part in parts]

    assert sum(fat.mass_g for fats, _ in split for fat in fats) == pytest.approx(sum(fat.mass_g for fat in recipe))
    assert sum(demand_mol(fats) for fats, _ in split) == pytest.approx(demand_mol(recipe))
    assert sum(share.total_g for _, share in split) == pytest.approx(weighed.total_g)


@given(st.lists(st.floats(0, 3000), min_size=1, max_size=8), st.sampled_from([0.01, 0.1, 1.0, 5.0]))
def test_rounding_a_batch_loses_less_than_half_a_step_of_it(masses, step):
    rounded = round_keeping_total(masses, step)

    assert abs(sum(rounded) - sum(masses)) <= step / 2 + 1e-6


@given(st.floats(0.1, 100), st.floats(0.1, 100), st.floats(0, 100))
def test_what_is_taken_and_what_is_left_of_a_slurry_are_the_whole(weighed, needed, carrier):
    found = taking(weighed, needed, 0.05, carrier)

    assert 0 < found.take_g <= found.of_g == weighed + carrier


@given(st.floats(0.1, 50), st.floats(0.1, 50), st.floats(0, 1), st.floats(0, 1))
def test_a_substance_of_two_scents_is_the_sum_of_each(first_g, second_g, first, second):
    scents = [Scent("one", first_g, {"citral": first}), Scent("two", second_g, {"citral": second})]

    together = substance_totals(scents)["citral"]

    assert together == pytest.approx(sum(substance_totals([scent])["citral"] for scent in scents))


@given(st.lists(st.tuples(st.floats(0.1, 20), st.floats(50, 900)), min_size=1, max_size=4))
def test_the_bar_as_a_whole_is_never_above_its_strongest_portion(rows):
    found = check_portions("scent", [PortionDose(str(i), dose, mass) for i, (dose, mass) in enumerate(rows)], None)

    assert found.whole.percent <= max(check.percent for _, check in found.portions) * (1 + 1e-9)


@given(recipes, st.floats(0, 300), st.floats(0, 100), shares)
def test_more_alkali_never_raises_the_superfat_of_any_portion_nor_an_end_of_the_interval(recipe, naoh, more, parts):
    portions = [Portion(str(index), part) for index, part in enumerate(parts)]
    before, after = (AlkaliMass(naoh), AlkaliMass(naoh + more))

    lean, rich = (portion_superfats(recipe, weighed, SODIUM, portions) for weighed in (before, after))
    wide, late = (superfat_interval(recipe, weighed, SODIUM) for weighed in (before, after))

    assert all(b[1] <= a[1] + 1e-9 for a, b in zip(lean.portions, rich.portions, strict=True))
    assert late.central <= wide.central + 1e-9
    assert late.low <= wide.low + 1e-9


def off(draw, step):
    """Return what a net weighing of a kitchen scale is off by: two roundings, its own error, its scatter."""
    return (
        draw.uniform(-step, step) / 2
        + draw.uniform(-step, step) / 2
        + draw.uniform(-step, step)
        + draw.gauss(0, step / 2)
    )


@settings(max_examples=15, deadline=None, derandomize=True)
@given(recipes, st.floats(0, 0.15), st.sampled_from([0.1, 1.0]))
def test_the_superfat_interval_holds_the_monte_carlo_of_any_recipe(recipe, superfat, step):
    weighed = alkali_for(recipe, superfat, SODIUM)
    interval = superfat_interval(recipe, weighed, SODIUM, (), Weighing(step))
    draw = random.Random(3)
    inside = 0
    for _ in range(1000):
        taken = sum(
            (fat.mass_g + off(draw, step)) * (fat.sv_central + draw.uniform(-1, 1) * value_half_width(fat)) / 1000 / KOH
            for fat in recipe
        )
        given_ = (weighed.naoh_g + off(draw, step)) * (0.98 + draw.uniform(-0.01, 0.01)) / NAOH
        inside += interval.contains(1 - given_ / taken)

    assert inside / 1000 >= 0.92  # 95 % but for the luck of a thousand draws


def test_the_bands_of_cooling_hold_ninety_five_of_a_hundred_drawn_pots():
    draw, held, asked = random.Random(5), 0, 0
    prior = prior_for(1.5)
    for _ in range(60):
        k = math.exp(draw.gauss(prior.ln_k_mean, prior.ln_k_sd))
        exponent, room = max(1.0, draw.gauss(1.4, 0.3)), draw.gauss(20, 1)
        taken = [
            Reading(minute, temperature_after(minute, 85, room, k, exponent) + draw.gauss(0, 0.5))
            for minute in (4, 9, 15)
        ]
        band = minutes_to(fit(taken, 20, prior), 40)
        if band is not None and taken[-1].temp_c > 42:
            asked += 1
            held += band.contains(minutes_between(85, 40, room, k, exponent))

    assert asked > 30
    assert held / asked >= 0.88  # 95 % but for the luck of some forty pots


def test_the_bands_of_a_cure_hold_ninety_five_of_a_hundred_drawn_bars():
    draw, held = random.Random(8), 0
    for _ in range(40):
        final = 100 * 0.8 * (1 + max(0.0, draw.gauss(0.05, 0.03)))
        tau, n = math.exp(draw.gauss(math.log(30), 0.7)), min(1.0, max(0.35, draw.gauss(0.8, 0.15)))
        weighed = [Weighed(day, mass_after(day, 100, final, tau, n) + draw.gauss(0, 0.1)) for day in (0, 4, 8, 14)]
        band = expected_mass(fit_drying(weighed, 0.2, resolution_g=0.1), 42)
        held += band.contains(mass_after(42, 100, final, tau, n))

    assert held / 40 >= 0.87  # 95 % but for the luck of forty bars
