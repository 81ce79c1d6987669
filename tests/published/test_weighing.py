"""Weighing against rules set for the bench (own choice, no outside source) and the law on scales."""

import pytest

from soapbench.science.scale import permissible_error_g
from soapbench.science.scale_check import check_limit_g, scale_check
from soapbench.science.weighing import entry_doubts, pot_check, scale_too_coarse, tolerance_g


# Entry rule: T = max(d, p x target); alkali 0.5 %, oils 1 %, water and scent 2 %, colour 5 %.
@pytest.mark.parametrize(
    ("kind", "target", "step", "allowed"),
    [("alkali", 143.6, 0.1, 0.718), ("fat", 400, 1, 4), ("water", 287, 1, 5.74), ("scent", 30, 0.1, 0.6),
     ("colour", 4, 0.1, 0.2), ("alkali", 50, 1, 1)],
)  # fmt: skip
def test_the_tolerance_of_each_kind(kind, target, step, allowed):
    assert tolerance_g(kind, target, step) == pytest.approx(allowed)


# Entry rule: the table of ratios and differences.
@pytest.mark.parametrize(
    ("entered", "target", "code"),
    [
        (1430, 143, "decimal"),
        (14.3, 143, "decimal"),
        (1.43, 143, "decimal"),
        (14300, 143, "decimal"),
        (11340, 400, "unit"),  # 400 g typed as if they were ounces
        (14.11, 400, "unit"),
        (0.4, 400, "unit"),
        (444, 44, "doubled"),
        (154, 145, "swapped"),
    ],
)
def test_the_slip_behind_a_ratio(entered, target, code):
    codes = [doubt.code for doubt in entry_doubts(entered, target, kind="fat", resolution_g=0.01)]

    assert code in codes


# Same table: NaOH against KOH, ratio 1.403 or 0.713.
@pytest.mark.parametrize("entered", [143.6 * 1.403, 143.6 * 0.713])
def test_the_other_alkali_is_recognised(entered):
    codes = [doubt.code for doubt in entry_doubts(entered, 143.6, kind="alkali", resolution_g=0.1)]

    assert codes == ["other alkali"]


# C15 of the bench sums: doubt if the gap is more than max(2 d sqrt n, 0.3 %); a gap near one fat names it.
def test_the_pot_check_names_the_forgotten_fat():
    parts = {"olive": 400.0, "coconut": 300.0, "shea": 100.0}
    check = pot_check(800, 701, 3, 1, parts)

    assert check.allowed_g == pytest.approx(2 * 3**0.5)
    assert check.suspect == "shea"


# Entry rule: too coarse when one step is more than 0.5 % of the alkali.
def test_a_gram_is_too_coarse_below_two_hundred_grams_of_alkali():
    assert scale_too_coarse(1, 199)
    assert not scale_too_coarse(1, 201)


# UK SI 1995/1907, Schedule 2, paragraph 4, Table 3: class II 0.5 e to 5000 e, 1 e to 20 000 e; class III 0.5 e to
# 500 e, 1 e to 2000 e, 1.5 e to 10 000 e. In service twice that.
@pytest.mark.parametrize(
    ("load", "step", "scale_class", "error"),
    [(500, 0.1, "II", 0.05), (501, 0.1, "II", 0.1), (500, 1, "III", 0.5), (2000, 1, "III", 1), (10_000, 1, "III", 1.5)],
)
def test_the_permissible_errors_of_verified_scales(load, step, scale_class, error):
    assert permissible_error_g(load, step, scale_class, in_service=False) == pytest.approx(error)
    assert permissible_error_g(load, step, scale_class) == pytest.approx(2 * error)


@pytest.mark.parametrize(("known", "step", "limit"), [(50, 1, 1.0), (200, 0.1, 0.2), (500, 1, 1.0), (2000, 1, 2.0)])
def test_a_scale_is_tried_against_the_class_iii_error_in_service(known, step, limit):
    # OIML R 76: class III, 0.5 e up to 500 e, 1 e up to 2000 e, 1.5 e beyond; twice that in service. From memory.
    assert check_limit_g(known, step) == pytest.approx(limit)
    assert scale_check(known, known + limit, step).ok
    assert not scale_check(known, known + limit + step, step).ok
