"""Who may have done or decided something at the bench: the people of the run's workshop."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from soapbench.bench.models import Run
from soapbench.bench.refusal import Refused
from soapbench.science.words import mark, say
from soapbench.workshop.models import Person

NAMED = {
    "by": mark("Nobody of that name works here. Choose who it was from the list."),
    "to": mark("Nobody of that name works here. Choose who takes it from the list."),
}


def others(run: Run, person: Person) -> list[str]:
    """Return the names of everybody else in the workshop, in the order of the alphabet."""
    people = Person.objects.filter(workshop=run.workshop_id, is_active=True).exclude(pk=person.pk)
    return sorted(each.name for each in people)


def check_people(run: Run, person: Person, payload: Mapping[str, Any]) -> None:
    """Refuse what is said of somebody who is not of this workshop.

    Raises:
        Refused: nobody here has that name.
    """
    for field, sentence in NAMED.items():
        name = payload.get(field)
        if name and name != person.name and name not in others(run, person):
            raise Refused(say(sentence), field)
