"""Run the whole suite with pytest, in the place of Django's own test command."""

import subprocess
import sys

from django.core.management.base import BaseCommand

from soapbench.bootstrap import chromium
from soapbench.bootstrap.places import ROOT


class Command(BaseCommand):
    help = "Run every test, in a real browser too where there is one. Its manual: manage.py test --help"

    def run_from_argv(self, argv: list[str]) -> None:
        """Pass every word on to pytest as it is."""
        self.handle(pytest_words=argv[2:])

    def handle(self, *args: object, **options: object) -> None:
        words = options["pytest_words"]
        assert isinstance(words, list)
        chromium.find_or_install()
        sys.stdout.flush()
        sys.exit(subprocess.call([sys.executable, "-m", "pytest", *words], cwd=ROOT))
