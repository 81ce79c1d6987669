"""From the page for editing to a formula and back."""

import pytest
from django.http import QueryDict

from soapbench.bars import demo
from soapbench.bars.formula import Formula, from_document, to_document
from soapbench.bars.formula_forms import FormulaForms
from soapbench.bars.offers import offers_for
from soapbench.bars.row_changes import changed_rows
from tests.bars.typed import typed

pytestmark = pytest.mark.django_db
FORMULAS = [value for value in vars(demo).values() if isinstance(value, Formula)]


def query(fields):
    data = QueryDict(mutable=True)
    data.update(fields)
    return data


@pytest.fixture
def offers(workshop):
    return offers_for(workshop)


@pytest.fixture
def bound(offers):
    return lambda **changes: FormulaForms.bound(query(typed(demo.EBB_LINE, offers, **changes)), offers)


def sentence(forms, name, field, row=None):
    form = forms[name] if row is None else forms[name].forms[row]
    return form.errors[field][0]


def test_the_demo_has_formulas_to_try():
    assert len(FORMULAS) == 4


@pytest.mark.parametrize("formula", FORMULAS, ids=lambda formula: formula.mould)
def test_a_formula_comes_back_from_the_page_as_it_went_in(formula, offers):
    forms = FormulaForms.bound(query(typed(formula, offers)), offers)

    assert forms.is_valid(), forms.complaints
    assert forms.formula == formula


def test_a_formula_written_before_shares_could_be_by_mass_counts_them_by_mole():
    document = to_document(demo.EBB_LINE)
    del document["alkali"]["shares_by"]

    assert from_document(document) == demo.EBB_LINE


def test_an_empty_row_counts_for_nothing(bound):
    forms = bound(fats__5__material="", fats__5__amount="", fats__TOTAL_FORMS="6")

    assert forms.is_valid()
    assert forms.formula.fats == demo.EBB_LINE.fats


def test_a_row_that_was_emptied_is_taken_out(bound):
    forms = bound(additives__6__material="", additives__6__dose="", additives__6__goes_to="all")

    assert forms.is_valid(), forms.complaints
    assert len(forms.formula.additives) == 6


def test_a_row_without_its_material_asks_for_one(bound):
    assert sentence(bound(fats__0__material=""), "fats", "material", 0) == "Choose one from the list."


@pytest.mark.parametrize("key", ["walrus", "sodium_hydroxide", "shingle_scent"])
def test_what_is_no_fat_of_this_shelf_is_refused(bound, key):
    assert "not in your workshop" in sentence(bound(fats__0__material=key), "fats", "material", 0)


def test_another_workshops_material_is_refused(bound, stranger):
    stranger.workshop.materials.create(key="secret_fat", kind="fat", name="Secret fat")

    assert "not in your workshop" in sentence(bound(fats__0__material="secret_fat"), "fats", "material", 0)


def test_a_colour_dispersed_in_something_needs_its_grams(bound):
    forms = bound(additives__0__disperse_ratio="")

    assert sentence(forms, "additives", "disperse_ratio", 0).startswith("Write how many grams")


def test_the_window_for_mixing_may_not_be_upside_down(bound):
    forms = bound(process__mix_low_c="45", process__mix_high_c="40")

    assert "warmer" in sentence(forms, "process", "mix_high_c")


def test_a_formula_without_a_fat_says_what_it_needs(bound):
    forms = bound(fats__TOTAL_FORMS="0")

    assert not forms.is_valid()
    assert forms.missing.startswith("Choose at least one fat")


def test_a_formula_without_a_portion_says_what_it_needs(bound):
    assert bound(portions__TOTAL_FORMS="0", additives__TOTAL_FORMS="0").missing.startswith("Name at least one portion")


@pytest.mark.parametrize("count", ["", "many", "-1", "999999999"])
def test_a_count_of_rows_that_is_nonsense_is_refused_and_does_not_raise(bound, count):
    forms = bound(fats__TOTAL_FORMS=count)

    assert not forms.is_valid()


def test_the_parts_that_are_wrong_are_named(bound):
    assert bound(alkali__superfat="99", pour__0__share="0").wrong == {"alkali", "pour"}


def test_a_row_is_added_and_what_was_typed_stays(offers):
    forms = changed_rows(query(typed(demo.EBB_LINE, offers, fats__0__amount="12 oz", row="add-fats")), offers)

    rows = forms.rows["fats"].forms
    assert len(rows) == 6
    assert rows[0]["amount"].value() == "12 oz"
    assert not rows[0].errors


def test_the_row_that_was_named_is_taken_out(offers):
    forms = changed_rows(query(typed(demo.EBB_LINE, offers, row="remove-fats-1")), offers)

    left = [row["material"].value() for row in forms.rows["fats"].forms]
    assert left == ["olive", "sunflower_high_oleic", "cocoa_butter", "castor"]


@pytest.mark.parametrize(("wish", "index"), [("add-fats", 5), ("remove-fats-3", 2), ("remove-fats-0", 0)])
def test_the_keyboard_goes_on_where_a_row_changed(offers, wish, index):
    forms = changed_rows(query(typed(demo.EBB_LINE, offers, row=wish)), offers)

    focused = ["autofocus" in row["material"].as_widget() for row in forms.rows["fats"].forms]
    assert focused.index(True) == index
    assert focused.count(True) == 1


@pytest.mark.parametrize("wish", ["remove-fats-77", "add-dragons", "remove-dragons-0", "nonsense", ""])
def test_a_wish_for_no_row_changes_nothing(offers, wish):
    forms = changed_rows(query(typed(demo.EBB_LINE, offers, row=wish)), offers)

    assert len(forms.rows["fats"].forms) == 5


def test_there_are_at_most_eight_portions(offers):
    fields = typed(demo.EBB_LINE, offers, portions__TOTAL_FORMS="8", row="add-portions")

    assert len(changed_rows(query(fields), offers).rows["portions"].forms) == 8
