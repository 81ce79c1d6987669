"""Something is not here: what helps, with its computed effect, and the batch that is put off."""

import html
from dataclasses import replace

import pytest

from soapbench.bench.events import state_of
from soapbench.bench.folding.scale_in_use import with_drawing_ahead
from soapbench.bench.missing import helps_with
from soapbench.bench.missing_tools import STAND_INS as FOR_TOOLS
from soapbench.bench.plan import PlanScale
from soapbench.bench.run import plan_in_use
from tests.bench.asking import send, submit, words_of
from tests.bench.sample import BENCH, PLAIN, STAND_INS, SWIRLED, Hand, plan_of

COARSE = PlanScale("kitchen", "Kitchen scale", 1.0, 5000, 500, "the packet")


def ways(played, item):
    return helps_with(played.plan, tuple(played.facts), item).ways


def way(played, item, start):
    return next(each for each in ways(played, item) if str(each.title).startswith(start))


def played_so_far(formula=PLAIN, **more):
    played = Hand(plan_of(formula, **more))
    played.tap("started", cautions_read=True)
    return played


def test_another_fat_says_what_it_does_to_the_alkali_before_it_is_chosen():
    # Palm 198.49 becomes lard 195: 300 g x 3.49 / 1402.7 x 0.95 = 0.7 g of alkali less than 143.6 g.
    lard = way(played_so_far(), "material:palm", "Lard")

    assert lard.effect == "Lard goes in for Palm. The pot now needs 142.9 g of alkali, not 143.6 g."
    assert lard.fields["line"] == "fat:palm" and lard.fields["lot"] == "21"


def test_what_was_shown_before_is_what_follows_after():
    played = played_so_far(SWIRLED)
    lard = way(played, "material:palm", "Lard")
    played.tap("changed", "materials", why="none", **{**lard.fields, "lot": 21})

    assert played.state.changes[-1].effect == lard.effect


def test_a_stand_in_with_too_little_left_says_so_and_comes_last():
    more = {**STAND_INS, "shea": replace(STAND_INS["lard"], key="shea", name="Shea", left_g=9000.0, lot=None)}
    more["lard"] = replace(STAND_INS["lard"], left_g=120.0)
    played = played_so_far(stand_ins=more)
    titles = [str(each.title) for each in ways(played, "material:palm")]

    assert titles[:2] == ["Shea instead", "Lard instead"]
    assert "Only 120\u202fg of it are left" in way(played, "material:palm", "Lard").effect.replace(" g", "\u202fg")


def test_another_scent_says_its_limit_its_share_and_its_time():
    cedar = replace(STAND_INS["cedar"], limit_percent=1.0, limit_source="paper 7", working_minutes=4.0)
    played = played_so_far(SWIRLED, stand_ins={**STAND_INS, "cedar": cedar})
    said = way(played, "material:rosemary", "Cedar").effect

    assert "over 1 % (paper 7" in said  # 2 % of the fats of a portion are more than 1 % of its bars
    assert "pourable about 4 min, not 8." in said


def test_a_scent_without_a_limit_is_not_for_sale():
    assert "cannot be sold" in way(played_so_far(SWIRLED), "material:clove", "Cedar").effect


def test_the_nearest_colour_is_offered_first():
    swatches = {"indigo": "#203060"}
    plan = plan_of(SWIRLED)
    materials = {key: replace(fact, swatch=swatches.get(key, "")) for key, fact in plan.materials.items()}
    ochre = STAND_INS["ochre"]
    others = {name: replace(ochre, key=name, name=name, swatch=hue) for name, hue in
              {"Red": "#c03020", "Blue": "#2a3a70", "Green": "#305030"}.items()}  # fmt: skip
    played = Hand(replace(plan, materials=materials, stand_ins=others))
    played.tap("started", cautions_read=True)

    titles = [str(each.title) for each in ways(played, "material:indigo")]
    assert titles[:3] == [f"{name} instead for portion B" for name in ("Blue", "Green", "Red")]


def test_a_line_may_be_left_out_for_a_reason_that_is_tapped():
    out = way(played_so_far(), "material:palm", "Leave it out")

    assert len(out.buttons) == 3 and out.asks == "why"
    assert out.effect.startswith("Palm is left out (300 g planned). The pot now needs")


@pytest.mark.parametrize("item", ["material:sodium_hydroxide", "material:water"])
def test_nothing_stands_in_for_alkali_or_water(item):
    assert ways(played_so_far(), item) == ()


def test_what_is_settled_for_one_line_is_not_asked_again():
    played = played_so_far(SWIRLED)
    lines = {each.fields["line"] for each in ways(played, "material:olive")}
    assert lines == {"fat:olive", "carrier:B:indigo:olive"}

    played.tap("changed", what="substituted", why="none", decision="lard", line="fat:olive", material="lard")
    assert {each.fields["line"] for each in ways(played, "material:olive")} == {"carrier:B:indigo:olive"}


def test_a_drawing_tool_that_is_not_here_leads_to_drawings_whose_tool_is():
    tools = (
        *BENCH.tools,
        *(replace(BENCH.tools[0], key=name, name=name.title(), kind=name) for name in ("comb", "spoon")),
    )
    played = played_so_far(SWIRLED, bench=replace(BENCH, tools=tools))
    found = ways(played, "tool:drawing")

    assert str(found[0].title) == "Zigzag with comb"
    assert "skewer" not in {each.fields.get("tool") for each in found}
    assert found[-1].fields["path"] == "none"


def test_a_drawing_chosen_before_is_the_one_to_make_and_not_yet_made():
    played = played_so_far(SWIRLED)
    played.tap("changed", "tools-shape", what="drawn differently", why="lent", decision="comb", path="spiral",
               tool="comb", item="tool:drawing")  # fmt: skip

    assert played.state.drawing is None
    assert played.state.drawing_ahead["path"] == "spiral"
    assert "draw" not in played.state.done


@pytest.mark.parametrize(
    "tool", ["thermometer", "blender", "spatula", "jug", "pot", "mould", "cups", "cutter", "divider"]
)
def test_every_tool_has_something_that_stands_in_for_it(tool):
    played = played_so_far(SWIRLED)
    found = ways(played, f"tool:{tool}")

    assert len(found) == len(FOR_TOOLS[tool]) >= 1
    assert all(each.effect and each.fields["item"] == f"tool:{tool}" for each in found)


def test_another_scale_says_what_its_step_does_to_the_superfat():
    # One step of 1 g on 143.6 g of alkali at 5 % superfat: 0.95 / 143.6 = 0.66 points.
    played = played_so_far(bench=replace(BENCH, other_scales=(COARSE,)))

    assert "moves the superfat by 0.66 points" in way(played, "tool:scale", "Kitchen").effect


def test_another_scale_sets_the_step_of_every_weight_and_passes_the_trial():
    played = played_so_far(bench=replace(BENCH, other_scales=(COARSE,)))
    assert played.state.targets["alkali:naoh"] == 143.6
    played.tap("changed", "scale-check", what="another scale", why="off", decision="that one", tool="kitchen")

    assert played.state.scale == "Kitchen scale"
    assert played.state.targets["alkali:naoh"] == 144.0
    assert "scale-check" in played.state.done
    used = plan_in_use(played.plan, played.facts)
    assert (used.resolution_g, used.check_mass_g) == (1.0, 500)


def test_an_item_of_no_list_has_no_help():
    assert helps_with(plan_of(PLAIN), (), "tool:harp") is None


def test_without_a_script_not_here_leads_to_what_helps(maker, begun):
    answer = submit(maker, begun, "ticked", "materials", item="material:palm", is_here="false")
    page = maker.get(answer.url)

    assert answer.url == f"/bench/{begun.pk}/missing/?item=material%3Apalm"
    assert "Lard instead" in words_of(page) and "Put the batch off until" in words_of(page)
    assert "alkali, not" in words_of(page)


def test_a_script_gets_the_ways_alone(maker, begun):
    page = maker.get(f"/bench/{begun.pk}/missing/", {"item": "material:palm"}, headers={"HX-Request": "true"})

    assert b"<html" not in page.content and "Lard instead" in words_of(page)


def test_what_nobody_asked_for_leads_back_to_the_run(maker, begun):
    assert maker.get(f"/bench/{begun.pk}/missing/", {"item": "tool:harp"}).url == f"/bench/{begun.pk}/"


def test_the_help_of_another_workshop_is_not_found(client, begun, stranger):
    client.force_login(stranger)

    assert client.get(f"/bench/{begun.pk}/missing/", {"item": "material:palm"}).status_code == 404


def test_a_batch_that_is_put_off_says_so_on_the_bench_until_it_goes_on(maker, begun):
    answer = submit(maker, begun, "postponed", "room", why="No <spatula>", until="tomorrow")
    assert answer.url == "/"
    assert "Put off: No <spatula> – tomorrow" in words_of(maker.get("/"))
    assert "Put off until tomorrow: No <spatula>." in words_of(maker.get(f"/bench/{begun.pk}/"))

    send(maker, begun, "ticked", {"item": "tool:scale"}, prompt="tools")
    assert "Put off:" not in words_of(maker.get("/"))
    assert state_of(begun).put_off is None


def test_why_it_is_put_off_must_be_said(maker, begun):
    page = submit(maker, begun, "postponed", "room", why=" ")

    assert page.status_code == 422 and "Write why" in html.unescape(page.content.decode())


def test_a_scale_that_is_off_is_told_where_it_is_tried(maker, begun):
    submit(maker, begun, "scale-checked", "scale-check", known_g="200", read_g="203.4")
    page = words_of(maker.get(f"/bench/{begun.pk}/?at=scale-check"))

    assert "3.4 g over; 0.2 g are allowed" in page
    assert state_of(begun).current != "room"


def test_what_the_bench_would_refuse_is_not_offered():
    played = Hand(plan_of(PLAIN, bench=replace(BENCH, other_scales=(COARSE,)))).start().until("read-lye")
    for line in ("fat:palm", "fat:coconut"):
        played.tap("changed", what="left out", why="none left", decision="go on", line=line)

    assert "left out" not in {each.fields["what"] for each in ways(played, "material:olive")}
    assert ways(played, "tool:scale") == ()


def test_a_closed_batch_has_nothing_missing(maker, bench, begun):
    bench.tap("stopped", reason="no time", made_safe="nothing was open")

    assert maker.get(f"/bench/{begun.pk}/missing/", {"item": "material:palm"}).url == f"/bench/{begun.pk}/"


def test_what_is_not_to_be_drawn_is_not_asked_for():
    played = played_so_far(SWIRLED)
    none = ways(played, "tool:drawing")[-1]
    played.tap("changed", "tools-shape", why="lent", **none.fields)

    assert played.state.skipped["draw"] == "Nothing is drawn this time."
    assert played.state.drawing["path"] == "none"


def test_the_page_shows_the_drawing_that_was_chosen_before():
    played = played_so_far(SWIRLED)
    change = {"what": "drawn differently", "path": "spiral", "tool": "skewer", "item": "tool:drawing"}
    played.tap("changed", "tools-shape", why="lent", decision="one spiral", **change)
    plan = with_drawing_ahead(played.plan, played.state.drawing_ahead)

    assert (plan.formula.drawing.path, plan.formula.drawing.tool) == ("spiral", "skewer")
    assert plan.prompt("draw").title == "Draw: spiral, with Skewer"
    assert with_drawing_ahead(played.plan, None) is played.plan
