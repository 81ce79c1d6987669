"""The five forcing functions: each refuses, each is satisfied, and there is no sixth."""

from dataclasses import replace

import pytest

from soapbench.bench.rules import CHECKS
from soapbench.bench.rules.forcing import FORCING
from tests.bench.sample import PLAIN, SWIRLED, Hand, hand, plan_of
from tests.bench.test_rules import asks, at, refused

ALKALI = {"line": "alkali:naoh", "mass_g": 143.6}
LYE_PROMPTS = [
    ("weighed", "weigh:alkali:naoh", {**ALKALI, "jar": "NaOH"}),
    ("done", "alkali-into-water", {}),
]


def text_of(played, item):
    return next(tick.text for prompt in played.plan.prompts for tick in prompt.ticks if tick.key == item)


def test_there_are_five_forcing_functions_and_no_sixth():
    assert list(FORCING) == [
        "everything at hand before lye",
        "every fat before lye",
        "the alkali named as on its jar",
        "every scent and colour before the pour",
        "no end with lye unaccounted for",
    ]
    assert set(FORCING.values()) < set(CHECKS)


@pytest.mark.parametrize(("kind", "prompt", "payload"), LYE_PROMPTS)
@pytest.mark.parametrize("item", ["material:olive", "tool:cutter", "tool:drawing", "time", "rinse", "gloves"])
def test_nothing_caustic_starts_while_anything_of_the_run_is_not_at_hand(kind, prompt, payload, item):
    played = at("weigh:alkali:naoh", SWIRLED)
    where = next(each for each in played.plan.prompts if item in {tick.key for tick in each.ticks})
    asks(played, "weighed", "weigh:alkali:naoh", **ALKALI, jar="NaOH")
    played.tap("ticked", where.key, item=item, is_here=False)

    said = refused(played, kind, prompt, **payload).sentence
    assert said == f"Nothing caustic yet. Still open: {text_of(played, item)}."


def test_a_long_list_of_what_is_open_names_three_and_counts_the_rest():
    played = Hand(plan_of(PLAIN))
    played.tap("started", cautions_read=True)

    said = refused(played, "done", "alkali-into-water").sentence
    assert said.startswith("Nothing caustic yet. Still open: the scale, tried with a known mass, Palm, Coconut and ")
    assert said.endswith(" more.")


@pytest.mark.parametrize(
    ("item", "change"),
    [
        ("material:palm", {"what": "substituted", "line": "fat:palm", "material": "lard"}),
        ("material:palm", {"what": "left out", "line": "fat:palm"}),
        ("tool:drawing", {"what": "drawn differently", "path": "none", "item": "tool:drawing"}),
        ("tool:cutter", {"what": "not at hand", "item": "tool:cutter"}),
        ("time", {"what": "not at hand", "item": "time"}),
    ],
)
def test_what_a_change_deals_with_keeps_the_gate_open_no_longer(item, change):
    played = at("weigh:alkali:naoh", SWIRLED)
    where = next(each for each in played.plan.prompts if item in {tick.key for tick in each.ticks})
    played.tap("ticked", where.key, item=item, is_here=False)
    played.tap("changed", where.key, why="none here", decision="go on so", **change)
    if change["what"] in ("substituted", "left out"):
        played.tap("settled", "settle", choice="recomputed")

    asks(played, "weighed", "weigh:alkali:naoh", **ALKALI, jar="NaOH")
    assert played.state.dealt[item]


def test_a_material_of_several_lines_is_dealt_with_when_each_line_is():
    played = at("weigh:fat:palm", SWIRLED)
    played.tap("ticked", "materials", item="material:olive", is_here=False)
    instead = {"what": "substituted", "why": "none", "decision": "lard", "material": "lard"}
    played.tap("changed", "materials", line="fat:olive", **instead)
    assert "material:olive" not in played.state.dealt

    played.tap("changed", "materials", line="carrier:B:indigo:olive", **instead)
    assert played.state.dealt["material:olive"] == "Lard instead"


@pytest.mark.parametrize("item", ["goggles", "gloves", "rinse", "people"])
def test_nothing_stands_in_for_protection_or_water(item):
    change = {"what": "not at hand", "why": "none here", "decision": "go on without", "item": item}

    assert "Put the batch off" in refused(at("protection"), "changed", "protection", **change).sentence


def test_a_list_is_not_closed_over_what_is_said_not_to_be_here():
    played = Hand(plan_of(PLAIN))
    played.tap("started", cautions_read=True)
    asks(played, "done", "materials", all_here=True)
    played.tap("ticked", "materials", item="material:palm", is_here=False)

    assert refused(played, "done", "materials", all_here=True).sentence.startswith("Still open: Palm.")


def test_what_is_ticked_by_itself_is_not_confirmed_with_the_rest():
    said = refused(at("protection"), "done", "protection", all_here=True).sentence

    assert "Splash goggles are on" in said and "LYE" in said


def test_the_later_pauses_ask_and_stop_nobody():
    for key in ("before-combine", "before-pour", "clean"):
        played = at(key, SWIRLED)
        played.tap("ticked", key, item=played.plan.prompt(key).ticks[0].key, is_here=False)

        asks(played, "done", key)


def test_a_scale_that_is_off_keeps_the_lye_shut_until_it_passes():
    played = at("weigh:alkali:naoh")
    played.tap("scale-checked", "scale-check", known_g=200, read_g=203.4)
    assert "the scale, tried with a known mass" in refused(played, "weighed", **ALKALI, jar="NaOH").sentence

    played.tap("scale-checked", "scale-check", known_g=200, read_g=200.2)
    asks(played, "weighed", **ALKALI, jar="NaOH")


def test_the_alkali_needs_the_name_on_its_jar():
    played = at("weigh:alkali:naoh")

    assert refused(played, "weighed", "weigh:alkali:naoh", **ALKALI).field == "jar"
    said = refused(played, "weighed", "weigh:alkali:naoh", **ALKALI, jar="KOH")
    assert "takes NaOH, sodium hydroxide" in said.sentence and "says KOH, potassium hydroxide" in said.sentence


def test_an_amount_set_right_is_no_way_round_the_jar():
    change = {"what": "amount off", "why": "poured", "decision": "keep it", **ALKALI}

    assert "at its own step" in refused(at("weigh:alkali:naoh"), "changed", **change).sentence
    asks(at("alkali-into-water"), "changed", **change)


def without(key, played):
    """Take the event that did this prompt back."""
    played.tap("took-back", event=next(fact.id for fact in played.facts if fact.prompt == key))
    return played


@pytest.mark.parametrize("line", ["scent:A:rosemary", "scent:B:clove", "colourant:B:indigo"])
def test_a_pour_asks_for_what_nobody_wrote_down_as_in(line):
    played = without(f"add:{line}", at("pour:1", SWIRLED))
    name = played.plan.line(line).name

    assert f"Not in yet: {name} for {line.split(':')[1]}." in refused(played, "done", "pour:1").sentence
    played.tap("changed", what="left out", why="forgotten", decision="go on", line=line)
    asks(played, "done", "pour:1")


def test_a_pour_asks_only_for_its_own_portions():
    stages = tuple(replace(SWIRLED.pour[0], way="layer", portions=(letter,)) for letter in "AB")
    played = without("add:scent:B:clove", at("pour:2", replace(SWIRLED, pour=stages)))

    asks(played, "done", "pour:1")
    assert "Clove for B" in refused(played, "done", "pour:2").sentence


def test_no_batch_is_stopped_without_saying_where_its_lye_went():
    played = at("read-lye")

    assert refused(played, "stopped", reason="no time", made_safe="all of it").field == "lye"
    asks(played, "stopped", reason="no time", made_safe="all of it", lye="kept")


@pytest.mark.parametrize(("ending", "payload"), [("released", {"bars": 10}), ("rejected", {"reason": "spots"})])
def test_no_batch_is_closed_while_lye_is_left_standing(ending, payload):
    played = at("release")
    asks(played, ending, "release", **payload)
    played.tap("ticked", "clean", item="clean:lye", is_here=False)

    assert "nobody says that none is left" in refused(played, ending, "release", **payload).sentence


def test_a_batch_is_put_off_only_before_its_lye_is_made():
    asks(at("alkali-into-water"), "postponed", why="No time.")

    assert "cannot wait" in refused(at("read-lye"), "postponed", why="No time.").sentence


def test_going_on_takes_a_batch_up_again():
    played = hand().start()
    played.tap("postponed", "room", why="No spatula.", until="tomorrow")
    played.tap("noted", text="bought one")
    assert (played.state.put_off.why, played.state.put_off.until) == ("No spatula.", "tomorrow")

    played.weigh("fat:palm")
    assert played.state.put_off is None
