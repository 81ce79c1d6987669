"""Load the invented workshop; harmless to repeat."""

from django.core.management.base import BaseCommand

from soapbench.bars import demo
from soapbench.shelf import reference


class Command(BaseCommand):
    help = "Make a workshop of our own invention with people, equipment, lots and four bars. Repeating it is harmless."

    def handle(self, *args: object, verbosity: int, **options: object) -> None:
        reference.load()
        made = demo.load()
        if verbosity:
            self.stdout.write("The invented workshop is ready." if made else "The invented workshop is there already.")
