"""What finished runs teach the next plan, and that a maker may refuse it."""

from dataclasses import replace

import pytest

from soapbench.bench.learning.learnt import Learnt, learnt_from, teachings, without
from soapbench.bench.learning.lesson import Lesson, PotRate, ScentTime, from_document, lesson_of, to_document
from soapbench.science.cooling_law import prior_for, temperature_after
from soapbench.science.mould import POT_LOSS

from .sample import FACTS, SWIRLED, hand, order, plan_of

JUG = "Jug"
VESSELS = {"lye": JUG, "fats": "Pot"}


def cooled(played, k=0.03, exponent=1.4):
    """Read the lye every eight minutes as it cools by the law at a rate of k."""
    for _ in range(5):
        played.wait(minutes=7)
        minutes = (played.now - played.state.done["alkali-into-water"]).total_seconds() / 60 + 1
        played.tap("read", pot="lye", temp_c=round(temperature_after(minutes, 85, 20, k, exponent), 1))
    return played


def finished(**masses):
    played = hand(SWIRLED).start().until("read-lye", **masses)
    return cooled(played).until("cut")


def lesson(**more):
    return Lesson("invented-bar", trace="thin", **more)


def test_a_run_teaches_how_its_jug_cooled():
    (rate,) = (each for each in lesson_of(finished().plan, finished().state).pots if each.vessel == JUG)
    assert 2.718**rate.ln_k_mean == pytest.approx(0.03, rel=0.2)
    assert rate.ln_k_sd < prior_for(rate.heat_capacity).ln_k_sd


def test_one_reading_teaches_nothing_of_a_pot():
    played = hand(SWIRLED).start().until("cut")
    assert lesson_of(played.plan, played.state).pots == ()


def test_a_run_teaches_how_long_its_scent_held():
    played = finished()
    times = {time.material: time for time in lesson_of(played.plan, played.state).scents}
    begun, poured = played.state.done["add:scent:A:rosemary"], played.state.done["pour:1"]
    assert times["rosemary"].minutes == pytest.approx((poured - begun).total_seconds() / 60)
    assert not times["rosemary"].thickened


def test_a_portion_that_thickened_teaches_when_it_did():
    played = hand(SWIRLED).start().until("pour:1")
    played.tap(
        "changed", "pour:1", what="thickened early", why="the scent", decision="spoon it in", portion="B", minutes=2.5
    )
    time = next(each for each in lesson_of(played.plan, played.state).scents if each.material == "clove")
    assert (time.minutes, time.thickened) == (2.5, True)


def test_a_cut_loaf_teaches_what_stayed_in_the_pots():
    played = finished()
    made = sum(weight.mass_g for weight in played.state.weights.values())
    played.tap("cut", "cut", bars=11, mass_g=round(made - 60, 1), offcuts_g=40)
    found = lesson_of(played.plan, played.state)
    assert found.made_g - found.cut_g == pytest.approx(20)
    assert found.bars_cut == 11


def test_a_loaf_of_which_some_was_spilt_teaches_no_pot_loss():
    played = finished()
    played.tap("changed", what="lost or spilt", why="knocked over", decision="go on", portion="A", mass_g=80)
    played.tap("cut", "cut", bars=11, mass_g=1300, offcuts_g=100)
    assert lesson_of(played.plan, played.state).made_g is None


def test_a_lesson_comes_back_from_its_document_as_it_was():
    played = finished()
    found = lesson_of(played.plan, played.state)
    assert from_document(to_document(found)) == found


def test_more_runs_make_a_jug_surer():
    one = lesson(pots=(PotRate(JUG, -3.5, 0.1, 1.5),))
    few = learnt_from([one] * 2, "invented-bar", "thin").cooling[JUG]
    many = learnt_from([one] * 8, "invented-bar", "thin").cooling[JUG]
    assert (few.runs, many.runs) == (2, 8)
    assert many.sd < few.sd


def test_losses_of_the_past_move_how_much_is_made():
    lessons = [lesson(made_g=1500, cut_g=1460)] * 6
    learnt = learnt_from(lessons, "invented-bar", "thin")
    assert 30 < learnt.loss_g < 40
    full = replace(order().size, by="mould")
    plain, knowing = plan_of(size=full), plan_of(size=full, learnt=learnt)
    assert knowing.size.batter_g == pytest.approx(plain.size.batter_g + learnt.loss_g - POT_LOSS.value, abs=2)


def test_a_scent_that_thickened_shortens_the_time_planned_with():
    fast = [lesson(scents=(ScentTime("rosemary", 4, 37.5, thickened=True),))] * 3
    learnt = learnt_from(fast, "invented-bar", "thin")
    planned = plan_of(SWIRLED, learnt=learnt).prompt("add:scent:A:rosemary").timer
    assert planned.minutes < 5 < plan_of(SWIRLED).prompt("add:scent:A:rosemary").timer.minutes


def test_a_scent_that_never_thickened_is_not_taken_for_a_fast_one():
    calm = [lesson(scents=(ScentTime("rosemary", 3, 37.5, thickened=False),))] * 3
    learnt = learnt_from(calm, "invented-bar", "thin")
    assert learnt.working_minutes(FACTS["rosemary"], 37.5) == FACTS["rosemary"].working_minutes


def test_batter_that_held_for_longer_than_the_shelf_says_gets_more_time():
    calm = [lesson(scents=(ScentTime("clove", 30, 37.5, thickened=False),))] * 3
    learnt = learnt_from(calm, "invented-bar", "thin")
    assert learnt.working_minutes(FACTS["clove"], 37.5) > 5 > FACTS["clove"].working_minutes


def test_a_cooler_start_gives_a_scent_more_time():
    learnt = learnt_from([lesson(scents=(ScentTime("clove", 3, 40, thickened=True),))] * 4, "b", "thin")
    assert learnt.working_minutes(FACTS["clove"], 30) > 1.5 * learnt.working_minutes(FACTS["clove"], 40)


def test_trace_is_learnt_for_this_bar_and_this_trace_only():
    others = [replace(lesson(trace_minutes=20.0), bar="other"), replace(lesson(trace_minutes=20.0), trace="thick")]
    learnt = learnt_from([*others, lesson(trace_minutes=6.0)], "invented-bar", "thin")
    assert learnt.trace_minutes.runs == 1
    assert learnt.trace_minutes.value.central < 8


def test_the_plan_carries_what_it_reckons_with():
    learnt = learnt_from([lesson(pots=(PotRate(JUG, -3.5, 0.1, 1.5),), trace_minutes=6.0)] * 3, "invented-bar", "thin")
    plan = plan_of(learnt=learnt)
    assert {each.key: each.runs for each in plan.learnt} == {f"cooling:{JUG}": 3, "trace": 3}
    assert plan.cooling_learnt["lye"].runs == 3
    assert plan.usual_trace_runs == 3


def test_a_jug_that_cools_fast_is_planned_with_less_time():
    def planned(ln_k):
        learnt = learnt_from([lesson(pots=(PotRate(JUG, ln_k, 0.05, 1.4),))] * 5, "invented-bar", "thin")
        return plan_of(learnt=learnt).prompt("alkali-into-water").timer.minutes

    assert planned(-3.0) < planned(-4.0)


@pytest.mark.parametrize("key", [f"cooling:{JUG}", "scent:rosemary", "pot loss", "trace", "yield"])
def test_each_teaching_can_be_refused_by_its_key(key):
    learnt = learnt_from(
        [
            lesson(
                pots=(PotRate(JUG, -3.5, 0.1, 1.5),),
                scents=(ScentTime("rosemary", 4, 37.5, thickened=True),),
                trace_minutes=6.0,
                made_g=1500,
                cut_g=1470,
                bars_planned=12,
                bars_cut=11,
            )
        ],
        "invented-bar",
        "thin",
    )
    said = {each.key for each in teachings(learnt, FACTS, VESSELS, 37.5)}
    assert key in said
    assert {each.key for each in teachings(without(learnt, {key}), FACTS, VESSELS, 37.5)} == said - {key}


def test_refusing_everything_plans_as_if_nothing_was_learnt():
    learnt = learnt_from([lesson(made_g=1500, cut_g=1460, trace_minutes=9.0)] * 4, "invented-bar", "thin")
    refused = frozenset(each.key for each in plan_of(learnt=learnt).learnt)
    assert plan_of(learnt=learnt, refused=refused) == plan_of()


def test_nothing_is_learnt_from_nothing():
    assert learnt_from([], "invented-bar", "thin") == Learnt()
