"""What a record says of the bars, the endings, remarks and interruptions."""

import pytest

from tests.bench.sample import SWIRLED, hand
from tests.logbook.reading import DIGEST, line, lines, record, section, tones


@pytest.fixture(scope="module")
def finished():
    return record(hand(SWIRLED).start().until(""))


def test_yield_is_the_bars_out_of_the_batter(finished):
    bars = hand(SWIRLED).start().until("").state

    assert line(finished, "cut", "Bars |") == "Bars | 10 (planned: 11)"
    share = 100 * 1300 / bars.batter_g
    assert line(finished, "cut", "Yield").endswith(f"| {share:.1f} %")


def test_more_soap_than_batter_is_told():
    bench = hand().start().until("cut")
    bench.tap("cut", "cut", bars=10, mass_g=5000)

    assert "more came out than went in" in line(record(bench), "cut", "Not in bars")


def dried():
    bench = hand().start().until("cure")
    bench.wait(days=14)
    bench.tap("cure-weighed", "cure", bars=2, mass_g=234)
    return bench


def test_drying_is_told_a_bar_and_a_week():
    _curve, first, second, *_rest = lines(record(dried()), "cure")

    assert first.split(" | ")[1:] == ["10", "1300 g", "130 g", "", "", "Ada"]
    assert second.split(" | ")[1:] == ["2", "234 g", "117 g", "−10.0 %", "−6.5 g", "Ada"]


def test_the_drying_curve_is_drawn_with_the_day_it_leads_to():
    made = record(dried())

    assert [block.kind for block in section(made, "cure").blocks] == ["curve", "table", "pairs"]
    assert "between" in line(made, "cure", "Ready")


def test_bars_that_may_be_lye_heavy_and_were_not_tested_are_told():
    bench = hand().start().until("weigh:alkali:naoh")
    bench.weigh("alkali:naoh", bench.state.targets["alkali:naoh"] * 1.04)
    bench.until("cure")

    assert bench.state.superfat.lye_heavy_possible and not bench.state.superfat.is_lye_heavy
    assert "this batch needs it" in " ".join(lines(record(bench), "tests"))


def test_a_release_names_who_how_many_and_when(finished):
    assert tones(finished, "decision") == ["good"]
    assert line(finished, "decision", "Bars released") == "Bars released | 10 (of 10 cut)"
    assert line(finished, "decision", "By") == "By | Ada"


def test_a_rejection_says_why():
    bench = hand().start().until("release")
    bench.tap("rejected", "release", reason="Soft and weeping")
    made = record(bench)

    assert tones(made, "decision") == ["stop"] and "Why | Soft and weeping" in lines(made, "decision")


def test_a_stopped_batch_says_why_and_how_it_was_made_safe():
    bench = hand().start().until("cool")
    bench.tap("stopped", reason="The jug cracked", made_safe="Thinned and poured away by the local rules")
    made = record(bench)

    told = lines(made, "decision")
    assert "Why | The jug cracked" in told and "Made safe | Thinned and poured away by the local rules" in told


def test_remarks_are_kept_with_their_step():
    bench = hand().start().until("weigh:fat:olive")
    bench.tap("noted", "weigh:fat:olive", text="The oil smells of grass")

    assert lines(record(bench), "notes")[0].startswith("The oil smells of grass | Weigh Olive | Ada")


def test_a_whole_chain_and_a_broken_one_are_told_apart():
    bench = hand().start()

    assert tones(record(bench), "chain") == ["good"]
    broken = record(bench, broken="Entry 3 does not fit.")
    assert tones(broken, "chain") == ["stop"] and "Entry 3 does not fit." in lines(broken, "chain")[0]
    assert f"Head digest, SHA-256 | {DIGEST}" in lines(broken, "chain")


def test_the_seal_for_paper_names_the_batch_its_entries_and_its_head_digest():
    bench = hand().start()

    assert lines(record(bench), "chain")[-1].endswith(f"(20261125-IB-1 an-id {len(bench.facts)} {DIGEST})")
    assert not any(DIGEST in text for text in lines(record(bench, head_digest=""), "chain"))


def test_a_lot_that_the_plan_does_not_know_is_named_by_its_code():
    bench = hand().start().until("weigh:fat:palm")
    bench.weigh("fat:palm", lot=77)

    assert line(record(bench, lot_codes={77: "P-9"}), "weighed", "Palm").startswith("Palm | P-9 | ")


def test_a_batch_as_planned_says_that_nothing_differed(finished):
    assert lines(finished, "changes") == ["Nothing that was written down differs from the plan."]
    assert next(one for one in finished.glances if one.name == "Deviations").value == "0"


def test_an_interruption_is_kept_with_how_long_it_was_and_what_was_found():
    bench = hand().start().until("weigh:fat:palm")
    bench.tap("paused", "weigh:fat:palm", why="away from the page")
    bench.wait(minutes=11)
    bench.tap("resumed", "weigh:fat:palm", checked="it is in")

    (told,) = lines(record(bench), "pauses")
    assert told.endswith("(away from the page) | 12 min | Weigh Palm | it is in | Ada")


def test_a_rinse_is_kept_and_one_that_nobody_ended_is_told():
    bench = hand().start()
    bench.tap("rinsed", is_running=True, where="eye")
    assert lines(record(bench), "rinses")[0].endswith("not ended | Ada")

    bench.wait(minutes=34)
    bench.tap("rinsed", is_running=False)
    (told,) = lines(record(bench), "rinses")
    assert told.startswith("eye | ") and told.endswith(" | 35 min | Ada")


def test_a_batch_without_interruption_has_no_section_for_it():
    made = record(hand().start().until("melt"))

    assert section(made, "pauses") is None and section(made, "rinses") is None


def test_a_stopped_batch_keeps_each_tick_and_what_nobody_ticked():
    bench = hand().start().until("cool")
    bench.tap("stopped", reason="No time left", steps=["jug", "jar"], lye="kept")
    told = lines(record(bench), "decision")

    assert "The lye | Kept: covered, marked, locked away" in told
    made = next(text for text in told if text.startswith("Made safe"))
    assert "Alkali jar: shut" in made and "marked LYE" in made
    left = next(text for text in told if text.startswith("Not ticked"))
    assert "No vinegar or acid" in left and "marked LYE" not in left


def test_the_record_holds_the_cut_that_suits_and_the_one_that_was_made():
    played = hand(SWIRLED).start().until("cut")
    played.tap("cut", "cut", bars=10, mass_g=1200)
    made = record(played)

    assert "| Blocks, cut level on their sides (Drawn from above" in line(made, "drawing", "Cut that shows it")
    assert line(made, "cut", "Cut as").startswith("Cut as | Slices across the loaf")


def test_a_cut_that_was_not_planned_stands_out():
    played = hand(SWIRLED).start().until("cut")
    played.tap("cut", "cut", bars=8, mass_g=1200, way="blocks on their sides")

    assert (
        line(record(played), "cut", "Cut as")
        == "Cut as | Blocks, cut level on their sides (planned: Slices across the loaf)"
    )


def test_the_loaf_is_told_with_its_window_its_gel_and_each_pressing():
    bench = hand().start().until("look")
    bench.tap("looked", "look", gel="yes")
    bench.wait(hours=12)
    bench.tap("done", "rest")
    bench.tap("firmness-checked", "firm", is_firm=False)
    bench.wait(hours=7)
    bench.tap("firmness-checked", "firm", is_firm=False, crumbles=True, note="at the ends")
    told = lines(record(bench), "loaf")

    assert told[0].startswith("Usually firm | ") and "Gelled. Usually firm between 12 and 24 h." in told[0]
    assert [each.split(" | ")[0] for each in told[1:]] == [
        "gel seen",
        "dents",
        "crumbles (at the ends. Can be lye-heavy: test a bar before anything else.)",
    ]
