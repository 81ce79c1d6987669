import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.analysis import (
    ester_value,
    free_acid_share,
    mean_molar_mass,
    saponification_value,
    value_from_titration,
    wax_saponification_value,
)
from soapbench.science.balance import mass_balance
from soapbench.science.errors import OutOfRange


@given(st.floats(150, 500))
def test_a_molar_mass_and_its_value_turn_into_each_other(value):
    assert saponification_value(mean_molar_mass(value)) == pytest.approx(value)


@given(st.floats(1, 5000), st.floats(150, 300), st.floats(0, 1), st.floats(0, 0.5))
def test_what_goes_into_the_pot_comes_out_of_it(fat_g, value, acid_part, inert):
    balance = mass_balance(fat_g, value, acid_part * value, inert)

    out = balance.soap_g + balance.glycerol_g + balance.water_g
    assert out == pytest.approx(fat_g * (1 - inert) + balance.naoh_g)


def test_a_split_fat_gives_water_and_no_glycerol():
    balance = mass_balance(100, 200, 200)

    assert balance.glycerol_g == 0
    assert balance.water_g > 0


@pytest.mark.parametrize(
    "call",
    [
        lambda: saponification_value(100),
        lambda: wax_saponification_value(0),
        lambda: mean_molar_mass(0.19),
        lambda: value_from_titration(0, 5, 0.1),
        lambda: value_from_titration(0.1, 50, 1),
        lambda: free_acid_share(-1, 282),
        lambda: ester_value(190, 200),
        lambda: mass_balance(-1, 190),
        lambda: mass_balance(1, 190, inert_share=2),
    ],
)
def test_what_cannot_be_is_refused_with_a_sentence(call):
    with pytest.raises(OutOfRange) as refusal:
        call()
    assert str(refusal.value).endswith(".")
