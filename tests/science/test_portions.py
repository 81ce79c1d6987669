from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.acids import citric_acid
from soapbench.science.alkali import Alkali, Fat, alkali_for, superfat_of
from soapbench.science.errors import OutOfRange
from soapbench.science.portions import Portion, portion_interval, portion_superfats
from soapbench.science.scale import Weighing
from soapbench.science.superfat import superfat_interval

OLIVE = Fat("olive", 400, 184, 196, sv_own=190)
COCONUT = Fat("coconut", 300, 248, 265, sv_own=256)
BASE = [OLIVE, COCONUT]
SODIUM = Alkali()
WEIGHED = alkali_for(BASE, 0.05, SODIUM)


def test_portions_without_oil_of_their_own_have_the_superfat_of_the_base():
    found = portion_superfats(BASE, WEIGHED, SODIUM, [Portion("A", 0.4), Portion("B", 0.6)])

    assert [value for _, value in found.portions] == pytest.approx([0.05, 0.05])
    assert found.batch == pytest.approx(0.05)


@given(st.floats(0, 60), st.floats(0.01, 1))
def test_oil_kept_back_and_shared_as_the_batter_is_changes_nothing(kept_g, share):
    base = [replace(OLIVE, mass_g=400 - kept_g), COCONUT]
    returned = [
        Portion("A", share, (replace(OLIVE, mass_g=kept_g * share),)),
        Portion("B", 1 - share, (replace(OLIVE, mass_g=kept_g * (1 - share)),)),
    ]

    found = portion_superfats(base, WEIGHED, SODIUM, returned)

    assert all(value == pytest.approx(0.05) for _, value in found.portions)


@given(st.floats(0, 60), st.floats(0.05, 1))
def test_the_batch_is_the_same_wherever_kept_back_oil_goes(kept_g, share):
    base = [replace(OLIVE, mass_g=400 - kept_g), COCONUT]

    found = portion_superfats(base, WEIGHED, SODIUM, [Portion("A", share, (replace(OLIVE, mass_g=kept_g),))])

    assert found.batch == pytest.approx(superfat_of(BASE, WEIGHED, SODIUM))


def test_a_lye_heavy_base_is_said_even_if_the_batch_is_fine():
    base = [replace(OLIVE, mass_g=340), COCONUT]
    found = portion_superfats(base, WEIGHED, SODIUM, [Portion("A", 0.4, (replace(OLIVE, mass_g=60),))])

    assert found.lowest < 0 < found.batch
    assert "The base batter would be lye-heavy" in found.sentence


def test_a_base_of_which_nothing_is_left_alone_is_no_bar():
    base = [replace(OLIVE, mass_g=340), COCONUT]
    oiled = [Portion(letter, 0.5, (replace(OLIVE, mass_g=30),)) for letter in "AB"]

    found = portion_superfats(base, WEIGHED, SODIUM, oiled)

    assert found.base < 0
    assert found.lowest == pytest.approx(0.05)


def test_acid_in_one_portion_raises_its_superfat_alone():
    acid = citric_acid(5, "anhydrous")
    found = portion_superfats(BASE, WEIGHED, SODIUM, [Portion("A", 0.5, acids=(acid,)), Portion("B", 0.5)])

    assert dict(found.portions)["A"] > 0.05
    assert dict(found.portions)["B"] == pytest.approx(0.05)


def test_the_spread_is_told_when_all_is_well():
    found = portion_superfats(BASE, WEIGHED, SODIUM, [Portion("A", 0.5, (replace(OLIVE, mass_g=10),))])

    assert found.sentence.startswith("The superfat runs from 5.0 to")


def test_a_portion_of_the_whole_has_the_interval_of_the_batch():
    scale = Weighing(1.0)
    whole = superfat_interval(BASE, WEIGHED, SODIUM, (), scale)
    half = portion_interval(BASE, WEIGHED, SODIUM, Portion("A", 0.5), (), scale)

    assert (half.low, half.high) == pytest.approx((whole.low, whole.high))


def test_portions_over_the_whole_batter_are_refused():
    with pytest.raises(OutOfRange, match="together 110 %"):
        portion_superfats(BASE, WEIGHED, SODIUM, [Portion("A", 0.6), Portion("B", 0.5)])


def test_a_share_above_one_is_refused():
    with pytest.raises(OutOfRange, match="portion A"):
        Portion("A", 1.2)


def test_an_empty_portion_has_no_interval():
    with pytest.raises(OutOfRange, match="empty"):
        portion_interval(BASE, WEIGHED, SODIUM, Portion("A", 0))
