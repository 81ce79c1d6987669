"""The rack as a list: what is due, and in which order."""

from datetime import timedelta

import pytest

from soapbench.bench.models import Event, Run
from soapbench.rack.due import due_lines, last_weighings
from tests.bench.sample import START
from tests.rack.played import play


def groups_of(client):
    return {group.stand: group.lines for group in client.get("/rack/").context["groups"]}


def test_the_empty_rack_says_when_something_comes(as_owner):
    assert "A loaf comes here when its mould is full" in as_owner.get("/rack/").content.decode()


def test_a_resting_loaf_says_when_it_is_unmoulded(as_owner, resting, clock):
    clock.move_to(START + timedelta(hours=2))

    (line,) = groups_of(as_owner)["later"]

    assert (line.run.pk, line.act, line.when) == (resting.pk, "Press the loaf: is it firm?", "in 23 hours")


@pytest.mark.parametrize(
    ("hours", "stand", "when"),
    [(-5, "later", "in 5 hours"), (1, "now", "since {:%H:%M}"), (51, "overdue", "2 days overdue")],
)
def test_a_loaf_is_overdue_from_the_day_after(as_owner, resting, clock, hours, stand, when):
    clock.move_to(resting.due_at + timedelta(hours=hours))

    (line,) = groups_of(as_owner)[stand]

    assert line.when == when.format(resting.due_at)


def test_a_resting_loaf_says_until_when_it_is_best_cut(as_owner, resting):
    (line,) = groups_of(as_owner)["later"]

    assert line.detail == f"best by 27 Nov, {line.due_at:%H:%M}"


def test_the_longest_overdue_stands_first(as_owner, world, owner, curing, clock):
    later = play(world.bars["long-patience"], owner, "rest", fats_g=700)
    clock.move_to(START + timedelta(days=40))

    lines = groups_of(as_owner)["overdue"]

    assert [line.run.pk for line in lines] == [later.pk, curing.pk]


def test_the_overdue_stand_above_what_is_due_now_and_later(as_owner, curing, resting, tested, clock):
    clock.move_to(START + timedelta(days=3))

    assert list(groups_of(as_owner)) == ["overdue", "now", "later"]


def test_curing_bars_are_due_for_a_weighing_a_week_after_the_last(as_owner, curing, clock):
    clock.move_to(START + timedelta(days=16))

    (line,) = groups_of(as_owner)["later"]

    assert (line.act, line.when) == ("Weigh the marked bars", "in 5 days")
    assert line.detail == "Cured by plan on 6 Jan 2027"


def test_a_weighing_that_was_taken_back_does_not_put_off_the_next(as_owner, curing, clock):
    clock.move_to(START + timedelta(days=17))
    last = curing.events.filter(kind="cure-weighed").last()
    as_owner.post(
        f"/rack/{curing.pk}/",
        {"act": "take-back", "take-back-id": "0193e000-0000-7000-8000-000000000001", "take-back-event": str(last.pk)},
    )

    (line,) = groups_of(as_owner)["overdue"]

    assert line.when == "3 days overdue"


def test_at_the_end_of_the_planned_cure_the_rack_asks_whether_the_bars_are_cured(as_owner, curing, clock):
    send_weighing(as_owner, curing, clock, days=39)
    clock.move_to(START + timedelta(days=43))

    (line,) = groups_of(as_owner)["overdue"]

    assert line.act == "Weigh: are the bars cured?"


def send_weighing(client, run, clock, days):
    clock.move_to(START + timedelta(days=days))
    id = "0193e000-0000-7000-8000-000000000002"
    client.post(f"/rack/{run.pk}/", {"act": "weigh", "weigh-id": id, "weigh-bars": "3", "weigh-mass_g": "350"})


def test_bars_to_test_and_to_release_are_due_now(as_owner, tested, heavy):
    lines = groups_of(as_owner)["now"]

    assert {line.act for line in lines} == {"Test a bar", "Release or reject the bars"}


def test_a_lye_heavy_batch_is_marked_in_words(as_owner, heavy):
    assert "lye-heavy" in as_owner.get("/rack/").content.decode()


def test_what_is_at_the_bench_or_has_ended_is_not_on_the_rack(as_owner, doorstep, owner):
    play(doorstep, owner, "weigh:water")
    play(doorstep, owner, "")

    assert not groups_of(as_owner)


def test_the_rack_asks_as_often_for_one_run_as_for_many(as_owner, curing, resting, django_assert_num_queries):
    Run.objects.bulk_create(copy_of(curing, number) for number in range(40))

    with django_assert_num_queries(5):  # session, person, workshop; runs, weighings
        page = as_owner.get("/rack/")

    assert sum(len(group.lines) for group in page.context["groups"]) == 42


def copy_of(run, number):
    return Run(
        workshop=run.workshop,
        bar=run.bar,
        revision=run.revision,
        code=f"copy-{number}",
        made_by=run.made_by,
        plan_document={},
        status=run.status,
        prompt=run.prompt,
    )


def test_the_plans_of_the_runs_are_left_where_they_are(curing, django_assert_num_queries):
    runs = list(Run.objects.defer("plan_document").select_related("bar"))

    with django_assert_num_queries(1):
        due_lines(runs, last_weighings(runs), START)

    assert Event.objects.filter(run=curing).exists()
