"""What the bench does not accept, and what it says to do first."""

import pytest

from soapbench.bench import rules
from soapbench.bench.payloads import parse
from soapbench.bench.refusal import Refused
from tests.bench.sample import PLAIN, SWIRLED, Hand, hand


def asks(played, kind, prompt="", **payload):
    return rules.check(played.plan, played.state, tuple(played.facts), kind, prompt, parse(kind, payload))


def refused(played, kind, prompt="", **payload):
    with pytest.raises(Refused) as refusal:
        asks(played, kind, prompt, **payload)
    return refusal.value


def at(key, formula=PLAIN, **masses):
    return hand(formula).start().until(key, **masses)


def geared(played):
    """Tick the pause before the alkali."""
    played.tick_all(played.plan.prompt("protection"))
    return played


def test_nothing_comes_before_the_beginning():
    assert "begin the batch first" in refused(hand(), "noted", text="hello").sentence


def test_a_run_begins_once():
    assert "begun already" in refused(hand().start(), "started", cautions_read=True).sentence


def test_an_unknown_prompt_is_refused():
    assert refused(hand().start(), "done", "stir-the-moon").field == "prompt"


def test_done_needs_a_prompt():
    assert refused(hand().start(), "done").field == "prompt"


@pytest.mark.parametrize(
    ("kind", "prompt", "payload"),
    [
        ("done", "weigh:fat:olive", {}),
        ("done", "pot-check", {}),
        ("done", "split:B", {}),
        ("done", "cut", {}),
        ("done", "release", {}),
        ("ticked", "melt", {"item": "goggles"}),
        ("weighed", "melt", {"line": "fat:olive", "mass_g": 1}),
    ],
)
def test_an_answer_of_another_kind_of_prompt_is_refused(kind, prompt, payload):
    assert "does not answer" in refused(at("weigh:fat:palm", SWIRLED), kind, prompt, **payload).sentence


def test_an_item_of_no_list_is_refused():
    assert refused(hand().start(), "ticked", "tools", item="tool:harp").field == "item"


def test_the_gate_closes_only_with_every_piece_of_gear():
    played = at("protection")
    played.tap("ticked", "protection", item="goggles")

    said = refused(played, "done", "protection").sentence
    assert "Gloves are on" in said
    assert "Splash goggles" not in said


def test_alkali_is_not_weighed_before_the_gear_is_ticked():
    played = at("weigh:alkali:naoh")
    played.tap("ticked", "protection", item="goggles", is_here=False)

    said = refused(played, "weighed", "weigh:alkali:naoh", line="alkali:naoh", mass_g=143.6)
    assert said.sentence == "Nothing caustic yet. Still open: Splash goggles are on."


def test_alkali_is_not_weighed_before_every_fat():
    said = refused(geared(at("weigh:fat:olive")), "weighed", "weigh:alkali:naoh", line="alkali:naoh", mass_g=143.6)

    assert "Olive" in said.sentence
    assert "Palm" not in said.sentence


def test_a_fat_left_out_with_a_reason_opens_the_alkali():
    played = at("weigh:fat:olive")
    played.tap("changed", what="left out", why="none left", decision="go on", line="fat:olive")
    played.tap("settled", "settle", choice="recomputed")

    asks(geared(played), "weighed", "weigh:alkali:naoh", line="alkali:naoh", mass_g=90, jar="NaOH")


def test_alkali_waits_for_the_choice_when_the_fats_differ():
    played = geared(at("settle", **{"fat:coconut": 340}))

    assert refused(played, "weighed", line="alkali:naoh", mass_g=150.5).field == "choice"


def test_alkali_goes_into_water_only_when_both_are_weighed():
    assert "Water and Sodium hydroxide" in refused(geared(at("weigh:water")), "done", "alkali-into-water").sentence


def test_alkali_does_not_go_into_water_without_the_gear():
    played = at("alkali-into-water")
    played.tap("ticked", "protection", item="water", is_here=False)

    assert "Running water" in refused(played, "done", "alkali-into-water").sentence


def test_lye_meets_fats_only_after_the_pot_check():
    assert "weigh the pot" in refused(at("pot-check"), "done", "combine").sentence
    asks(at("combine"), "done", "combine")


def test_lye_that_is_not_made_cannot_meet_the_fats():
    assert "no lye" in refused(at("weigh:water"), "done", "combine").sentence


@pytest.mark.parametrize(
    ("kind", "prompt", "payload"),
    [
        ("split", "split:B", {"portion": "B", "mass_g": 400}),
        ("trace-seen", "trace", {"trace": "thin"}),
        ("done", "pour:1", {}),
        ("drawn", "draw", {"path": "zigzag"}),
        ("done", "add:scent:A:rosemary", {}),
    ],
)
def test_there_is_no_batter_before_lye_meets_fats(kind, prompt, payload):
    assert "no batter" in refused(at("cool", SWIRLED), kind, prompt, **payload).sentence


def test_nothing_is_drawn_before_everything_is_poured():
    assert "Not poured yet" in refused(at("pour:1", SWIRLED), "drawn", "draw", path="zigzag").sentence


def test_no_loaf_is_covered_before_it_is_poured():
    assert "Not poured yet" in refused(at("pour:1"), "done", "cover").sentence


def test_nought_grams_are_no_weight():
    assert refused(at("weigh:fat:palm"), "weighed", line="fat:palm", mass_g=0).field == "mass_g"


def test_a_line_of_another_batch_is_refused():
    assert refused(at("weigh:fat:palm"), "weighed", line="fat:tallow", mass_g=10).field == "line"


def test_a_prompt_weighs_its_own_line_only():
    assert refused(at("weigh:fat:palm"), "weighed", "weigh:fat:palm", line="fat:olive", mass_g=10).field == "line"


@pytest.mark.parametrize("lot", [0, -1, 999, 12])
def test_a_lot_of_something_else_is_refused(lot):
    assert refused(at("weigh:fat:olive"), "weighed", line="fat:olive", mass_g=400, lot=lot).field == "lot"


def test_a_second_lot_of_the_same_material_is_accepted():
    asks(at("weigh:fat:olive"), "weighed", line="fat:olive", mass_g=400, lot=14)


def test_a_portion_of_another_batch_is_refused():
    assert refused(at("split:B", SWIRLED), "split", "split:B", portion="H", mass_g=10).field == "portion"


def test_a_drawing_that_nobody_knows_is_refused():
    assert refused(at("draw", SWIRLED), "drawn", "draw", path="portrait").field == "path"


@pytest.mark.parametrize(
    ("what", "more", "field"),
    [
        ("substituted", {}, "line"),
        ("substituted", {"line": "fat:palm", "material": "ochre"}, "material"),
        ("substituted", {"line": "fat:palm", "material": "tallow"}, "material"),
        ("substituted", {"line": "fat:palm", "material": "lard", "lot": 11}, "lot"),
        ("amount off", {"line": "fat:palm"}, "mass_g"),
        ("amount off", {"mass_g": 5}, "line"),
        ("amount off", {"line": "fat:palm", "mass_g": 0}, "mass_g"),
        ("left out", {}, "line"),
        ("left out", {"line": "alkali:naoh"}, "line"),
        ("left out", {"line": "water"}, "line"),
        ("temperature off", {}, "temp_c"),
        ("drawn differently", {"path": "portrait"}, "path"),
        ("other", {"line": "fat:tallow"}, "line"),
        ("thickened early", {"portion": "Z"}, "portion"),
    ],
)
def test_a_change_says_what_it_is_about(what, more, field):
    played = at("weigh:fat:palm", SWIRLED)

    assert refused(played, "changed", what=what, why="because", decision="go on", **more).field == field


def test_no_more_is_lost_than_was_weighed():
    played = at("weigh:water")
    change = {"what": "lost or spilt", "why": "spilt", "decision": "go on", "line": "fat:palm"}

    assert refused(played, "changed", mass_g=301, **change).field == "mass_g"
    asks(played, "changed", mass_g=300, **change)


def test_the_last_fat_cannot_be_left_out():
    played = at("weigh:fat:palm")
    for line in ("fat:palm", "fat:coconut"):
        played.tap("changed", what="left out", why="none left", decision="go on", line=line)

    said = refused(played, "changed", what="left out", why="none left", decision="go on", line="fat:olive")
    assert "Stop the batch" in said.sentence


def test_an_entry_of_another_batch_cannot_be_taken_back():
    assert refused(at("weigh:water"), "took-back", event="0" * 36).field == "event"


def test_an_entry_is_taken_back_once():
    played = at("weigh:water")
    event = played.facts[-1].id
    played.tap("took-back", event=event)

    assert "already" in refused(played, "took-back", event=event).sentence


def test_the_beginning_cannot_be_taken_back():
    played = at("weigh:water")

    assert refused(played, "took-back", event=played.facts[0].id).field == "event"


def test_bars_are_counted_before_they_are_cured_tested_or_released():
    played = at("cut")

    assert refused(played, "cure-weighed", "cure", bars=2, mass_g=200).field == "bars"
    assert "First count" in refused(played, "tested", method="pH of a 1 % solution", value=9, passed=True).sentence
    assert "no bars yet" in refused(played, "released", bars=3).sentence


def test_there_is_no_loaf_to_cut_before_the_pour():
    assert "no loaf" in refused(at("pour:1"), "cut", "cut", bars=10, mass_g=1000).sentence


def test_no_more_bars_are_released_than_were_cut():
    assert refused(at("release"), "released", "release", bars=11).field == "bars"


def test_bars_are_not_released_while_they_cure():
    assert "still curing" in refused(at("cure"), "released", bars=10).sentence


def test_a_high_ph_has_not_passed():
    method = "pH of a 1 % solution"
    assert refused(at("test"), "tested", "test", method=method, value=11.2, passed=True).field == "passed"
    assert refused(at("test"), "tested", "test", method=method, value=40, passed=False).field == "value"


def lye_heavy():
    played = at("weigh:alkali:naoh")
    played.weigh("alkali:naoh", 153.6)
    return played.until("test")


def test_a_lye_heavy_batch_is_released_only_after_a_passed_test():
    played = lye_heavy()
    assert "A test is needed" in refused(played, "done", "test").sentence
    assert "passed test" in refused(played, "released", bars=10).sentence

    played.tap("tested", "test", method="titration of free alkali", value=0.3, passed=False)
    assert "passed test" in refused(played, "released", bars=10).sentence

    played.tap("tested", "test", method="titration of free alkali", value=0.02, passed=True)
    asks(played, "released", "release", bars=10)


def test_a_batch_that_was_lye_heavy_needs_its_test_though_it_was_put_right():
    played = at("weigh:alkali:naoh")
    played.weigh("alkali:naoh", 153.6)
    played.until("trace")
    played.tap("changed", what="amount off", why="alkali", decision="added", line="fat:olive", mass_g=480)
    played.until("test")

    assert played.state.superfat.central > 0.05
    assert "A test is needed" in refused(played, "done", "test").sentence


def test_a_batch_that_failed_its_test_is_not_released():
    played = at("test")
    played.tap("tested", "test", method="titration of free alkali", value=0.3, passed=False)

    assert "passed test" in refused(played, "released", bars=10).sentence


def test_a_good_batch_may_be_released_without_a_test():
    played = at("test")
    played.tap("done", "test")

    asks(played, "released", "release", bars=10)


@pytest.mark.parametrize("ending", ["released", "rejected", "stopped"])
def test_a_closed_batch_takes_remarks_only(ending):
    played = at("release")
    more = {"released": {"bars": 10}, "rejected": {"reason": "spots"}, "stopped": {"reason": "x y", "made_safe": "yes"}}
    played.tap(ending, **more[ending])

    asks(played, "noted", text="Sold out.")
    for kind, payload in (("done", {}), ("took-back", {"event": played.facts[-1].id}), ("rejected", {"reason": "no"})):
        assert "closed" in refused(played, kind, "rest" if kind == "done" else "", **payload).sentence


def test_cured_bars_are_released_or_rejected_not_stopped():
    assert "Release or reject" in refused(at("release"), "stopped", reason="late", made_safe="yes").sentence
    asks(at("cure"), "stopped", reason="late", made_safe="yes")


def test_taking_back_a_held_act_says_that_the_act_stays():
    played = at("read-lye")

    assert "cannot be undone" in asks(played, "took-back", event=played.facts[-1].id)


def test_taking_back_a_pour_says_that_it_stays_poured():
    played = at("cover")

    assert "stays poured" in asks(played, "took-back", event=played.facts[-1].id)


def test_taking_back_a_weight_needs_no_remark():
    played = at("weigh:water")
    weighed = next(fact.id for fact in played.facts if fact.kind == "weighed")

    assert asks(played, "took-back", event=weighed) == ""


def test_a_whole_run_breaks_no_rule():
    played = hand(SWIRLED).start().until("")
    again = Hand(played.plan)
    for fact in played.facts:
        asks(again, fact.kind, fact.prompt, **fact.payload)
        again.facts.append(fact)

    assert again.state.status == "released"
