"""One invented workshop with a bar, its materials and lots in the database."""

from datetime import timedelta

import pytest
from django.utils import timezone

from soapbench.bars.formula import to_document
from soapbench.bars.models import Bar, Revision
from soapbench.bench.events import append
from soapbench.bench.ids import new_id
from soapbench.bench.planning.given import SizeAsked
from soapbench.bench.start import start_run
from soapbench.shelf.models import Lot, Material
from soapbench.workshop.models import Mould, Person, Scale, Tool, Vessel, Workshop
from tests.bench.sample import FACTS, STAND_INS, SWIRLED, Hand


def workshop_named(name, **numbers):
    workshop = Workshop.objects.create(name=name, is_invented=True, **numbers)
    Scale.objects.create(workshop=workshop, key="bench-scale", name="Bench scale", resolution_g=0.1, capacity_g=5000)
    Mould.objects.create(
        workshop=workshop, key="loaf", name="Loaf", shape="box", length_mm=300, width_mm=80, height_mm=80
    )
    Vessel.objects.create(
        workshop=workshop, key="jug", name="Jug", use="lye", material="polypropylene", volume_ml=2000, tare_g=120
    )
    Tool.objects.create(workshop=workshop, key="skewer", name="Skewer", kind="skewer")
    Tool.objects.create(workshop=workshop, key="wire", name="Wire cutter", kind="cutter")
    return workshop


def material(fact):
    return Material.objects.create(
        key=fact.key,
        name=fact.name,
        kind=fact.kind,
        fat_kind=fact.fat_kind if fact.kind == "fat" else "",
        state=fact.state,
        sv_low=fact.sv_low or None,
        sv_high=fact.sv_high or None,
        takes_koh_mg_per_g=fact.takes_koh_mg_per_g,
        water_fraction=fact.water_fraction,
        limit_percent=fact.limit_percent,
        limit_source="invented paper" if fact.limit_percent else "",
        working_minutes=fact.working_minutes,
    )


@pytest.fixture
def workshop(db):
    return workshop_named("Invented Works", emergency_number="000", poison_centre_number="001")


def filled_shelf(workshop):
    """Put the sample's materials on the shelf, the fats and the alkali with a lot each; returns them by key."""
    rows = {key: material(fact) for key, fact in {**FACTS, **STAND_INS}.items()}
    for key in ("olive", "coconut", "palm", "sodium_hydroxide", "lard"):
        Lot.objects.create(workshop=workshop, material=rows[key], code=f"{key[:2].upper()}-1", received_g=9000)
    return rows


def revision_of(workshop):
    """Return the first revision of an invented bar."""
    bar = Bar.objects.create(workshop=workshop, slug="winter-lane", name="Winter Lane", is_invented=True)
    return Revision.objects.create(bar=bar, number=1, document=to_document(SWIRLED))


@pytest.fixture
def shelf(workshop):
    return filled_shelf(workshop)


@pytest.fixture
def ada(workshop):
    return Person.objects.create_user("ada", password="x", workshop=workshop, first_name="Ada")


@pytest.fixture
def revision(workshop, shelf):
    return revision_of(workshop)


@pytest.fixture
def run(revision, ada):
    return start_run(revision, SizeAsked("fats", 1000.0), ada)


class Bench:
    """Taps events into the log of one run through the only writer."""

    def __init__(self, run, person):
        self.run, self.person, self.now = run, person, timezone.now()

    def tap(self, kind, prompt="", *, id=None, at=None, device="phone", run=None, by=None, seen=None, **payload):
        self.now += timedelta(seconds=1)
        return append(
            run or self.run,
            id=id or new_id(),
            kind=kind,
            prompt=prompt,
            payload=payload,
            happened_at=at or self.now,
            device=device,
            by=by or self.person,
            seen=seen,
        )

    def play(self, facts):
        """Append what a hand of plain data has played; returns the last answer."""
        answer = None
        for fact in facts:
            self.now = max(self.now, timezone.now())
            answer = append(
                self.run,
                id=fact.id,
                kind=fact.kind,
                prompt=fact.prompt,
                payload=fact.payload,
                happened_at=self.now,
                device="phone",
                by=self.person,
            )
        return answer


@pytest.fixture
def bench(run, ada):
    return Bench(run, ada)


@pytest.fixture
def weighing(bench):
    """A run whose gear is ticked and whose fats are weighed as planned, before the lye."""
    hand = Hand(bench.run.plan).start().until("weigh:water")
    bench.play(hand.facts)
    return bench


@pytest.fixture
def maker(client, ada):
    """A browser in which the maker of the run is signed in."""
    client.force_login(ada)
    return client


@pytest.fixture
def begun(bench):
    """A run that has begun and stands at its first prompt."""
    bench.tap("started", cautions_read=True)
    return bench.run


@pytest.fixture
def stranger(db):
    """Somebody of another workshop."""
    elsewhere = workshop_named("Elsewhere", emergency_number="112", poison_centre_number="01 23 45")
    return Person.objects.create_user("nolan", password="x", workshop=elsewhere, first_name="Nolan")
