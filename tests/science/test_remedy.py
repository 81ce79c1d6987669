from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.acids import citric_acid
from soapbench.science.alkali import Alkali, AlkaliMass, Fat, alkali_for, superfat_of
from soapbench.science.errors import OutOfRange
from soapbench.science.remedy import (
    alkali_to_add,
    cure_progress,
    dose_for_portion,
    dose_for_rest,
    fat_to_add,
    keep_proportions,
    keep_the_shade,
    keep_the_size,
    make_more_lye,
    mould_gap,
    pour_part_of_lye,
    put_water_right,
    recompute_alkali,
    remedies_before_lye,
    remedies_lye_in,
    remedies_lye_made,
    share_of_stock_lye,
    shrink_to_stock,
    substitute,
)

OLIVE = Fat("olive", 400, 184, 196)
COCONUT = Fat("coconut", 300, 248, 265)
PALM = Fat("palm", 300, 190, 209)
SHEA = Fat("shea", 200, 160, 195)
PLANNED = [OLIVE, COCONUT, PALM]
SODIUM = Alkali(naoh_purity=0.98)
MADE = alkali_for(PLANNED, 0.05, SODIUM)


def codes(remedies):
    return [remedy.code for remedy in remedies]


def with_coconut(mass_g):
    return [OLIVE, replace(COCONUT, mass_g=mass_g), PALM]


def test_all_as_planned_before_the_lye_offers_the_alkali_only():
    assert codes(remedies_before_lye(PLANNED, PLANNED, 0.05, SODIUM)) == ["C1"]


def test_a_fat_over_before_the_lye_offers_new_alkali_first_then_a_bigger_batch():
    assert codes(remedies_before_lye(with_coconut(340), PLANNED, 0.05, SODIUM)) == ["C1", "C7"]


def test_a_fat_short_before_the_lye_offers_to_add_it_first():
    remedies = remedies_before_lye(with_coconut(270), PLANNED, 0.05, SODIUM)

    assert codes(remedies) == ["C5", "C1", "C14"]
    assert remedies[0].grams == pytest.approx(30)
    assert remedies[2].grams == pytest.approx(900)


def test_a_fat_left_out_altogether_cannot_shrink_the_batch_to_nothing():
    assert codes(remedies_before_lye([OLIVE, PALM], PLANNED, 0.05, SODIUM)) == ["C5", "C1"]


def test_two_rows_of_one_fat_count_together():
    split = [replace(OLIVE, mass_g=150), replace(OLIVE, mass_g=250), COCONUT, PALM]

    assert codes(remedies_before_lye(split, PLANNED, 0.05, SODIUM)) == ["C1"]


def test_a_bigger_batch_brings_every_fat_up_by_the_same_factor():
    remedy = keep_proportions(PLANNED, 1.1)

    assert remedy.grams == pytest.approx(1100)
    assert "olive 440 g" in remedy.sentence


def test_a_substitute_fills_the_gap_and_changes_the_alkali():
    fats, remedy = substitute(PLANNED, "palm", 200, SHEA)

    assert remedy.grams == 100
    assert sum(fat.mass_g for fat in fats) == 1000
    assert alkali_for(fats, 0.05, SODIUM).naoh_g < MADE.naoh_g


def test_a_made_lye_that_fits_says_go_on():
    assert codes(remedies_lye_made(PLANNED, MADE, 300, 0.05, SODIUM)) == ["C2"]


@given(st.floats(50, 299))
def test_the_poured_part_leaves_the_superfat_as_planned(coconut_g):
    fats = with_coconut(coconut_g)
    pour, accept = remedies_lye_made(fats, MADE, 2 * MADE.total_g, 0.05, SODIUM)

    alkali = AlkaliMass(MADE.naoh_g * pour.grams / (3 * MADE.total_g))

    assert superfat_of(fats, alkali, SODIUM) == pytest.approx(0.05, abs=0.001)


def test_the_lye_in_and_all_as_planned_leaves_it():
    assert codes(remedies_lye_in(PLANNED, MADE, SODIUM, 0.05)) == ["C2"]


@given(st.floats(1.01, 2.0), st.floats(0, 0.2), st.sampled_from([OLIVE, COCONUT, PALM, SHEA]))
def test_the_fat_to_add_restores_the_superfat(times, superfat, other):
    known = replace(other, sv_own=other.sv_low)
    recipe = [replace(fat, sv_own=190) for fat in PLANNED]
    weighed = AlkaliMass(alkali_for(recipe, superfat, SODIUM).naoh_g * times)

    remedy = fat_to_add(recipe, weighed, SODIUM, superfat, known)

    assert superfat_of([*recipe, replace(known, mass_g=remedy.grams)], weighed, SODIUM) == pytest.approx(superfat)
    assert remedy.superfat == pytest.approx(superfat)


def test_a_lye_heavy_batch_offers_every_fat_of_the_recipe_then_the_way_for_a_set_loaf():
    remedies = remedies_lye_in(PLANNED, AlkaliMass(MADE.naoh_g * 1.2), SODIUM, 0.05)

    assert codes(remedies) == ["C5", "C5", "C5", "C2"]
    assert "caustic" in remedies[-1].sentence
    assert remedies[-1].superfat < 0


def test_a_low_but_safe_superfat_can_be_left_with_a_warning():
    remedies = remedies_lye_in(PLANNED, AlkaliMass(MADE.naoh_g * 1.04), SODIUM, 0.05)

    assert codes(remedies) == ["C5", "C5", "C5", "C2"]
    assert "test it for free alkali" in remedies[-1].sentence


def test_a_high_superfat_within_reason_is_left_before_lye_is_added():
    assert codes(remedies_lye_in(PLANNED, AlkaliMass(MADE.naoh_g * 0.96), SODIUM, 0.05)) == ["C2", "C6"]


def test_a_very_high_superfat_offers_cool_lye_first():
    remedies = remedies_lye_in(PLANNED, AlkaliMass(MADE.naoh_g * 0.7), SODIUM, 0.05)

    assert codes(remedies) == ["C6", "C2"]
    assert "Never dry" in remedies[0].sentence
    assert "softer bar" in remedies[1].sentence


def test_alkali_added_later_reaches_the_superfat_with_both_alkalis_and_an_acid():
    alkali, acids = Alkali(naoh_share=0.7), [citric_acid(10, "anhydrous")]
    full = alkali_for(PLANNED, 0.05, alkali, acids)

    remedy = alkali_to_add(PLANNED, AlkaliMass(full.naoh_g * 0.8, full.koh_g * 0.9), alkali, 0.05, acids)

    assert remedy.superfat == pytest.approx(0.05)


def test_shea_on_its_careful_side_asks_for_nothing_more():
    fats = [OLIVE, SHEA]

    assert codes(remedies_lye_in(fats, alkali_for(fats, 0.05, SODIUM), SODIUM, 0.05)) == ["C2"]


def test_a_wax_is_not_offered_as_a_fat_to_add():
    fats = [OLIVE, Fat("jojoba", 50, 92.2, 92.2, kind="wax ester")]
    remedies = remedies_lye_in(fats, AlkaliMass(90), SODIUM, 0.05)

    assert [remedy.title for remedy in remedies if remedy.code == "C5"] == ["Add olive"]


def test_lye_above_half_alkali_needs_water_before_use():
    remedy = put_water_right(100, 80, 0.33)

    assert "before use" in remedy.title
    assert remedy.grams == pytest.approx(100 * 0.67 / 0.33 - 80)


def test_too_much_water_needs_nothing():
    remedy = put_water_right(100, 300, 0.33)

    assert remedy.grams == 0
    assert "longer cure" in remedy.sentence


@given(st.floats(0, 100), st.floats(0, 1))
def test_a_late_scent_never_gets_its_whole_dose_into_the_rest(dose, poured):
    assert dose_for_rest(dose, poured).grams <= dose * (1 - poured) + 1e-9


def test_a_scent_remembered_after_the_pour_is_left_out():
    assert "leave it out" in dose_for_rest(30, 1.0).sentence


def test_a_portion_gets_its_share_of_the_rate():
    assert dose_for_portion(0.02, 0.3, 1000).grams == pytest.approx(6)


def test_short_colour_makes_a_smaller_or_a_paler_portion():
    assert keep_the_shade(0.4, 3, 4, 1500).grams == pytest.approx(150)
    assert "1.5 %" in keep_the_size(0.02, 3, 4).sentence


def test_the_mould_tells_what_will_not_go_in_and_what_stays_free():
    assert "200 ml will not go in" in mould_gap(1200, 1000).sentence
    assert "90.0 %" in mould_gap(900, 1000).sentence


def test_a_bar_that_loses_little_in_a_week_is_level():
    assert "is level" in cure_progress(140, 122.0, 0.2, 122.3).sentence
    assert "still loses" in cure_progress(140, 122.0, 0.2, 124.0).sentence


@pytest.mark.parametrize(
    "call",
    [
        lambda: remedies_before_lye([], PLANNED, 0.05, SODIUM),
        lambda: recompute_alkali(PLANNED, 0.05, SODIUM, concentration=0.6),
        lambda: keep_proportions(PLANNED, 0.9),
        lambda: shrink_to_stock(PLANNED, "shea", 100),
        lambda: shrink_to_stock(PLANNED, "palm", 0),
        lambda: substitute(PLANNED, "palm", 300, SHEA),
        lambda: pour_part_of_lye(100, 300, 120),
        lambda: make_more_lye(100, 300, 90),
        lambda: make_more_lye(100, 90, 110),
        lambda: share_of_stock_lye(30, 25, 32),
        lambda: put_water_right(0, 100, 0.33),
        lambda: fat_to_add(PLANNED, MADE, SODIUM, 0.05, Fat("lanolin", 1, 90, 102, kind="unsaponifiable")),
        lambda: remedies_lye_in([], MADE, SODIUM, 0.05),
        lambda: dose_for_rest(10, 1.5),
        lambda: dose_for_portion(2, 0.5, 100),
        lambda: mould_gap(100, 0),
        lambda: keep_the_size(0.02, 5, 4),
        lambda: cure_progress(100, 50, 0.2),
    ],
)
def test_what_cannot_be_is_refused_with_a_sentence(call):
    with pytest.raises(OutOfRange) as refusal:
        call()
    assert str(refusal.value)[-1] in ".?"
