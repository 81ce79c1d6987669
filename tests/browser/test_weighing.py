"""While weighing: what a typed weight would do, parts of a weighing, ways out to choose from, and the pot."""

import re

from playwright.sync_api import expect

from soapbench.bench.events import facts_of, state_of
from tests.browser.hand import Hand

COCONUT = "fat:coconut"


def opened(at, key, **differences):
    page, run = at(key, **differences)
    hand = Hand(page)
    hand.wait_for(key)
    return page, run, hand


def saved(hand):
    """Wait until the last tap has led on, and is saved."""
    hand.settle()
    hand.wait_until_saved()


def test_what_a_weight_would_do_is_told_while_it_is_typed(at):
    _page, run, hand = opened(at, "weigh:alkali:naoh")
    hand.type(f"{run.plan.line('alkali:naoh').planned_g + 3:.1f}")
    told = hand.prompt.locator("[data-deviation]")

    expect(told).to_have_text(re.compile(r"^\+3\.0 g → superfat 5\.\d → 3\.\d %$"))
    hand.prompt.locator('[data-key="clear"]').tap()
    hand.type(hand.figure())
    expect(told).to_have_text("")


def test_too_much_alkali_is_told_in_a_word_before_it_is_sent(at):
    _page, run, hand = opened(at, "weigh:alkali:naoh")
    hand.type(f"{run.plan.line('alkali:naoh').planned_g + 12:.1f}")

    expect(hand.prompt.locator("[data-deviation].is-stop")).to_contain_text("lye-heavy")


def test_a_fat_weighed_in_parts_survives_a_reload_and_ends_with_its_last_part(at):
    page, run, hand = opened(at, f"weigh:{COCONUT}")
    whole = float(hand.figure())
    hand.weigh_part("100")
    assert float(hand.figure()) == round(whole - 100, 1)
    page.reload()
    hand = Hand(page)
    hand.wait_for(f"weigh:{COCONUT}")
    expect(hand.prompt.locator("[data-so-far]")).to_contain_text(f"100.0 / {whole} g")
    hand.weigh()
    saved(hand)
    weight = state_of(run).weights[COCONUT]

    assert (weight.mass_g, weight.parts) == (whole, (100.0, round(whole - 100, 1)))


def test_a_part_is_taken_back_by_one_tap(at):
    page, run, hand = opened(at, f"weigh:{COCONUT}")
    whole = hand.figure()
    hand.weigh_part("100")
    page.locator(".dock [data-take-back]").tap()
    saved(hand)

    expect(hand.prompt.locator("[data-so-far]")).to_be_hidden()
    assert hand.figure() == whole and state_of(run).parts == {}


def test_a_part_without_a_network_counts_at_once(at):
    page, _run, hand = opened(at, f"weigh:{COCONUT}")
    whole = float(hand.figure())
    page.context.set_offline(True)
    hand.type("100")
    hand.prompt.locator("[data-part-key]").tap()

    expect(hand.prompt.locator("[data-so-far]")).to_contain_text("100.0")
    assert float(hand.figure()) == round(whole - 100, 1)


def test_a_fat_that_is_over_may_make_the_batch_larger_and_asks_for_the_rest(at):
    _page, run, hand = opened(at, f"weigh:{COCONUT}")
    planned = run.plan.line(COCONUT).planned_g
    hand.weigh(f"{planned * 1.1:.1f}")
    saved(hand)
    castor = float(hand.figure())
    panel = hand.open_ways()
    ends = re.compile(r"superfat 5\.\d %, between \d\.\d and \d\.\d %")
    expect(panel.locator("[data-out]").first).to_contain_text(ends)
    panel.get_by_role("button", name="Make a bigger batch").tap()
    saved(hand)

    assert hand.key == "weigh:fat:cocoa_butter"  # it was weighed before: the rest of it is asked for
    hand.weigh()
    hand.wait_for("weigh:fat:castor")
    saved(hand)
    assert abs(float(hand.figure()) - castor * 1.1) < 0.2
    assert state_of(run).factor > 1.09


def test_the_reason_for_a_weight_that_is_off_is_two_taps_and_may_be_passed_over(at):
    _page, run, hand = opened(at, f"weigh:{COCONUT}")
    hand.weigh(f"{run.plan.line(COCONUT).planned_g + 30:.1f}")
    saved(hand)
    before = len(facts_of(run))
    hand.open_ways().locator("[data-whys] button", has_text="Poured too much").tap()
    saved(hand)
    state = state_of(run)

    assert len(facts_of(run)) == before + 1
    assert (state.changes[-1].why, state.weights[COCONUT].mass_g) == (
        "Poured too much",
        run.plan.line(COCONUT).planned_g + 30,
    )


def test_the_alkali_is_settled_from_ways_that_each_show_their_superfat(at):
    _page, run, hand = opened(at, f"weigh:{COCONUT}")
    hand.weigh(f"{run.plan.line(COCONUT).planned_g + 30:.1f}")
    hand.wait_for("weigh:fat:castor")
    hand.until("settle")
    titles = hand.prompt.locator("[data-out-title]").all_inner_texts()

    assert (titles[0], titles[-1]) == ("Recomputed", "As planned")
    assert "Make a bigger batch in the same proportions" in titles
    assert hand.prompt.locator("[data-out-superfat]").count() == len(titles)
    hand.prompt.get_by_role("button", name="As planned").tap()
    saved(hand)
    assert state_of(run).settlement.choice == "planned"


def test_a_pot_that_is_too_light_names_the_fat_while_it_is_typed_and_offers_what_to_do(at):
    _page, run, hand = opened(at, "pot-check")
    missing = state_of(run).weights[COCONUT].mass_g
    hand.type(f"{float(hand.figure()) - missing:.1f}")
    expect(hand.prompt.locator("[data-pot-gap]")).to_have_text(f"{missing:.1f} g too light, as much as Coconut oil")
    hand.prompt.locator("[data-send]").tap()
    hand.wait_for("before-combine")
    saved(hand)
    panel = hand.open_ways()
    expect(panel.locator(".out.is-stop", has_text="Go on without Coconut oil")).to_contain_text("lye-heavy")
    panel.get_by_role("button", name="Pour Coconut oil in now").tap()
    hand.wait_for("pot-check")


def test_lye_for_too_few_fats_is_poured_in_part_and_the_prompt_says_how_much(at):
    _page, run, hand = opened(at, "pot-check")
    hand.type(f"{float(hand.figure()) - state_of(run).weights[COCONUT].mass_g:.1f}")
    hand.prompt.locator("[data-send]").tap()
    hand.wait_for("before-combine")
    saved(hand)
    hand.choose_way("Go on without Coconut oil")
    hand.choose_way("Pour only part of the lye")
    state = state_of(run)
    made = sum(state.weights[key].mass_g for key in ("water", "alkali:naoh"))

    hand.do_as_planned()  # the list before the lye meets the fats
    expect(hand.prompt.locator("[data-pour-part]")).to_contain_text(f"{made * state.lye_share:.1f} / {made:.1f} g")
    assert abs(state.superfat.central - 0.05) < 0.002


def test_a_part_is_kept_without_a_script_too(at):
    page, run = at("weigh:fat:coconut", java_script_enabled=False)
    section = page.locator("[data-prompt]:not([hidden])")
    section.locator("[data-entry] [name=mass_g]").fill("100")
    section.get_by_role("button", name="A part").tap()

    expect(page.locator("[data-prompt]:not([hidden]) [data-so-far]")).to_contain_text("100.0")
    assert state_of(run).parts == {COCONUT: (100.0,)}
