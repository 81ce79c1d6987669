"""What the bench costs: an event, a plan, a fold, the pages at 10 and at 10 000 runs, the PDF.

Run it with the environment's Python, from anywhere:

    .venv/bin/python tests/benchmarks/bench_core.py [section ...]

Sections: append, plan, refit, pages, pdf; all of them without a name. It works on a database file of its own, with
the app's settings, and removes it. Times are medians; an event is compared with a bare Django view that inserts one
row, a fold with an empty request, both through Django's test client without middleware, so that the machine falls out.
"""

import os
import statistics
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
os.environ["DJANGO_SETTINGS_MODULE"] = "tests.settings"  # the app's, in a data folder that goes when the process ends
sys.path.insert(0, str(ROOT))

import django  # noqa: E402

django.setup()

from django.core.management import call_command  # noqa: E402
from django.db import connection  # noqa: E402
from django.http import HttpResponse, JsonResponse  # noqa: E402
from django.test import Client, override_settings  # noqa: E402
from django.test.utils import CaptureQueriesContext  # noqa: E402
from django.urls import NoReverseMatch, path, reverse  # noqa: E402
from django.utils import timezone  # noqa: E402

from soapbench.bars import demo  # noqa: E402
from soapbench.bars.models import Bar  # noqa: E402
from soapbench.bench.cooling_screen import cooling_screen  # noqa: E402
from soapbench.bench.events import append, facts_of  # noqa: E402
from soapbench.bench.folding import cooling as pots  # noqa: E402
from soapbench.bench.ids import new_id  # noqa: E402
from soapbench.bench.models import Run  # noqa: E402
from soapbench.bench.planning.given import SizeAsked  # noqa: E402
from soapbench.bench.run import fold  # noqa: E402
from soapbench.bench.start import start_run  # noqa: E402
from soapbench.shelf import reference  # noqa: E402
from soapbench.shelf.models import Material  # noqa: E402
from soapbench.workshop.models import Person  # noqa: E402
from tests.bench.conftest import Bench, filled_shelf, revision_of, workshop_named  # noqa: E402
from tests.bench.sample import SWIRLED, Hand, plan_of  # noqa: E402

ROUNDS = 60
MANY = 10_000


def main(sections):
    try:
        call_command("migrate", verbosity=0)
        world = World()
        for name in sections or SECTIONS:
            print(f"\n{name}")
            SECTIONS[name](world)
    finally:
        connection.close()


class World:
    """One invented workshop with one run that was played to its end, and one that has just begun."""

    def __init__(self):
        self.workshop = workshop_named("Invented Works", emergency_number="000", poison_centre_number="001")
        self.ada = Person.objects.create_user("noor", password="x", workshop=self.workshop, is_owner=True)
        filled_shelf(self.workshop)
        self.revision = revision_of(self.workshop)
        self.done = self.played("")
        self.open = self.played("cool")

    def played(self, until):
        run = start_run(self.revision, SizeAsked("fats", 1000.0), self.ada)
        hand = Hand(run.plan).start().until(until)
        bench = Bench(run, self.ada)
        for fact in hand.facts:
            bench.tap(fact.kind, fact.prompt, **fact.payload)
        return run

    def signed_in(self):
        client = Client()
        client.force_login(self.ada)
        return client


def median_ms(act, rounds=ROUNDS):
    return 1000 * statistics.median(seconds(act) for _ in range(rounds))


def seconds(act):
    began = time.perf_counter()
    act()
    return time.perf_counter() - began


def bare(request):
    """Insert one row, as the plainest view would."""
    Material.objects.create(key=f"m-{new_id()}", kind="addition", name="Row")
    return HttpResponse("ok")


def append_one(request):
    """Append one remark to the log through the only writer."""
    run = Run.objects.filter(status="bench").earliest("made_at")
    answer = append(
        run, id=new_id(), kind="noted", prompt="", payload={"text": "All well."}, happened_at=timezone.now(),
        device="phone", by=Person.objects.get(username="noor"),
    )  # fmt: skip
    return JsonResponse({"position": answer.event.position})


def empty(request):
    """Answer nothing."""
    return HttpResponse()


urlpatterns = [path("bare/", bare), path("append/", append_one), path("empty/", empty)]


def time_append(world):
    with override_settings(ROOT_URLCONF=sys.modules[__name__], MIDDLEWARE=[], ALLOWED_HOSTS=["testserver"]):
        client, times = Client(), {"/bare/": [], "/append/": []}
        for _ in range(ROUNDS):
            for address, found in times.items():
                found.append(seconds(lambda address=address: client.post(address)))
    plain, ours = (1000 * statistics.median(times[address]) for address in ("/bare/", "/append/"))
    events = world.open.events.count()
    print(f"  a bare view that inserts one row   {plain:8.2f} ms")
    print(f"  one event on a run of {events:3} events   {ours:8.2f} ms   ratio {ours / plain:.1f}")


def time_plan(world):
    plan, facts = world.done.plan, facts_of(world.done)
    print(f"  make a plan of {len(plan.prompts)} prompts         {median_ms(lambda: plan_of(SWIRLED)):8.2f} ms")
    print(f"  read a frozen plan                 {median_ms(lambda: world.done.plan):8.2f} ms")
    print(f"  fold {len(facts):3} events                    {median_ms(lambda: fold(plan, facts)):8.2f} ms")


def time_refit(world):
    """Fold a whole run of the demo's longest bar anew and fit both pots, against one empty request."""
    reference.load()
    demo.load()
    bar = Bar.objects.get(slug="ebb-line")
    run = start_run(bar.revisions.first(), SizeAsked("mould"), bar.workshop.people.get(is_owner=True))
    plan, hand = run.plan, Hand(run.plan).start().until("cool")
    for minutes, lye, fats in ((0, 86, 46), (6, 74, 44), (12, 65, 43), (18, 58, 42), (24, 52, 41)):
        hand.wait(minutes=6 if minutes else 0)
        hand.tap("read", "cool", pot="lye", temp_c=lye)
        hand.tap("read", "cool", pot="fats", temp_c=fats)
    facts = tuple(hand.facts)
    cooling_screen(plan, fold(plan, facts))  # numpy is imported at the first fit
    with override_settings(ROOT_URLCONF=sys.modules[__name__], MIDDLEWARE=[], ALLOWED_HOSTS=["testserver"]):
        client = Client()
        empty = median_ms(lambda: client.get("/empty/"))
    folded = median_ms(lambda: fold(plan, facts))  # the fit is kept from the first time

    def anew():
        pots._fitted.cache_clear()
        pots._curve.cache_clear()
        cooling_screen(plan, fold(plan, facts))

    fitted = median_ms(anew, rounds=15)
    print(f"  an empty request                   {empty:8.2f} ms")
    size = f"fold {len(facts)} events, {len(plan.prompts)} prompts"
    print(f"  {size:34} {folded:8.2f} ms   ratio {folded / empty:.1f}")
    print(f"  the same and fit both pots         {fitted:8.2f} ms   ratio {fitted / empty:.1f}")


def count_pages(world):
    client = world.signed_in()
    pages = {
        "bench": ("bench:home", ()),
        "run": ("bench:run", (world.open.pk,)),
        "rack": ("rack:home", ()),
        "logbook": ("logbook:home", ()),
        "record": ("logbook:record", (world.done.pk,)),
        "shelf": ("shelf:home", ()),
    }
    few = {name: asked(client, *page) for name, page in pages.items()}
    make_many(world)
    for name, page in pages.items():
        more = asked(client, *page)
        if few[name] is None or more is None:
            print(f"  {name:8} is not there")
            continue
        print(f"  {name:8} {few[name][0]:3} queries at a few runs, {more[0]:3} at {MANY}   {more[1]:8.1f} ms")


def asked(client, name, parts):
    """Return the number of queries of a page and its milliseconds, or None when there is no such page."""
    try:
        address = reverse(name, args=parts)
    except NoReverseMatch:
        return None
    host = {"headers": {"host": "localhost"}}
    client.get(address, **host)
    with CaptureQueriesContext(connection) as queries:
        answer = client.get(address, **host)
    if answer.status_code != 200:
        return None
    return len(queries), median_ms(lambda: client.get(address, **host), rounds=5)


def make_many(world):
    """Put 10 000 runs beside the first, ended ones; their events are those of no interest to a list."""
    row = Run.objects.filter(pk=world.done.pk).values().get()
    kept = {name: value for name, value in row.items() if name not in ("id", "code")}
    runs = [Run(code=f"old-{number}", **kept) for number in range(MANY)]
    Run.objects.bulk_create(runs, batch_size=500)


def time_pdf(world):
    client = world.signed_in()
    found = asked(client, "logbook:pdf", (world.done.pk,))
    print("  the record's PDF is not there" if found is None else f"  the record as PDF {found[1]:8.1f} ms")


SECTIONS = {"append": time_append, "plan": time_plan, "refit": time_refit, "pages": count_pages, "pdf": time_pdf}

if __name__ == "__main__":
    unknown = [name for name in sys.argv[1:] if name not in SECTIONS]
    if unknown:
        sys.exit(f"No such section: {', '.join(unknown)}. There are {', '.join(SECTIONS)}.")
    main(sys.argv[1:])
