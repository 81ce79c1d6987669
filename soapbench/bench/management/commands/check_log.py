"""Check the chain of digests of every run."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from soapbench.bench.integrity import verify
from soapbench.bench.models import Run


class Command(BaseCommand):
    help = (
        "Works out the digest of every event again and compares it with the one that was stored, run by run. Names the "
        "first event of a run that does not fit, a photo or a voice note whose file is another one than the log says "
        "included, and ends with an error when there is one. Changes nothing."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("codes", nargs="*", help="batch codes; without any, every run")

    def handle(self, *args: Any, **options: Any) -> None:
        runs = Run.objects.filter(code__in=options["codes"]) if options["codes"] else Run.objects.all()
        found = list(runs.order_by("made_at"))
        if options["codes"] and not found:
            raise CommandError("No run has that batch code.")
        broken = [fault for run in found if (fault := verify(run))]
        for fault in broken:
            self.stdout.write(fault.sentence)
        if broken:
            raise CommandError(f"{len(broken)} of {len(found)} logs do not fit.")
        self.stdout.write(f"{len(found)} logs checked, every entry fits.")
