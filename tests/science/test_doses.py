from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soapbench.science.doses import (
    Limit,
    PortionDose,
    check_dose,
    check_portions,
    dose_g,
    finished_g,
    largest_dose_g,
    spoon_to_g,
)
from soapbench.science.errors import OutOfRange
from soapbench.science.restricted import (
    Scent,
    check_substances,
    largest_share_of_oil,
    strictest_limit,
    substance_totals,
)

# Typed loosely, as what comes in from a form is.
UNKNOWN: Any = "unknown"

LIMIT = Limit(1.0, "finished product", "certificate of the lot", "read")


@pytest.mark.parametrize(
    ("amount", "basis", "grams"),
    [(3, "percent of fats", 30), (2, "percent of batter", 28), (5, "grams per kg of fats", 5), (12, "grams", 12)],
)
def test_a_dose_counts_on_what_it_says(amount, basis, grams):
    assert dose_g(amount, basis, 1000, 1400) == pytest.approx(grams)


@given(st.floats(0, 100), st.floats(0, 5000), st.floats(0, 10))
def test_a_dose_grows_with_the_fats(percent, fats_g, factor):
    once = dose_g(percent, "percent of fats", fats_g, 0)

    assert dose_g(percent, "percent of fats", fats_g * factor, 0) == pytest.approx(once * factor)


def test_a_limit_counts_on_the_cured_bar():
    assert finished_g(1000) == pytest.approx(850)
    assert check_dose("rose", 9, finished_g(1000), LIMIT).percent > check_dose("rose", 9, 1000, LIMIT).percent


def test_a_dose_at_its_limit_is_allowed():
    check = check_dose("rose", 10, 1000, LIMIT)

    assert check.ok
    assert "certificate of the lot, read" in check.sentence


def test_a_dose_over_its_limit_says_how_much_is_allowed():
    check = check_dose("rose", 12.3, 999, LIMIT)

    assert not check.ok
    assert "Use 9.99 g or less" in check.sentence


def test_the_allowed_amount_in_the_sentence_is_never_rounded_up():
    check = check_dose("rose", 12.3, 999.99, LIMIT)

    assert "Use 9.99 g or less" in check.sentence


def test_without_a_limit_the_answer_is_no_and_what_to_do():
    check = check_dose("rose", 1, 1000, None)

    assert not check.ok
    assert "certificate" in check.sentence


@given(st.floats(1, 5000), st.floats(0.001, 100))
def test_the_largest_dose_keeps_the_limit(product_g, percent):
    limit = Limit(percent, "fats", "certificate", "read")

    assert check_dose("rose", largest_dose_g(product_g, limit), product_g, limit).ok


def test_a_portion_can_be_over_while_the_whole_bar_is_not():
    checks = check_portions("clove", [PortionDose("A", 8, 400), PortionDose("B", 0, 600)], LIMIT)

    assert checks.whole.ok
    assert not checks.ok
    assert checks.sentence.startswith("Portion A: clove is 2 %")


def test_a_portion_without_the_scent_is_not_checked():
    checks = check_portions("clove", [PortionDose("A", 4, 400), PortionDose("B", 0, 600)], LIMIT)

    assert [letter for letter, _ in checks.portions] == ["A"]
    assert checks.ok


def test_spoons_need_a_density_and_come_with_a_warning():
    spoons = spoon_to_g(2, 5, 0.6)

    assert spoons.grams == pytest.approx(6)
    assert "Weigh" in spoons.warning
    with pytest.raises(OutOfRange, match="not a weight"):
        spoon_to_g(2, 5, None)


def test_a_substance_is_added_up_over_all_scents():
    scents = [Scent("lemongrass", 10, {"citral": 0.8}), Scent("litsea", 5, {"Citral": 0.7})]

    assert substance_totals(scents) == {"citral": pytest.approx(11.5)}
    assert dict(check_substances(scents, 1000))["citral"].percent == pytest.approx(1.15)


def test_a_substance_without_a_limit_is_left_out():
    assert check_substances([Scent("orange", 10, {"limonene": 0.95})], 1000) == ()
    assert strictest_limit("limonene") is None


@pytest.mark.parametrize(
    "call",
    [
        lambda: dose_g(-1, "grams", 1, 1),
        lambda: dose_g(101, "percent of fats", 1, 1),
        lambda: dose_g(1, UNKNOWN, 1, 1),
        lambda: dose_g(1, "percent of fats", -1, 1),
        lambda: finished_g(1000, 1),
        lambda: check_dose("rose", -1, 100, LIMIT),
        lambda: check_dose("rose", 1, 0, LIMIT),
        lambda: check_portions("rose", [], LIMIT),
        lambda: largest_dose_g(-1, LIMIT),
        lambda: spoon_to_g(-1, 5, 1),
        lambda: spoon_to_g(1, 5, 0),
        lambda: Scent("rose", -1),
        lambda: Scent("rose", 1, {"citral": 2}),
        lambda: largest_share_of_oil("water", 0.5),
        lambda: largest_share_of_oil("citral", 0),
    ],
)
def test_what_cannot_be_is_refused_with_a_sentence(call):
    with pytest.raises(OutOfRange) as refusal:
        call()
    assert str(refusal.value).endswith(".")
