"""What a batch record says about a run, from plain data alone."""

from dataclasses import replace
from datetime import timedelta

import pytest

from tests.bench.sample import PLAIN, SWIRLED, hand
from tests.logbook.reading import line, lines, record, section, tones


@pytest.fixture(scope="module")
def finished():
    return record(hand(SWIRLED).start().until(""))


def test_the_sections_follow_the_order_of_a_batch(finished):
    keys = [one.key for one in finished.sections]

    assert keys == [
        "head", "ready", "cautions", "weighed", "superfat", "pot", "readings", "trace", "portions", "pour", "drawing",
        "changes", "loaf", "cut", "tests", "decision", "times", "chain",
    ]  # fmt: skip


@pytest.mark.parametrize("formula", [PLAIN, SWIRLED])
def test_a_record_can_be_made_after_every_single_event(formula):
    played = hand(formula).start().until("")

    for count in range(len(played.facts) + 1):
        part = hand(formula)
        part.facts = played.facts[:count]
        assert section(record(part), "decision")


def test_a_run_that_has_not_begun_says_so_little_that_nothing_is_made_up():
    fresh = record(hand(SWIRLED))

    assert section(fresh, "cautions") is None
    assert "not weighed" in line(fresh, "weighed", "Palm")
    assert lines(fresh, "decision") == ["Not decided yet. These bars are not released."]


def test_the_head_names_bar_revision_code_people_and_time(finished):
    head = lines(finished, "head")

    for row in ("Bar | Invented Bar", "Formula | revision 1", "Batch code | 20261125-IB-1", "People | Ada"):
        assert row in head
    assert "Begun | 25 Nov 2026, 08:01" in head


def test_an_invented_run_says_that_it_is_invented(finished):
    assert finished.is_invented
    assert lines(finished, "head")[0] == "Invented for the demo: no such batch was ever made."


def test_planned_and_weighed_stand_side_by_side_with_lot_difference_and_tolerance(finished):
    assert line(finished, "weighed", "Coconut") == "Coconut | C-1 | 300 g | 300 g | 0 g | ± 4.3 g | Ada (25 Nov, 08:34)"


def test_one_oil_over_shows_what_follows_and_what_was_decided():
    made = record(hand().start().until("cool", **{"fat:olive": 440.0}))

    assert "+40 g (outside tolerance)" in line(made, "weighed", "Olive")
    told = line(made, "changes", "Weight outside its tolerance (Olive: 440 g, 40 g over)")
    assert "Olive is 40 g over. Weigh 148.7 g of alkali" in told  # 40 × 0.1345 × 0.95 more than 143.6
    assert "recomputed alkali (Ada, " in told


def test_alkali_that_was_asked_for_anew_shows_both_numbers():
    made = record(hand().start().until("cool", **{"fat:olive": 440.0}))

    row = line(made, "weighed", "Sodium hydroxide")
    planned, asked = row.split(" | ")[2].removesuffix(")").split(" (then asked: ")
    assert float(asked.removesuffix(" g")) > float(planned.removesuffix(" g"))


def test_a_substituted_colourant_shows_why_and_the_decision():
    bench = hand(SWIRLED).start().until("weigh:colourant:B:indigo")
    bench.tap(
        "changed", "weigh:colourant:B:indigo", what="substituted", line="colourant:B:indigo", material="ochre",
        why="Out of stock", decision="Use it in the same amount",
    )  # fmt: skip
    bench.weigh("colourant:B:indigo")
    made = record(bench)

    assert line(made, "weighed", "Ochre").startswith("Ochre (instead of Indigo, portion B) | ")
    told = line(made, "changes", "Something else instead (Indigo → Ochre")
    assert "Out of stock" in told and "Use it in the same amount" in told and "Ochre goes in for Indigo." in told


def test_a_drawing_that_was_changed_shows_both_and_why():
    bench = hand(SWIRLED).start().until("draw")
    bench.tap(
        "changed", "draw", what="drawn differently", path="spiral", tool="skewer", why="The batter was too thick",
        decision="Keep it and cut to suit",
    )  # fmt: skip
    made = record(bench)

    assert line(made, "drawing", "Planned").startswith("Planned | zigzag across, Skewer, passes: 5")
    assert line(made, "drawing", "As drawn").startswith("As drawn | spiral, Skewer")
    assert "The batter was too thick" in line(made, "changes", "Drawn differently")


def test_a_drawing_as_planned_is_not_marked(finished):
    drawn = dict(section(finished, "drawing").blocks[0].rows)["As drawn"]

    assert drawn.tone == "" and drawn.text == "zigzag across, Skewer, passes: 5"


def test_a_line_that_was_left_out_says_why_and_who():
    bench = hand(SWIRLED).start().until("weigh:scent:B:clove")
    bench.tap(
        "changed", "weigh:scent:B:clove", what="left out", line="scent:B:clove", why="Forgotten", decision="Go on",
    )  # fmt: skip

    row = line(record(bench), "weighed", "Clove")
    assert "left out (Forgotten)" in row and "Ada" in row


def test_an_entry_that_was_taken_back_stays_visible_and_does_not_count():
    bench = hand().start().until("weigh:fat:olive")
    wrong = bench.weigh("fat:olive", 999.0)
    bench.tap("took-back", event=wrong)
    bench.weigh("fat:olive")
    made = record(bench)

    told = lines(made, "withdrawn")
    assert len(told) == 1 and "Olive 999 g (does not count)" in told[0]
    assert "999" not in line(made, "weighed", "Olive")


def test_a_weight_that_was_entered_twice_shows_what_was_there_before():
    bench = hand().start().until("weigh:fat:olive")
    bench.weigh("fat:olive", 390.0)
    bench.weigh("fat:olive", 400.0)

    assert "400 g (changed; before: 390 g)" in line(record(bench), "weighed", "Olive")


def test_a_loss_shows_what_is_left_and_what_was_weighed():
    bench = hand().start().until("weigh:water")
    bench.tap(
        "changed", "weigh:water", what="lost or spilt", line="fat:olive", mass_g=12, why="Spilt",
        decision="Go on with what is left",
    )  # fmt: skip
    made = record(bench)

    assert "388 g (changed; before: 400 g)" in line(made, "weighed", "Olive")
    assert line(made, "losses", "Olive").startswith("Olive | 12 g | Spilt | Ada")


def test_a_question_that_the_bench_asked_and_the_answer_are_kept():
    bench = hand().start().until("weigh:fat:olive")
    bench.weigh("fat:olive", 440.0, doubts_answered=["far-off"])
    made = record(bench)

    assert "the bench asked, and it was confirmed" in line(made, "weighed", "Olive")
    assert "confirmed when the bench asked" in line(made, "changes", "Weight outside")


def late(hand, minutes):
    """Return the run with its last event entered that many minutes after it happened."""
    last = hand.facts[-1]
    hand.facts[-1] = replace(last, received_at=last.happened_at + timedelta(minutes=minutes))
    return record(hand)


def test_an_entry_of_more_than_ten_minutes_later_shows_both_times():
    bench = hand().start().until("weigh:fat:coconut")
    bench.weigh("fat:coconut")

    assert line(late(bench, 11), "times", "Weigh Coconut").endswith("| 25 Nov, 08:27 (entered 25 Nov, 08:38)")


def test_each_step_names_its_person_where_several_worked():
    bench = hand().start().until("weigh:fat:coconut")
    bench.weigh("fat:coconut")
    bench.facts[-1] = replace(bench.facts[-1], person="Tobit")

    assert line(record(bench), "times", "Weigh Coconut").endswith("(Tobit)")
    assert lines(record(hand().start()), "times")[0] == "All by Ada."


def test_an_entry_of_ten_minutes_later_shows_one_time():
    bench = hand().start().until("weigh:fat:coconut")
    bench.weigh("fat:coconut")

    assert "entered" not in line(late(bench, 10), "times", "Weigh Coconut")


def test_a_step_that_is_not_needed_says_why(finished):
    assert "not needed (" in line(finished, "times", "Choose the alkali")


def test_cautions_are_acknowledged_only_with_the_steps_that_were_done():
    bench = hand().start()
    before = lines(record(bench), "cautions")
    after = lines(record(bench.until("cool")), "cautions")

    assert not [text for text in before if "Never the reverse" in text]
    assert [text for text in after if text.startswith("DANGER: Heats by itself")]


def test_the_superfat_of_planned_weights_is_the_planned_one(finished):
    planned, real = (line(finished, "superfat", start).split(" | ")[1:] for start in ("As planned", "As weighed"))

    assert planned == real and planned[1] == "5.0 %"
    assert planned[0] < planned[1] < planned[2]


def test_a_lye_heavy_batch_is_marked_at_its_head_and_in_its_section():
    bench = hand().start().until("weigh:alkali:naoh")
    bench.weigh("alkali:naoh", 200.0)
    made = record(bench.until("trace"))

    glance = next(one for one in made.glances if one.name == "Superfat")
    assert glance.tone == "stop" and glance.value.startswith("−")
    assert "stop" in tones(made, "superfat")


def test_the_pot_is_compared_with_the_entries_of_its_moment():
    bench = hand().start().until("pot-check")
    bench.tap("pot-checked", "pot-check", mass_g=960, decision="Weighed again, the scale had drifted")
    bench.weigh("fat:olive", 360.0)

    told = lines(record(bench), "pot")
    assert told == ["1000 g | 960 g | −40 g | Weighed again, the scale had drifted | Ada (" + told[0].split(" (")[1]]


def test_readings_are_listed_and_drawn_with_the_window():
    bench = hand().start().until("read-lye")
    for temp in (82.5, 60, 41):
        bench.wait(minutes=10)
        bench.tap("read", "read-lye", pot="lye", temp_c=temp)
    made = record(bench)

    chart = section(made, "readings").blocks[0].chart
    assert chart.sentence == "Lye: 82.5 °C, 60 °C, 41 °C."
    assert any(stroke.role == "band" for stroke in chart.strokes)
    assert line(made, "readings", "lye | 60 °C").split(" | ")[2] == "22 min"


def test_portions_carry_letter_name_texture_and_their_masses(finished):
    rows = section(finished, "portions").blocks[0].rows

    assert [row[0].swatch.letter for row in rows] == ["A", "B"]
    assert line(finished, "portions", "B · Dark (hatched)").split(" | ")[2:5] == ["474.9 g", "474.9 g", "0 g"]
    assert "stayed in the pot" in line(finished, "portions", "A · Pale")


def test_pour_stages_carry_their_times(finished):
    assert line(finished, "pour", "Pour B and A side by side").split(" | ")[1].startswith("Ada (25 Nov, ")
