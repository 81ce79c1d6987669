"""A small known world, built by the same functions as the demo.

Ada owns Kettlemoth Yard, Tobit helps there, Nolan owns another workshop and must see nothing of it.
"""

from dataclasses import dataclass

from soapbench.bars import demo
from soapbench.bars.models import Bar
from soapbench.shelf import reference
from soapbench.workshop.demo import take_on
from soapbench.workshop.models import Person, Workshop


@dataclass(frozen=True)
class World:
    workshop: Workshop
    owner: Person
    helper: Person
    stranger: Person
    bars: dict[str, Bar]  # by slug: ebb-line, doorstep, long-patience, byre-gate


def build():
    """Make the world in an empty database."""
    reference.load()
    workshop = demo.load()
    assert workshop
    elsewhere = Workshop.objects.create(
        name="Elsewhere", emergency_number="112", poison_centre_number="01 23 45", room_temperature_c=22
    )
    return World(
        workshop=workshop,
        owner=workshop.people.get(username="ada"),
        helper=workshop.people.get(username="tobit"),
        stranger=take_on(elsewhere, "nolan", "Nolan", "Farr", is_owner=True),
        bars={bar.slug: bar for bar in workshop.bars.all()},
    )
