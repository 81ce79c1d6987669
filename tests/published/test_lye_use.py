"""The lye in use: its volume, its water, its ice and its jug, against old tables and a reference library."""

import pytest

from soapbench.science.jug import heat_capacity_of, jug_check, material
from soapbench.science.lye import lye_volume_ml, water_to_alkali
from soapbench.science.lye_heat import NAOH_SOLID_C, WATER_C, ice_for_peak, start_warning
from soapbench.science.lye_properties import check_solute, check_strength, check_temperature, solubility_limit
from soapbench.science.mixing import FATS_C, false_trace_warning

POUND, GALLON_ML = 453.59237, 4546.09


# Simmons & Appleton 1908, appendix C (after Hurst): at 72 degrees Twaddell an imperial gallon of lye holds 4.478 lb of
# NaOH in 32.930 %. Its temperature is not printed; 15.5 C was the custom.
def test_a_gallon_of_the_old_lye_is_a_gallon_here():
    alkali = 4.478 * POUND
    water = alkali / 0.32930 - alkali

    assert lye_volume_ml(alkali, water, "NaOH", 15.5) == pytest.approx(GALLON_ML, rel=0.004)


# The same book, appendix D: KOH, 35.01 %, 4.76 lb in the gallon at a density of 1.360; the table is rougher.
def test_a_gallon_of_the_old_potash_lye_is_a_gallon_here():
    alkali = 4.76 * POUND
    water = alkali / 0.3501 - alkali

    assert lye_volume_ml(alkali, water, "KOH", 15.5) == pytest.approx(GALLON_ML, rel=0.015)


# Table of the trade, lye strength and grams of water a gram of alkali.
@pytest.mark.parametrize(
    ("strength", "ratio"), [(0.25, 3.0), (0.28, 2.57), (0.30, 2.33), (0.36, 1.78), (0.38, 1.63), (0.40, 1.5), (0.5, 1)]
)
def test_water_to_alkali_is_that_of_the_trade_s_table(strength, ratio):
    assert water_to_alkali(strength) == pytest.approx(ratio, abs=0.006)


# Balance worked out apart from this code: half of the water as ice at -18 C holds a 33 % lye under 66 C, all of it
# under 23 C.
@pytest.mark.parametrize(("limit", "ice"), [(66, 335), (23, 670)])
def test_the_ice_for_a_peak_is_that_of_the_worked_table(limit, ice):
    assert ice_for_peak(330, 670, 20, limit + 0.6) == pytest.approx(ice, rel=0.03)


# The same balance: a 33 % lye that starts at 34 C reaches its boiling point, so a start above 30 C is refused.
def test_the_start_that_could_boil_is_refused_and_a_cold_one_is_not():
    assert start_warning(34).stops
    assert start_warning(20) is None


# CRC standard thermodynamic data in the library chemicals: solid NaOH 59.5, water 75.3 J/(mol K).
def test_heat_capacities_equal_the_reference_library():
    data = crc()

    assert NAOH_SOLID_C.value == pytest.approx(data.loc["1310-73-2"]["Cps"] / 39.997, rel=0.001)
    assert WATER_C.value == pytest.approx(data.loc["7732-18-5"]["Cpl"] / 18.015, rel=0.001)


# The same table for the metals of jugs: aluminium 24.2, zinc 25.4, tin 25.8 (grey), iron for steel 25.1 J/(mol K).
@pytest.mark.parametrize(
    ("name", "cas", "molar"),
    [
        ("aluminium", "7429-90-5", 26.98),
        ("zinc", "7440-66-6", 65.38),
        ("tin", "7440-31-5", 118.71),
        ("stainless steel", "7439-89-6", 55.85),
    ],
)
def test_the_specific_heat_of_a_metal_jug_is_near_that_of_its_metal(name, cas, molar):
    assert heat_capacity_of(name) == pytest.approx(crc().loc[cas]["Cps"] / molar, rel=0.12)


# Trade sheet for liquid caustic soda: stainless steel resists; aluminium, tin and zinc do not. An encyclopaedia: alkali
# etches glass. 1 kg of lye with 33 % fills 760 ml, which is more than two thirds of a litre jug.
@pytest.mark.parametrize("name", ["aluminium", "tin", "zinc", "glass"])
def test_a_jug_that_lye_attacks_is_refused(name):
    assert material(name).hottest_c is None
    assert jug_check(name, 2000, 500, 60).stops


def test_a_jug_of_stainless_steel_is_taken_but_not_when_it_gets_too_full():
    lye = lye_volume_ml(330, 670)

    assert jug_check("stainless steel", 2000, lye, 95).ok
    assert "% full" in jug_check("stainless steel", 1000, lye, 95).sentence


# Polish physics tables: at 20 C 109 g of NaOH or 112 g of KOH dissolve in 100 g of water, so half by mass is a lye.
def test_the_strongest_lye_in_use_is_one_that_dissolves():
    for solute in ("NaOH", "KOH"):
        check_solute(solute)
        assert solubility_limit(solute, 20) > 0.50
    check_strength(0.50)


# Trade texts read 66 to 93 C in fresh lye.
@pytest.mark.parametrize("celsius", [66, 93])
def test_the_temperatures_that_makers_read_are_believed(celsius):
    check_temperature(celsius)


# Engineering ToolBox: olive and castor oil 1.97 kJ/(kg K). Fasina and Colley 2008 at 35 C: corn 1.67, sunflower 2.24.
def test_the_heat_capacity_of_fats_lies_among_the_printed_ones():
    assert 1.67 <= FATS_C.value <= 2.24
    assert FATS_C.value == pytest.approx(1.97, rel=0.02)


# CRC melting point of stearic acid in the library chemicals: 342 K, 69 C. A mix at 45 C lets it set.
def test_stearic_acid_sets_in_a_mix_of_45_degrees():
    chemicals = pytest.importorskip("chemicals")
    melts = chemicals.Tm("57-11-4") - 273.15

    assert "look like trace" in false_trace_warning(45, melts)
    assert false_trace_warning(75, melts) is None


def crc():
    """Return the CRC table of standard data that the library chemicals carries."""
    pytest.importorskip("chemicals")
    from chemicals import heat_capacity

    return heat_capacity.CRC_standard_data
