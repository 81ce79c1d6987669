"""Runs whose log was played by a hand of plain data: written at once, since the writer has its own tests."""

from soapbench.bench.integrity import digest_of
from soapbench.bench.models import Event
from soapbench.bench.planning.given import SizeAsked
from soapbench.bench.rebuild import rebuild
from soapbench.bench.start import start_run
from tests.bench.sample import START, Hand


def begin(bar, person, fats_g=1000.0):
    """Return a new run of a bar's latest revision and the hand that will play it."""
    run = start_run(bar.revisions.first(), SizeAsked("fats", fats_g), person, at=START)
    type(run).objects.filter(pk=run.pk).update(made_at=START)
    return run, Hand(run.plan)


def write(run, hand, person):
    """Write what the hand has played into the log of the run, digests and columns included."""
    previous = ""
    for fact in hand.facts:
        event = Event(
            id=unique(run, fact.id),
            run=run,
            position=fact.position,
            kind=fact.kind,
            prompt=fact.prompt,
            payload=own_words(run, fact.payload),
            happened_at=fact.happened_at,
            received_at=fact.received_at,
            device=fact.device,
            person=person,
            previous_digest=previous,
        )
        event.digest = previous = digest_of(event)
        event.save()
    rebuild([run])
    run.refresh_from_db()
    return run


def unique(run, id):
    """Return an id for this run alone: a hand numbers its events from one."""
    return f"{str(run.pk)[:8]}{id[8:]}"


def own_words(run, payload):
    return {**payload, "event": unique(run, payload["event"])} if "event" in payload else payload


def play(bar, person, until, fats_g=1000.0, **masses):
    """Return a run that was played as planned up to a prompt, which stays open; "" plays to the end."""
    run, hand = begin(bar, person, fats_g)
    hand.start().until(until, **masses)
    return write(run, hand, person)
