"""Load the reference materials of fixtures/; harmless to repeat."""

from django.core.management.base import BaseCommand

from soapbench.shelf import reference


class Command(BaseCommand):
    help = "Load fats, alkalis, liquids, colours, scents and additions with their sources. Repeating it is harmless."

    def handle(self, *args: object, verbosity: int, **options: object) -> None:
        count = reference.load()
        if verbosity:
            self.stdout.write(f"{count} reference materials are on the shelf.")
