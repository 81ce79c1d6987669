from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.alkali import Alkali, AlkaliMass, Fat, alkali_for
from soapbench.science.errors import OutOfRange
from soapbench.science.scale import Weighing, permissible_error_g, weighing_limit, weighing_u
from soapbench.science.superfat import SuperfatInterval, superfat_interval

OLIVE = Fat("olive", 400, 184, 196)
COCONUT = Fat("coconut", 300, 248, 265)
PALM = Fat("palm", 300, 190, 209)
RECIPE = [OLIVE, COCONUT, PALM]
SODIUM = Alkali(naoh_purity=0.98)
FINE = Weighing(0.1, 0.05, 0.1)


def interval(recipe=RECIPE, superfat=0.05, scale=FINE, **more):
    return superfat_interval(recipe, alkali_for(recipe, superfat, SODIUM), SODIUM, (), scale, **more)


def test_the_central_value_is_the_superfat_asked_for():
    assert interval().central == pytest.approx(0.05)


def test_a_certificate_narrows_the_interval():
    known = [replace(OLIVE, sv_own=190), replace(COCONUT, sv_own=256.5), replace(PALM, sv_own=199.5)]

    assert interval(known).width < 0.6 * interval().width


def test_a_finer_scale_narrows_the_interval():
    small = [replace(fat, mass_g=fat.mass_g / 10) for fat in RECIPE]

    assert interval(small, scale=FINE).width < interval(small, scale=Weighing(1.0)).width


def test_what_weighs_most_is_named_first():
    found = interval()

    assert found.weighs_most == "the saponification value of palm"
    assert [one.points for one in found.contributions] == sorted(
        (one.points for one in found.contributions), reverse=True
    )


def test_the_advice_asks_for_the_value_of_the_lot():
    assert "value of your lot" in interval().narrowing_advice()


def test_the_advice_asks_for_a_finer_scale_when_the_scale_is_to_blame():
    small = [Fat("olive", 30, 184, 196, sv_own=190)]

    assert "finer scale" in interval(small, scale=Weighing(1.0)).narrowing_advice()


def test_the_advice_asks_for_the_assay_when_the_purity_is_to_blame():
    known = [replace(fat, sv_own=fat.sv_central) for fat in RECIPE]

    assert "assay" in interval(known, purity_half_width=0.05).narrowing_advice()


def test_an_unlucky_end_below_zero_asks_for_more_superfat():
    found = interval(superfat=0.01)

    assert found.lye_heavy_possible
    assert not found.is_lye_heavy
    assert "more superfat" in found.narrowing_advice()


def test_a_comfortable_superfat_asks_for_no_more():
    found = interval(superfat=0.12)

    assert not found.lye_heavy_possible
    assert "more superfat" not in found.narrowing_advice()


def test_two_fats_of_one_lot_vary_together_and_of_two_lots_apart():
    half = replace(OLIVE, mass_g=200)
    other = replace(half, lot="second")
    scale = Weighing(0.001, 0, 0)

    together = interval([half, half], scale=scale, purity_half_width=0.0).width
    apart = interval([half, other], scale=scale, purity_half_width=0.0).width

    assert together == pytest.approx(interval([OLIVE], scale=scale, purity_half_width=0.0).width, rel=0.001)
    assert apart < 0.9 * together


def test_one_fat_alone_never_leaves_its_published_range():
    found = interval([OLIVE], scale=Weighing(0.001, 0, 0), purity_half_width=0.0)

    assert found.high <= 1 - 0.95 * 190 / 196 + 0.001
    assert found.low >= 1 - 0.95 * 190 / 184 - 0.001


def test_a_value_published_for_one_sample_is_not_taken_as_exact():
    assert interval([Fat("hemp", 500, 191.7, 191.7)]).width > 0.05


def test_no_alkali_yet_is_all_superfat():
    found = superfat_interval(RECIPE, AlkaliMass(0), SODIUM)

    assert found.central == 1


def test_an_interval_without_doubts_has_nothing_to_advise():
    assert SuperfatInterval(0.05, 0.05, 0.05).narrowing_advice() == "Nothing is left in doubt."


def test_an_interval_needs_a_fat():
    with pytest.raises(OutOfRange, match="no fat"):
        superfat_interval([], AlkaliMass(10), SODIUM)


@given(st.floats(0, 0.3), st.floats(0.01, 5), st.floats(0, 0.05))
def test_the_central_value_lies_inside(superfat, step, purity):
    found = interval(superfat=superfat, scale=Weighing(step), purity_half_width=purity)

    assert found.low <= found.central <= found.high


@given(st.floats(max_value=0))
def test_a_scale_without_a_step_is_refused_with_a_sentence(step):
    with pytest.raises(OutOfRange, match=r"step of the scale.*\.$"):
        Weighing(step)


def test_a_scale_without_papers_is_taken_as_a_kitchen_scale():
    assert weighing_u(Weighing(1.0)) == weighing_u(Weighing(1.0, 0.5, 1.0))
    assert weighing_limit(Weighing(1.0)) == 3.0


def test_an_unknown_class_of_scale_is_refused():
    with pytest.raises(OutOfRange, match="class"):
        permissible_error_g(100, 1, "IV")


def test_the_assay_of_the_very_jar_narrows_the_interval_and_is_not_asked_for_again():
    known = [replace(fat, sv_own=190) for fat in RECIPE]
    weighed = alkali_for(known, 0.05, SODIUM)
    guessed = superfat_interval(known, weighed, SODIUM, (), FINE)
    assayed = superfat_interval(known, weighed, replace(SODIUM, naoh_assayed=True), (), FINE)

    assert assayed.width < guessed.width and assayed.central == guessed.central
    assert "assay" in guessed.narrowing_advice()
    assert "assay" not in assayed.narrowing_advice()
