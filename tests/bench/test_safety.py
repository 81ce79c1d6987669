"""Stop and make safe, spills and rinsing: what is asked at each stage, and what the log keeps."""

import pytest

from soapbench.bench.events import facts_of
from soapbench.bench.refusal import Refused
from soapbench.bench.run import fold
from soapbench.bench.safety import STEPS, is_lye_unaccounted, stage_of, steps_now
from soapbench.bench.spills import spills
from tests.bench.asking import submit, words_of
from tests.bench.sample import Hand, hand

STAGES = {
    "weigh:fat:olive": "start",
    "weigh:alkali:naoh": "start",
    "alkali-into-water": "dry",
    "read-lye": "lye",
    "combine": "lye",
    "trace": "batter",
    "pour:1": "batter",
    "cover": "loaf",
    "cure": "bars",
}


def codes(played):
    return {step.code for step in steps_now(played.plan, played.state)}


@pytest.fixture
def with_lye(bench):
    """A run whose lye is made and stands beside the fats."""
    bench.play(Hand(bench.run.plan).start().until("read-lye").facts)
    return bench


@pytest.mark.parametrize(("key", "stage"), STAGES.items())
def test_the_stage_is_what_would_have_to_be_made_safe(key, stage):
    played = hand().start().until(key)

    assert stage_of(played.plan, played.state) == stage


@pytest.mark.parametrize("key", STAGES)
def test_every_stage_has_a_short_list(key):
    assert 1 <= len(codes(hand().start().until(key))) <= 9
    assert len({step.code for step in STEPS}) == len(STEPS)


def test_made_lye_is_marked_and_kept_from_acid():
    assert {"jug", "no-acid", "hot"} <= codes(hand().start().until("read-lye"))
    assert not {"jug", "no-acid"} & codes(hand().start().until("trace"))


def test_a_part_of_the_lye_that_was_kept_back_is_asked_for_until_the_clean_up():
    played = hand().start().until("cool")
    played.tap("remedied", "cool", code="C3", lye_share=0.9, decision="pour a part")
    played.until("trace")
    assert is_lye_unaccounted(played.state) and {"jug", "tub"} <= codes(played)

    played.until("rest")
    assert not is_lye_unaccounted(played.state) and "jug" not in codes(played)


def test_a_batch_with_lye_that_met_no_fats_cannot_be_closed_without_saying_where_it_is(with_lye):
    with pytest.raises(Refused) as refusal:
        with_lye.tap("stopped", reason="no time", steps=["jug"])
    assert (refusal.value.field, "where it is" in refusal.value.sentence) == ("lye", True)

    with_lye.tap("stopped", reason="no time", steps=["jug"], lye="kept")
    assert with_lye.run.events.last().payload["lye"] == "kept"


def test_a_batch_whose_lye_is_in_the_fats_is_closed_without_that_question(bench):
    bench.play(Hand(bench.run.plan).start().until("trace").facts)

    bench.tap("stopped", reason="it split", steps=["tub", "rules"])


def test_a_batch_is_not_closed_without_a_word_on_how_it_was_made_safe(bench):
    bench.tap("started", cautions_read=True)

    with pytest.raises(Refused) as refusal:
        bench.tap("stopped", reason="no time", made_safe="  ")
    assert refusal.value.field == "made_safe"


def test_without_a_script_a_refused_stop_keeps_what_was_ticked(maker, with_lye):
    page = submit(maker, with_lye.run, "stopped", "read-lye", steps=["jug", "no-acid"], reason="No time left")

    html = page.content.decode()
    assert page.status_code == 422 and "Say where it is now" in words_of(page)
    assert 'value="jug" checked' in html and 'value="no-acid" checked' in html
    assert 'value="hot" checked' not in html


def test_spilt_lye_of_an_unknown_share_leaves_the_superfat_unknown(with_lye):
    spill = next(each for each in spills(with_lye.run.plan, fold(with_lye.run.plan, facts_of(with_lye.run)))
                 if each.is_here)  # fmt: skip
    answer = with_lye.tap(
        "changed", "read-lye", what="lost or spilt", line=spill.line, why="Spilt", decision="Cleaned up"
    )

    assert spill.code == "lye"
    assert answer.state.superfat is None and answer.state.needs_test
    assert answer.state.remedies[0].title == "Make the lye again"


def test_dry_alkali_that_was_spilt_is_weighed_anew():
    played = hand().start().until("alkali-into-water")
    played.tap(
        "changed", "alkali-into-water", what="lost or spilt", line="alkali:naoh", why="Spilt", decision="Cleaned"
    )

    assert played.state.current == "weigh:alkali:naoh"


def test_spilt_alkali_from_the_jar_is_no_loss_of_the_batch():
    played = hand().start().until("weigh:fat:olive")

    assert not any(spill.is_here for spill in spills(played.plan, played.state))


def test_a_rinse_is_a_moment_and_its_first_beginning_counts():
    played = hand().start()
    played.tap("rinsed", is_running=True)
    began = played.now
    played.wait(minutes=3)
    played.tap("rinsed", is_running=True, where="eye")

    assert played.state.rinsing_since == began
    assert played.state.rinses[0].where == "eye"
    played.tap("rinsed", is_running=False)
    assert played.state.rinsing_since is None and played.state.rinses[0].minutes == 5


def test_a_rinse_can_be_written_down_before_the_batch_begins(bench):
    bench.tap("rinsed", is_running=True, where="skin")

    assert bench.run.events.get().kind == "rinsed"


def test_without_a_script_a_running_rinse_is_shown_with_its_beginning(maker, begun):
    submit(maker, begun, "rinsed", "materials", is_running="true")
    page = words_of(maker.get(f"/bench/{begun.pk}/"))

    assert "Keep rinsing. Ring now. Rinsing began at the time above" in page
