"""Run every check that a change must pass."""

import sys
from argparse import ArgumentParser

from django.core.management.base import BaseCommand

from soapbench.bootstrap import gate, manual


class Command(BaseCommand):
    help = "Run every check that a change must pass. Its manual: manage.py gate --help"
    requires_system_checks = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        manual.add_gate_arguments(parser)

    def handle(self, *args: object, keep_going: bool, no_tests: bool, **options: object) -> None:
        outcome = gate.run(gate.checks(with_tests=not no_tests), keep_going=keep_going, say=self.say)
        for check in outcome.skipped:
            self.say(f"Skipped {check.name}: {check.skipped}.")
        if outcome.failed:
            self.say(f"The gate is shut: {', '.join(outcome.failed)} failed.")
            sys.exit(1)
        self.say("The gate is open: every check passed.")

    def say(self, line: str) -> None:
        self.stdout.write(line)
        self.stdout.flush()
