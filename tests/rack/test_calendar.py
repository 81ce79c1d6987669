"""The calendar, read back with a calendar library: the feed of a person and the file of one wait."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from django.utils import timezone
from icalendar import Calendar

from soapbench.bars.formula import Process
from soapbench.bench import events
from soapbench.bench.ids import new_id
from soapbench.rack import calendar as calendar_views
from soapbench.rack.ics import rings_at
from soapbench.rack.waits import Wait, morning_after, waits_of
from soapbench.workshop import calendar_link
from tests.bench.sample import PLAIN, START, hand
from tests.rack.played import begin, play, write

DAY = timedelta(days=1)
HOUR = timedelta(hours=1)


@pytest.fixture
def address(owner):
    return f"/rack/calendar/{calendar_link.renew(owner).token}.ics"


def entries_in(response):
    assert response.status_code == 200
    assert response.headers["Content-Type"] == "text/calendar; charset=utf-8"
    return [Calendar.from_ical(response.content), *Calendar.from_ical(response.content).walk("VEVENT")][1:]


def by_act(response):
    return {str(entry["summary"]).split(" · ")[0]: entry for entry in entries_in(response)}


def tap(run, owner, kind, prompt, at, **payload):
    events.append(run, id=new_id(), kind=kind, prompt=prompt, payload=payload, happened_at=at, device="phone", by=owner)


def test_the_feed_needs_no_sign_in_and_tells_what_follows_too(client, address, resting):
    acts = by_act(client.get(address))

    assert list(acts) == [
        "Press the loaf; firm: unmould and cut it",
        "Weigh: are the bars cured?",
        "Test a bar, then release or reject the bars",
    ]
    assert [str(entry["status"]) for entry in acts.values()] == ["CONFIRMED", "TENTATIVE", "TENTATIVE"]


def test_an_entry_is_due_when_the_run_is_in_utc(client, address, resting):
    entry = by_act(client.get(address))["Press the loaf; firm: unmould and cut it"]

    assert entry["dtstart"].dt == resting.due_at.replace(microsecond=0)
    assert entry["dtstart"].to_ical().endswith(b"Z")


def waits(until, **process):
    """Return the waits of a batch of plain data, by their keys."""
    played = hand(replace(PLAIN, process=Process(**process)))
    played.start().until(until)
    return {wait.key: wait for wait in waits_of(played.plan, played.state)}


def test_what_follows_is_planned_from_when_the_loaf_is_due():
    found = waits("rest", unmould_hours=20, cut_hours=30, cure_days=28)

    assert list(found) == ["rest", "cut-wait", "cure", "test"]
    assert [wait.is_running for wait in found.values()] == [True, False, False, False]
    assert (found["rest"].act, found["cut-wait"].act) == ("Press the loaf; firm: unmould it", "Cut the loaf")
    assert found["cut-wait"].due_at == found["rest"].due_at + 10 * HOUR
    assert found["cure"].due_at == found["cut-wait"].due_at + 28 * DAY


def test_the_unmoulding_is_told_from_the_moment_the_mould_is_covered():
    found = waits("clean")

    assert "rest" in found and found["rest"].is_running


def test_an_oven_is_told_as_the_step_says():
    found = waits("clean", oven=True)

    assert found["oven-off"].act == "Switch the oven off, leave the mould in"
    assert found["oven-off"].is_running
    assert found["rest"].due_at > found["oven-off"].due_at


def test_a_loaf_that_was_soft_is_told_when_to_press_it_again():
    played = hand()
    played.start().until("firm")
    played.tap("firmness-checked", "firm", is_firm=False)
    (again, *_later) = waits_of(played.plan, played.state)

    assert (again.key, again.is_running, again.due_at) == ("firm", True, played.state.due_at)


def test_a_loaf_to_be_cut_is_cured_by_plan_from_now_on():
    found = waits("cut", cure_days=28)

    assert list(found) == ["cure", "test"]


def test_bars_that_cure_are_turned_and_weighed_a_week_after_the_last_time(client, address, curing):
    acts = by_act(client.get(address))

    assert "Turn the bars, weigh the marked ones" in acts
    assert acts["Turn the bars, weigh the marked ones"]["dtstart"].dt < acts["Weigh: are the bars cured?"]["dtstart"].dt


def test_bars_that_wait_for_the_decision_are_told_the_next_morning(client, address, tested):
    (entry,) = entries_in(client.get(address))

    assert str(entry["summary"]).startswith("Release or reject the bars")
    assert entry["dtstart"].dt.time().isoformat() == "08:00:00"


def test_a_moved_hour_moves_the_same_entry(client, address, owner, doorstep):
    run, hand = begin(doorstep, owner)
    hand.start().until("rest")
    write(run, hand, owner)
    cover = next(fact for fact in hand.facts if fact.prompt == "cover")
    before = by_act(client.get(address))["Press the loaf; firm: unmould and cut it"]

    covered = run.events.get(prompt="cover")
    tap(run, owner, "took-back", "cover", cover.happened_at + HOUR, event=str(covered.pk))
    tap(run, owner, "done", "cover", cover.happened_at + 3 * HOUR)
    after = by_act(client.get(address))["Press the loaf; firm: unmould and cut it"]

    assert after["uid"] == before["uid"]
    assert after["dtstart"].dt == before["dtstart"].dt + 3 * HOUR
    assert after["sequence"] > before["sequence"]
    assert after["last-modified"].dt > before["last-modified"].dt


def test_entries_of_two_batches_and_of_two_waits_are_never_the_same(client, address, doorstep, owner):
    for _ in range(2):
        play(doorstep, owner, "rest")

    uids = [str(entry["uid"]) for entry in entries_in(client.get(address))]

    assert len(set(uids)) == len(uids) == 6


def test_every_entry_rings(client, address, resting, curing):
    for entry in entries_in(client.get(address)):
        (alarm,) = entry.walk("VALARM")
        assert str(alarm["action"]) == "DISPLAY"
        assert timedelta(0) <= alarm["trigger"].dt <= 10 * HOUR


def test_no_person_is_named(client, address, resting, curing, tested, workshop):
    text = client.get(address).content.decode().replace("\r\n ", "")

    for person in workshop.people.all():
        assert not {person.first_name, person.last_name, person.username} & set(text.replace("\\n", " ").split())


def test_a_batch_that_ended_and_one_at_the_bench_are_not_in_the_feed(client, address, doorstep, owner):
    play(doorstep, owner, "")
    play(doorstep, owner, "trace")

    assert entries_in(client.get(address)) == []


def test_the_feed_holds_nothing_of_another_workshop(client, stranger, resting):
    assert entries_in(client.get(f"/rack/calendar/{calendar_link.renew(stranger).token}.ics")) == []


@pytest.mark.parametrize("token", ["x", "a" * 43, "a" * 2000])
def test_an_address_that_was_never_given_is_not_found(client, address, token):
    assert client.get(f"/rack/calendar/{token}.ics").status_code == 404


def test_a_feed_without_news_is_told_so_without_reading_a_plan(client, address, curing, django_assert_num_queries):
    etag = client.get(address).headers["ETag"]

    with django_assert_num_queries(2):  # the token, the runs
        again = client.get(address, headers={"if-none-match": etag})

    assert (again.status_code, again.content) == (304, b"")


def test_an_event_makes_the_feed_new(client, address, curing, owner, clock):
    etag = client.get(address).headers["ETag"]
    clock.move_to(START + 20 * DAY)
    tap(curing, owner, "noted", "cure", START + 20 * DAY, text="Smells of hay.")

    assert client.get(address, headers={"if-none-match": etag}).status_code == 200


def test_a_feed_that_is_not_new_is_the_same_byte_for_byte(client, address, curing, clock):
    before = client.get(address).content
    clock.shift(3 * DAY)

    assert client.get(address).content == before


def test_who_asks_without_pause_is_asked_to_wait(client, address, monkeypatch):
    monkeypatch.setattr(calendar_views, "FULL_ANSWERS", 2)

    answers = [client.get(address).status_code for _ in range(3)]

    assert answers == [200, 200, 429]


def test_the_feed_says_how_often_it_is_worth_asking(client, address, resting):
    feed = Calendar.from_ical(client.get(address).content)

    assert feed["refresh-interval"].dt == HOUR
    assert b"REFRESH-INTERVAL;VALUE=DURATION:PT1H" in feed.to_ical()


def test_one_wait_can_be_added_alone(as_owner, resting):
    response = as_owner.get(f"/rack/{resting.pk}/waits/rest.ics")

    (entry,) = entries_in(response)
    assert str(entry["summary"]) == "Press the loaf; firm: unmould and cut it · Doorstep"
    assert response.headers["Content-Disposition"] == f'attachment; filename="{resting.code}-rest.ics"'


def test_a_wait_alone_is_the_same_entry_as_in_the_feed(as_owner, address, resting):
    (alone,) = entries_in(as_owner.get(f"/rack/{resting.pk}/waits/rest.ics"))

    assert alone == by_act(as_owner.get(address))["Press the loaf; firm: unmould and cut it"]


def test_what_runs_at_the_bench_can_be_added_where_the_phone_promises_no_alarm(as_owner, doorstep, owner):
    run = play(doorstep, owner, "cool")

    (entry,) = entries_in(as_owner.get(f"/rack/{run.pk}/running.ics"))

    assert str(entry["summary"]).startswith("Lye: read both pots")
    assert entry.walk("VALARM")[0]["trigger"].dt == timedelta(0)


def test_nothing_to_add_is_said_on_the_batchs_page(as_owner, doorstep, owner):
    run = play(doorstep, owner, "")

    page = as_owner.get(f"/rack/{run.pk}/waits/rest.ics", follow=True)

    assert "Nothing runs on the clock here any more" in page.content.decode()


@pytest.mark.parametrize("file", ["running.ics", "waits/rest.ics"])
def test_a_file_is_for_the_workshop_alone(client, resting, stranger, file):
    assert client.get(f"/rack/{resting.pk}/{file}").status_code == 302
    client.force_login(stranger)
    assert client.get(f"/rack/{resting.pk}/{file}").status_code == 404


def test_the_page_of_a_batch_offers_each_wait(as_owner, resting):
    page = as_owner.get(f"/rack/{resting.pk}/").content.decode()

    assert f"/rack/{resting.pk}/waits/rest.ics" in page
    assert f"/rack/{resting.pk}/waits/cure.ics" in page


def test_the_bench_offers_the_wait_that_it_shows(as_owner, resting):
    assert f"/rack/{resting.pk}/waits/rest.ics" in as_owner.get(f"/bench/{resting.pk}/").content.decode()


@pytest.mark.parametrize(
    ("key", "due", "rings"),
    [
        ("rest", "2026-11-26 08:46", "2026-11-26 08:46"),
        ("rest", "2026-11-26 21:30", "2026-11-27 07:00"),
        ("rest", "2026-11-27 02:10", "2026-11-27 07:00"),
        ("oven-off", "2026-11-27 02:10", "2026-11-27 02:10"),
        ("look", "2026-11-26 23:00", "2026-11-26 23:00"),
    ],
)
def test_nobody_is_rung_out_of_bed_but_for_the_oven(key, due, rings):
    at, then = (datetime.fromisoformat(moment).replace(tzinfo=UTC) for moment in (due, rings))

    assert rings_at(Wait(key, "", at, True)) == then


def test_night_and_morning_are_those_of_the_workshop():
    with timezone.override("Asia/Tokyo"):  # nine hours ahead
        due = datetime(2026, 11, 26, 14, 0, tzinfo=UTC)  # 23:00 there
        assert rings_at(Wait("rest", "", due, True)) == datetime(2026, 11, 26, 22, 0, tzinfo=UTC)
        assert morning_after(due) == datetime(2026, 11, 26, 23, 0, tzinfo=UTC)
