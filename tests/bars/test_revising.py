"""Writing formulas down."""

from dataclasses import replace

import pytest

from soapbench.bars.revising import free_slug, make_bar, revise
from tests.bars.plain import plain

pytestmark = pytest.mark.django_db


@pytest.fixture
def bar(workshop, owner):
    return make_bar(workshop=workshop, name="Plain", formula=plain(), by=owner)


def test_a_new_bar_has_its_first_revision(bar, owner):
    only = bar.revisions.get()

    assert (only.number, only.formula, only.made_by) == (1, plain(), owner)


def test_an_unused_revision_is_changed_in_place(bar, owner):
    revise(bar=bar, formula=plain(superfat=0.06), by=owner)

    assert bar.revisions.get().formula.superfat == 0.06


def test_a_used_revision_stays_and_the_next_one_says_why(bar, owner):
    bar.revisions.update(is_pinned=True)

    made = revise(bar=bar, formula=plain(superfat=0.06), by=owner, why="Too drying")

    assert (made.number, made.why, made.is_pinned) == (2, "Too drying", False)
    assert bar.revisions.get(number=1).formula == plain()


def test_saving_the_same_formula_makes_no_revision(bar, owner):
    bar.revisions.update(is_pinned=True)

    assert revise(bar=bar, formula=plain(), by=owner).number == 1


def test_two_bars_of_one_name_have_their_own_addresses(bar, workshop, owner):
    assert make_bar(workshop=workshop, name="Plain", formula=plain(), by=owner).slug == "plain-2"


@pytest.mark.parametrize(("name", "slug"), [("New", "new-2"), ("Check", "check-2"), ("雪", "bar"), ("Été 2", "ete-2")])
def test_every_name_gives_an_address(workshop, name, slug):
    assert free_slug(workshop, name) == slug


def test_what_a_bar_was_before_is_not_touched(bar, owner):
    before = bar.revisions.get().formula

    revise(bar=bar, formula=replace(before, mould="tray"), by=owner)

    assert before.mould == ""
