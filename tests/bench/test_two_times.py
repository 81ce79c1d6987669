"""What happened keeps two times: the server's as far as the device knew it, and the device's own."""

from datetime import timedelta

import pytest
from django.utils import timezone

from soapbench.bench.events import facts_of
from soapbench.bench.integrity import digest_of, verify
from soapbench.bench.models import Event
from soapbench.logbook.words import when
from tests.bench.asking import send


@pytest.fixture
def noted(maker, bench):
    """Send a remark from a phone whose clock is wrong by so much; returns it as the record reads it."""
    bench.tap("started", cautions_read=True)

    def from_a_clock(wrong_by):
        now = timezone.now()
        device_at = (now + wrong_by).isoformat()
        answer = send(maker, bench.run, "noted", {"text": "look"}, happened_at=now.isoformat(), device_at=device_at)
        assert answer.status_code == 200, answer.content
        return facts_of(bench.run)[-1]

    return from_a_clock


def test_both_times_are_kept(noted):
    fact = noted(timedelta(hours=2))
    assert abs(fact.device_at - fact.happened_at - timedelta(hours=2)) < timedelta(seconds=1)


def test_the_record_tells_of_a_clock_that_was_wrong(noted):
    assert "the device's clock said" in when(noted(timedelta(hours=-2))).note
    assert when(noted(timedelta(seconds=20))).note == ""


def test_the_device_s_time_is_part_of_the_digest(noted, run):
    noted(timedelta(hours=2))
    assert verify(run.__class__.objects.get(pk=run.pk)) is None
    event = Event.objects.filter(run=run).latest("position")
    event.device_at += timedelta(minutes=1)
    assert digest_of(event) != event.digest


def test_an_entry_from_before_there_were_two_times_keeps_its_digest(bench, run):
    bench.tap("started", cautions_read=True)
    assert Event.objects.get(run=run).device_at is None
    assert verify(run.__class__.objects.get(pk=run.pk)) is None


def test_a_time_that_no_clock_can_show_is_left_out_and_the_entry_is_kept(maker, bench):
    bench.tap("started", cautions_read=True)
    send(maker, bench.run, "noted", {"text": "look"}, device_at="0001-01-01T00:00:00+14:00")
    assert facts_of(bench.run)[-1].kind == "noted"
    assert facts_of(bench.run)[-1].device_at is None


def test_an_answer_says_the_server_s_time(maker, bench):
    bench.tap("started", cautions_read=True)
    answer = send(maker, bench.run, "noted", {"text": "look"})
    told = timezone.datetime.fromisoformat(answer.headers["X-Soapbench-Now"])
    assert abs(timezone.now() - told) < timedelta(seconds=5)
