"""Superfat against the tables and the worked case of a bench-error study, and the Monte Carlo that checks the doubt."""

import random

import pytest

from soapbench.science.alkali import Acid, Alkali, AlkaliMass, Fat, alkali_for, superfat_of
from soapbench.science.atoms import KOH, NAOH, NAOH_PER_KOH
from soapbench.science.portions import Portion, portion_interval, portion_of
from soapbench.science.scale import weighing_u
from soapbench.science.superfat import Weighing, scale_step_in_superfat, superfat_interval, value_half_width


def fat(name, mass_g, naoh_per_g):
    """Return a fat that takes so many g of NaOH a g, exactly."""
    value = 1000 * naoh_per_g / NAOH_PER_KOH
    return Fat(name, mass_g, value, value, sv_own=value)


# Working tables of a bench-error study, calculated there: superfat in per cent, 5 % asked for.
TABLE_A = [(1.005, 4.5), (1.01, 4.1), (1.02, 3.1), (1.03, 2.2), (1.05, 0.3), (1.053, 0.0), (1.07, -1.7)]
TABLE_A_PURITY = [(0.98, 6.9), (0.97, 7.9), (0.95, 9.8), (0.90, 14.5)]
TABLE_B = [
    (250, 1, 2.9, 0.05),
    (250, 0.1, 0.3, 0.05),
    (500, 1, 1.4, 0.05),
    (500, 0.1, 0.14, 0.005),
    (1000, 1, 0.7, 0.05),
    (1000, 0.1, 0.07, 0.005),
    (2000, 1, 0.36, 0.005),
    (2000, 0.1, 0.04, 0.005),
]

OILS = [fat("olive", 400, 0.1345), fat("coconut", 300, 0.183), fat("palm", 300, 0.1415)]


@pytest.mark.parametrize(("times", "left"), TABLE_A)
def test_too_much_alkali_eats_superfat(times, left):
    weighed = alkali_for(OILS, 0.05, Alkali()).naoh_g * times

    assert 100 * superfat_of(OILS, AlkaliMass(weighed), Alkali()) == pytest.approx(left, abs=0.051)


@pytest.mark.parametrize(("purity", "left"), TABLE_A_PURITY)
def test_alkali_less_pure_than_thought_leaves_more_superfat(purity, left):
    weighed = alkali_for(OILS, 0.05, Alkali())

    assert 100 * superfat_of(OILS, weighed, Alkali(naoh_purity=purity)) == pytest.approx(left, abs=0.051)


@pytest.mark.parametrize(("fats_g", "step_g", "points", "printed_to"), TABLE_B)
def test_one_scale_step_in_superfat_points(fats_g, step_g, points, printed_to):
    # The table takes 0.139 g of NaOH a g of fat, as an everyday blend has.
    step = scale_step_in_superfat(step_g, [fat("blend", fats_g, 0.139)], Alkali())

    assert 100 * step == pytest.approx(points, abs=printed_to)


# The study's worked case: coconut forgotten -49 %, 47 g excess; palm forgotten -32 %.
@pytest.mark.parametrize(("forgotten", "left"), [(1, -49), (2, -32)])
def test_a_forgotten_fat_is_told_as_lye_heavy(forgotten, left):
    weighed = alkali_for(OILS, 0.05, Alkali())
    kept = OILS[:forgotten] + OILS[forgotten + 1 :]

    assert 100 * superfat_of(kept, weighed, Alkali()) == pytest.approx(left, abs=0.7)


# Physics notes, scales: 500 g of oils, 68.4 g of NaOH of 98 +- 1 %; u from the NaOH weighing 0.57 points at 1 g,
# 0.06 at 0.1 g, from purity 0.56. The notes count the scale step alone (no scatter, no permissible error) and take
# 1 - s as 0.95 where the inputs give 0.895, hence the wide tolerance.
NOTE_OILS = [fat("a", 195, 0.1345), fat("b", 140, 0.1415), fat("c", 140, 0.183), fat("d", 25, 0.128)]


@pytest.mark.parametrize(("step", "points"), [(1.0, 0.57), (0.5, 0.28), (0.1, 0.06), (0.01, 0.01)])
def test_doubt_from_weighing_the_alkali(step, points):
    interval = superfat_interval(NOTE_OILS, AlkaliMass(68.4), Alkali(naoh_purity=0.98), (), Weighing(step, 0, 0))
    found = {one.name: one.points for one in interval.contributions}

    assert 100 * found["the weighing of the sodium hydroxide"] == pytest.approx(points, abs=0.04)
    assert 100 * found["the purity of the sodium hydroxide"] == pytest.approx(0.56, abs=0.05)


# The study's slurry: 20 g of the 400 g of olive go to a portion of 30 %. By hand: 0.3 x 380 + 20 = 134 g there.
def test_the_fats_of_the_printed_portion():
    base = [fat("olive", 380, 0.1345), *OILS[1:]]

    fats, share = portion_of(base, AlkaliMass(143.6), Portion("A", 0.3, (fat("olive", 20, 0.1345),)))

    assert sum(each.mass_g for each in fats if each.name == "olive") == pytest.approx(134)
    assert sum(each.mass_g for each in fats) == pytest.approx(0.3 * 980 + 20)
    assert share.naoh_g == pytest.approx(43.08)


# GUM F.2.2.1: a reading rounded to a step d has the standard uncertainty 0.29 d; a net weighing has two of them.
def test_a_net_weighing_is_rounded_twice():
    assert weighing_u(Weighing(1.0, 0, 0)) == pytest.approx(0.29 * 2**0.5, abs=0.003)


# JCGM 101 (propagation by Monte Carlo) is the check that the GUM itself asks for; the ranges are those of Codex
# CXS 33 and CXS 210, and of CXS 325R for shea, the widest of all.
RECIPES = {
    "olive alone": [Fat("olive", 1000, 184, 196)],
    "three oils": [Fat("olive", 400, 184, 196), Fat("coconut", 300, 248, 265), Fat("palm", 300, 190, 209)],
    "much shea": [Fat("shea", 500, 160, 195), Fat("coconut", 200, 248, 265)],
    "small batch": [Fat("olive", 150, 184, 196), Fat("coconut", 60, 248, 265, sv_own=258)],
    "one lot in two rows": [Fat("olive", 300, 184, 196), Fat("olive", 200, 184, 196), Fat("coconut", 200, 248, 265)],
    "one sample only": [Fat("hemp", 200, 191.7, 191.7), Fat("palm", 300, 190, 209)],
    "with beeswax": [Fat("olive", 500, 184, 196), Fat("beeswax", 50, 87, 104, kind="wax ester", acid_value=20)],
}
MIXED = Alkali(naoh_share=0.6, naoh_purity=0.98, koh_purity=0.9)
SODIUM = Alkali(naoh_purity=0.98)
SCALE = Weighing(1.0, 0.5, 1.0)


def off(draw, scale):
    """Return what a net weighing is off by: two roundings, the scale's own error and its scatter."""
    step = scale.resolution_g / 2
    return (
        draw.uniform(-step, step)
        + draw.uniform(-step, step)
        + draw.uniform(-scale.mpe_g, scale.mpe_g)
        + draw.gauss(0, scale.repeat_g)
    )


def one_batch(draw, fats, weighed, alkali, acid_mol):
    """Return the superfat of one batch drawn from all doubts, worked out from grams and moles alone."""
    true_value = {f.name: sum(f.sv_range) / 2 + draw.uniform(-1, 1) * value_half_width(f) for f in fats}
    taken = sum((f.mass_g + off(draw, SCALE)) * true_value[f.name] / 1000 / KOH for f in fats)
    given = 0.0
    for mass, purity, molar in (
        (weighed.naoh_g, alkali.naoh_purity, NAOH),
        (weighed.koh_g, alkali.koh_purity, KOH),
    ):
        if mass:
            given += (mass + off(draw, SCALE)) * (purity + draw.uniform(-0.01, 0.01)) / molar
    return 1 - (given - acid_mol) / taken


@pytest.mark.parametrize("name", RECIPES)
@pytest.mark.parametrize(("alkali", "acids"), [(SODIUM, ()), (MIXED, (Acid("citric acid", 10, 876.1),))])
def test_the_interval_holds_ninety_five_of_a_hundred_drawn_batches(name, alkali, acids):
    fats = RECIPES[name]
    weighed = alkali_for(fats, 0.05, alkali, acids)
    interval = superfat_interval(fats, weighed, alkali, acids, SCALE)
    draw = random.Random(20)

    batches = [one_batch(draw, fats, weighed, alkali, sum(a.mol for a in acids)) for _ in range(4000)]
    inside = sum(map(interval.contains, batches)) / len(batches)

    assert 0.94 <= inside <= 0.995
    batches.sort()
    drawn_width = batches[3900] - batches[100]
    assert 0.97 * drawn_width <= interval.width <= 1.25 * drawn_width


# The same Monte Carlo for one portion: a share of the base as weighed, and 20 g of its own oil, weighed apart.
def test_the_interval_of_a_portion_holds_ninety_five_of_a_hundred_drawn_batches():
    base, own = RECIPES["three oils"], Fat("olive", 20, 184, 196)
    weighed = alkali_for([*base, own], 0.05, SODIUM)
    interval = portion_interval(base, weighed, SODIUM, Portion("A", 0.3, (own,)), (), SCALE)
    draw = random.Random(11)

    batches = [one_portion(draw, base, own, weighed.naoh_g, 0.3) for _ in range(4000)]

    assert 0.93 <= sum(map(interval.contains, batches)) / len(batches) <= 0.995


def one_portion(draw, base, own, naoh_g, share):
    """Return the superfat of one drawn portion; one lot of olive serves the base and the portion alike."""
    value = {f.name: sum(f.sv_range) / 2 + draw.uniform(-1, 1) * value_half_width(f) for f in base}
    taken = sum(share * (f.mass_g + off(draw, SCALE)) * value[f.name] for f in base) / 1000 / KOH
    taken += (own.mass_g + off(draw, Weighing(0.3, 0.15, 0.3))) * value[own.name] / 1000 / KOH
    given = share * (naoh_g + off(draw, SCALE)) * (0.98 + draw.uniform(-0.01, 0.01)) / NAOH
    return 1 - given / taken
