"""Limits inside scents against the sums of a safety study."""

import pytest

from soapbench.science.doses import dose_g
from soapbench.science.restricted import LIMITS, Scent, check_substances, largest_share_of_oil, strictest_limit


# IFRA Standards, Amendment 49 (2020), category 9: methyl eugenol 0.00087 %, citronellal 1.4 %; both read.
def test_the_limits_that_were_read_in_the_standards():
    assert strictest_limit("methyl eugenol").max_percent == 0.00087
    assert strictest_limit("citronellal").max_percent == 1.4


# EFSA FEEDAP 2023: clove oils hold up to 0.13 % methyl eugenol. 2 % of it is 0.0026 % in the bar; the most is
# 0.66 % by IFRA (rounded down).
def test_methyl_eugenol_limits_clove():
    clove = Scent("clove bud", 20, {"methyl eugenol": 0.0013, "eugenol": 0.85})
    checks = dict(check_substances([clove], 1000))

    assert checks["methyl eugenol"].percent == pytest.approx(0.0026)
    assert not checks["methyl eugenol"].ok
    assert checks["eugenol"].ok
    assert largest_share_of_oil("methyl eugenol", 0.0013) == pytest.approx(0.669, abs=0.001)


# Lemongrass at 2 % with 80 % citral: 1.6 %, over the remembered 1.2 %; the most is 1.5 %.
def test_citral_limits_lemongrass():
    checks = dict(check_substances([Scent("lemongrass", 20, {"citral": 0.80})], 1000))

    assert checks["citral"].percent == pytest.approx(1.6)
    assert not checks["citral"].ok
    assert largest_share_of_oil("citral", 0.80) == pytest.approx(1.5)


# EU Annex III caps isoeugenol at 0.02 % and hydroxycitronellal at 1.0 %, below the IFRA figures.
def test_the_stricter_of_two_rules_counts():
    assert strictest_limit("isoeugenol").max_percent == 0.02
    assert strictest_limit("hydroxycitronellal").max_percent == 1.0


# Limits scale with one induction level, so limit / NESIL is one number: NESIL in ug/cm2, all from memory.
@pytest.mark.parametrize(
    ("substance", "nesil"),
    [("citral", 1400), ("cinnamal", 591), ("isoeugenol", 250), ("coumarin", 3500), ("eugenol", 5900),
     ("geraniol", 11800)],
)  # fmt: skip
def test_the_remembered_limits_hang_together(substance, nesil):
    assert LIMITS[substance][0].max_percent / nesil == pytest.approx(0.00083, rel=0.07)


# Trade arithmetic: half an ounce a pound of fats is 3.1 %, one ounce a pound 6.3 %.
@pytest.mark.parametrize(("percent", "ounces"), [(3.1, 0.5), (6.25, 1.0)])
def test_scent_per_pound_of_fats(percent, ounces):
    assert dose_g(percent, "percent of fats", 453.6, 700) == pytest.approx(ounces * 28.35, rel=0.01)
