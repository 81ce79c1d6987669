"""The panel "something is different": few tiles, few fields, and somebody who decided."""

import re

import pytest

from soapbench.bench.change_screen import MOST_TILES, different_screen
from soapbench.bench.events import facts_of, state_of
from soapbench.bench.ids import new_id
from soapbench.workshop.models import Person
from tests.bench.sample import SWIRLED, Hand, plan_of


@pytest.fixture
def bo(workshop):
    return Person.objects.create_user("bo", password="x", workshop=workshop, first_name="Bo")


def panel_of(page):
    return page.content.decode().split('id="different"')[1].split('id="steps"')[0]


def shown(panel):
    """Return the titles of the tiles that are not hidden."""
    tiles = re.findall(r'<a class="tile"[^>]*?(hidden)?><span>(.*?)</span>', panel)
    return [title for is_hidden, title in tiles if not is_hidden]


def test_no_prompt_offers_more_tiles_than_fit():
    assert all(len(prompt.changes) <= MOST_TILES for prompt in plan_of(SWIRLED).prompts)


def test_only_what_makes_sense_at_the_prompt_is_offered(maker, begun):
    panel = panel_of(maker.get(f"/bench/{begun.pk}/?at=cool"))

    assert shown(panel) == ["Too hot or too cold", "Lost or spilt", "Interrupted", "Something else"]


def test_a_tile_is_a_link_to_its_own_screen(maker, begun):
    panel = panel_of(maker.get(f"/bench/{begun.pk}/?at=cool&different=temperature+off"))
    (opened,) = re.findall(r'data-change="([^"]*)"[^>]*class="change"\s+novalidate', panel)

    assert "data-opened" in panel
    assert opened == "temperature off"


def test_the_line_of_the_prompt_stands_there_already():
    plan = plan_of(SWIRLED)
    state = Hand(plan).start().state
    screen = different_screen(
        plan, state, plan.prompt("weigh:colourant:B:indigo"), opened="left out", typed={}, people=()
    )

    assert (screen.typed["line"], screen.typed["portion"]) == ("colourant:B:indigo", "")


def test_at_a_portion_s_prompt_the_portion_stands_there_already():
    plan = plan_of(SWIRLED)
    screen = different_screen(plan, Hand(plan).state, plan.prompt("split:B"), opened="", typed={}, people=())

    assert (screen.typed["line"], screen.typed["portion"]) == ("", "B")


def test_a_drawing_is_offered_with_the_tools_that_can_make_it():
    plan = plan_of(SWIRLED)
    screen = different_screen(plan, Hand(plan).state, plan.prompt("draw"), opened="", typed={}, people=())
    tools = {one.path: one.tools for one in screen.paths}

    assert tools["spiral"] == "skewer"
    assert "down and up" not in tools  # takes a hanger, and there is none


def test_who_works_alone_is_not_asked_who_decided(maker, begun):
    assert "Who decided" not in panel_of(maker.get(f"/bench/{begun.pk}/"))


def test_who_decided_is_chosen_where_several_work(maker, begun, bo):
    panel = panel_of(maker.get(f"/bench/{begun.pk}/"))

    assert 'name="by" value="Bo"' in panel
    assert 'name="by" value="" checked' in panel


def write(maker, run, **fields):
    event = {"id": str(new_id()), "kind": "changed", "prompt": "materials", "what": "other"}
    said = {"why_words": "it is so", "decision_words": "go on"}
    return maker.post(f"/bench/{run.pk}/events/", {**event, **said, **fields})


def test_the_one_who_writes_decided_unless_another_is_named(maker, begun, bo):
    write(maker, begun)
    write(maker, begun, by="Bo")

    assert [change.decided_by for change in state_of(begun).changes] == ["Ada", "Bo"]
    assert [change.person for change in state_of(begun).changes] == ["Ada", "Ada"]


def test_a_decision_in_the_name_of_nobody_here_is_refused(maker, begun):
    page = write(maker, begun, by="Nolan")

    assert page.status_code == 422
    assert "Nobody of that name works here." in panel_of(page)
    assert facts_of(begun)[-1].kind == "started"


def test_what_follows_is_shown_with_a_way_back_until_something_else_happens(maker, begun):
    write(maker, begun)
    words = maker.get(f"/bench/{begun.pk}/").context["follows"]

    assert words.event == facts_of(begun)[-1].id
    maker.post(
        f"/bench/{begun.pk}/events/", {"id": str(new_id()), "kind": "noted", "prompt": "materials", "text": "a remark"}
    )
    assert maker.get(f"/bench/{begun.pk}/").context["follows"] is None


def test_an_earlier_change_is_told_at_its_later_prompt(maker, begun):
    maker.post(
        f"/bench/{begun.pk}/events/",
        {
            "id": str(new_id()), "kind": "changed", "prompt": "materials", "what": "substituted",
            "line": "fat:palm", "material": "lard", "why_words": "none left", "decision_words": "use it",
        },
    )  # fmt: skip
    page = maker.get(f"/bench/{begun.pk}/?at=weigh:fat:palm")

    assert [each.sentence for each in page.context["page"].shown.notices] == ["Lard goes in for Palm: weigh 300 g."]
    assert "Lard goes in for Palm: weigh 300 g." in page.content.decode()
