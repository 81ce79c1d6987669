"""Remake the columns of the runs from their events."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from soapbench.bench.models import Run
from soapbench.bench.rebuild import rebuild


class Command(BaseCommand):
    help = (
        "Folds the events of every run anew and writes what follows into the run's own columns and into the lots that "
        "it used. The events and the plans are not touched. Run it after a new release that computes a state "
        "differently, or when a list and its run page disagree."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("codes", nargs="*", help="batch codes; without any, every run")

    def handle(self, *args: Any, **options: Any) -> None:
        runs = Run.objects.filter(code__in=options["codes"]) if options["codes"] else Run.objects.all()
        found = list(runs.order_by("made_at"))
        if options["codes"] and not found:
            raise CommandError("No run has that batch code.")
        changed = rebuild(found)
        self.stdout.write(f"{len(found)} runs folded anew, {changed} were out of step.")
