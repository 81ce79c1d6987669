import pytest

from soapbench.bars import demo
from soapbench.bars.check import check
from soapbench.bars.conditions import conditions_for
from soapbench.shelf import reference
from soapbench.shelf.facts import facts_for
from soapbench.workshop.models import Workshop

SLUGS = ["ebb-line", "doorstep", "long-patience", "byre-gate"]


def test_loading_it_again_changes_nothing(world):
    assert demo.load() is None
    assert Workshop.objects.filter(is_invented=True).count() == 1


def test_everything_in_it_says_that_it_is_invented(world):
    assert world.workshop.is_invented
    assert all(bar.is_invented for bar in world.bars.values())
    assert not world.workshop.materials.exclude(confidence="invented").exists()


@pytest.mark.parametrize("slug", SLUGS)
def test_nothing_keeps_a_bar_from_being_made(world, slug):
    formula = world.bars[slug].revisions.get().formula

    assert conditions_for(world.workshop, formula).check(formula).stops == ()


def test_a_kilogram_of_the_four_portions_fits_the_loaf(world):
    formula = world.bars["ebb-line"].revisions.get().formula
    seen = conditions_for(world.workshop, formula)

    assert check(formula, seen.facts, 1000, seen.resolution_g, seen.mould, tools=seen.tools).stops == ()
    assert len(formula.portions) == 4


@pytest.mark.parametrize("slug", SLUGS)
def test_the_shelf_holds_enough_of_everything_for_a_first_batch(world, slug):
    formula = world.bars[slug].revisions.get().formula
    facts = facts_for(world.workshop, formula.material_keys)
    fats_g = conditions_for(world.workshop, formula).usual_fats_g(formula)

    short = [line.material for line in formula.fats if (facts[line.material].left_g or 0) < fats_g * line.amount / 100]
    assert short == []


def test_it_needs_no_reference_row_that_is_not_there(db):
    reference.load()

    assert demo.load() is not None
