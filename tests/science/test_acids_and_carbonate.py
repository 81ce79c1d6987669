from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.acids import ACIDS, acid_for_salt_g, acid_of, citric_acid, salt_made_g
from soapbench.science.alkali import Alkali, Fat, alkali_for
from soapbench.science.atoms import NAOH
from soapbench.science.carbonate import alkali_lost_g, purity_without_carbonate
from soapbench.science.errors import OutOfRange

# Typed loosely, as what comes in from a form is.
UNKNOWN: Any = "unknown"


def test_the_alkali_for_an_acid_comes_on_top_of_that_for_the_fats():
    olive = [Fat("olive", 500, 184, 196)]
    acid = citric_acid(10, "anhydrous")

    more = alkali_for(olive, 0.05, Alkali(), [acid]).naoh_g - alkali_for(olive, 0.05, Alkali()).naoh_g

    assert more == pytest.approx(6.246, abs=0.001)


def test_the_monohydrate_takes_nine_per_cent_less_than_the_dry_acid():
    assert citric_acid(10, "monohydrate").mol / citric_acid(10, "anhydrous").mol == pytest.approx(0.914, abs=0.001)


def test_a_solution_counts_by_its_strength():
    assert acid_of("acetic", 100, 0.05).mol == pytest.approx(acid_of("acetic", 5).mol)


@given(st.sampled_from(sorted(ACIDS)), st.floats(0.1, 500), st.floats(0.01, 1), st.floats(0, 1))
def test_the_acid_for_a_salt_makes_that_salt(kind, salt, strength, share):
    acid = acid_for_salt_g(kind, salt, strength, share)

    assert salt_made_g(kind, acid, strength, share) == pytest.approx(salt)


@given(st.sampled_from(sorted(ACIDS)), st.floats(0.1, 500))
def test_acid_and_alkali_weigh_as_much_as_salt_and_water(kind, mass):
    acid = acid_of(kind, mass)
    crystal_water = mass * ACIDS[kind].crystal_water / (ACIDS[kind].molar_mass + ACIDS[kind].crystal_water)

    water_made = acid.mol * 18.015

    assert mass + acid.mol * NAOH == pytest.approx(salt_made_g(kind, mass) + water_made + crystal_water, rel=1e-6)


@pytest.mark.parametrize(
    "call",
    [
        lambda: acid_of("battery", 10),
        lambda: acid_of("lactic", 10, 1.2),
        lambda: acid_of("lactic", -1),
        lambda: citric_acid(10, UNKNOWN),
        lambda: salt_made_g("lactic", -1),
        lambda: acid_for_salt_g("lactic", 10, 0),
        lambda: purity_without_carbonate(0.5, 0.9),
        lambda: alkali_lost_g(-1),
        lambda: alkali_lost_g(1, UNKNOWN),
    ],
)
def test_what_cannot_be_is_refused_with_a_sentence(call):
    with pytest.raises(OutOfRange, match=r"[.?]|differs"):
        call()
