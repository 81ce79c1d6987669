"""What a formula meets in a workshop."""

from dataclasses import replace

import pytest

from soapbench.bars.conditions import USUAL_FATS_G, conditions_for
from soapbench.bars.demo import EBB_LINE
from soapbench.bars.formula import FatLine

pytestmark = pytest.mark.django_db


def test_every_bar_of_the_demo_may_be_made(world):
    stops = {
        slug: conditions_for(world.workshop, formula).check(formula).stops
        for slug, bar in world.bars.items()
        for formula in [bar.revisions.first().formula]
    }

    assert stops == dict.fromkeys(world.bars, ())


def test_the_usual_batch_fills_the_usual_mould(workshop):
    found = conditions_for(workshop, EBB_LINE).check(EBB_LINE)

    assert found.sums.fit.ok
    assert found.sums.fit.fill > 0.9


def test_without_a_mould_the_usual_batch_is_a_kilogram_of_fats(workshop):
    formula = replace(EBB_LINE, mould="")

    assert conditions_for(workshop, formula).usual_fats_g(formula) == USUAL_FATS_G


def test_a_formula_that_cannot_be_worked_out_still_has_a_batch(workshop):
    formula = replace(EBB_LINE, fats=(FatLine("walrus", 100),))

    assert conditions_for(workshop, formula).usual_fats_g(formula) == USUAL_FATS_G


def test_a_tool_that_is_put_away_stops_its_bar(workshop):
    workshop.tools.filter(key=EBB_LINE.drawing.tool).update(is_here=False)

    codes = {finding.code for finding in conditions_for(workshop, EBB_LINE).check(EBB_LINE).stops}
    assert codes == {"tool"}


def test_the_finest_scale_counts(workshop):
    finest = min(workshop.scales.values_list("resolution_g", flat=True))

    assert conditions_for(workshop, EBB_LINE).resolution_g == finest


def test_without_a_scale_a_kitchen_scale_is_taken(workshop):
    workshop.scales.all().delete()

    assert conditions_for(workshop, EBB_LINE).resolution_g == 1.0
