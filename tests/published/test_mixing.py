import pytest

from soapbench.science.mixing import (
    ESTER_HIGH,
    ESTER_LOW,
    fats_temperature_for,
    gel_outlook,
    gel_temperature,
    heat_loss,
    mixing_temperature,
    saponification_rise,
)

LYE_33 = 432  # g of 33.3 % lye for 1000 g of fats


# Worked out apart from this code with fats at 2.0 and 33 % lye at 3.55 kJ/(kg K).
@pytest.mark.parametrize(("fats_c", "lye_c", "mix_c"), [(45, 30, 38.5), (35, 55, 43.7)])
def test_mixing_temperature_equals_the_worked_values(fats_c, lye_c, mix_c):
    assert mixing_temperature(1000, fats_c, LYE_33, lye_c, 1 / 3) == pytest.approx(mix_c, abs=0.1)
    assert fats_temperature_for(mix_c, 1000, LYE_33, lye_c, 1 / 3) == pytest.approx(fats_c, abs=0.2)


# Common practice: a loose loaf of 1 kg loses 0.6 of the heat, an insulated one of 3 kg 0.3.
@pytest.mark.parametrize(("batter_g", "insulated", "lost"), [(1000, False, 0.6), (3000, True, 0.3)])
def test_heat_lost_passes_through_both_points_of_common_practice(batter_g, insulated, lost):
    assert heat_loss(batter_g, insulated) == pytest.approx(lost)


# Rise for 1000 g of oils and 144 g of NaOH (3.6 mol) by strength of the lye, K, worked out apart from this code with
# rounded heat capacities: hence 2 K.
@pytest.mark.parametrize(("w", "low", "high"), [(0.25, 32, 48), (1 / 3, 37, 55), (0.40, 39, 59)])
def test_heat_of_saponification_equals_the_worked_range(w, low, high):
    rise = saponification_rise(3.6, 1000, 144 / w, w)

    assert (rise.low, rise.high) == pytest.approx((low, high), abs=2)


# Enthalpies of formation, CRC Handbook, kJ/mol: liquid ethyl acetate -479.3, liquid ethanol -277.0, acetate ion
# -486.0, hydroxide ion -230.0; glycerol triacetate -1330.8, glycerol -669.6.
def test_the_range_of_the_heat_of_reaction_lies_between_two_esters_that_were_measured():
    ethyl_acetate = -(-486.0 - 277.0 - (-479.3 - 230.0))
    triacetin = -(3 * -486.0 - 669.6 - (-1330.8 + 3 * -230.0)) / 3

    assert ethyl_acetate == pytest.approx(53.7, abs=0.05)
    assert triacetin == pytest.approx(35.6, abs=0.05)
    assert ESTER_LOW.value <= triacetin < ethyl_acetate <= ESTER_HIGH.value


# K. M. Dunn, Time and Temperature, 2018: the blend gels at 71 C with 33 % lye and at 87 C with 40 % lye.
@pytest.mark.parametrize(("lye_g", "water_g", "printed"), [(432, 288, 71), (360, 216, 87)])
def test_gel_line_passes_through_both_printed_points(lye_g, water_g, printed):
    assert gel_temperature(water_g / (1000 + lye_g)).central == pytest.approx(printed, abs=0.1)


# K. M. Dunn, the same: a batter of 33 % lye started at 40 or 60 C cooled again below gel; started at 65 C it crossed
# into gel. The sample's mass is not printed; 100 g is taken.
@pytest.mark.parametrize(("start_c", "gels"), [(40, False), (60, False), (65, True)])
def test_outlook_for_a_small_sample_agrees_with_what_was_printed(start_c, gels):
    outlook = gel_outlook(100, 0.201, start_c, 3.6, 1000, LYE_33, insulated=False)

    assert (outlook.verdict != "unlikely") is gels


def test_little_water_is_unlikely_to_gel():
    assert gel_outlook(1000, 0.11, 45, 3.6, 1000, 288, insulated=True, w=0.5).verdict == "unlikely"
