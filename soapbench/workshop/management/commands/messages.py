"""Gather every message, keep the translations that fit, compile them."""

from __future__ import annotations

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser


class Command(BaseCommand):
    help = (
        "Gather every message of the app into soapbench/locale/, keep the translations that are there, and compile "
        "them. Run it after a change to a text, then translate what it counts as missing and run it again. "
        "Needs the test tools (Babel)."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--missing", action="store_true", help="print the messages that have no translation yet")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            from soapbench.workshop.management import catalogues
        except ImportError as error:
            raise CommandError(
                "Babel is missing. Install the test tools: python3 manage.py test makes them."
            ) from error
        for language in catalogues.LANGUAGES:
            for domain in catalogues.DOMAINS:
                catalogue = catalogues.renewed(language, domain)
                catalogues.write(catalogue, language, domain)
                missing = catalogues.missing(catalogue)
                self.stdout.write(f"{language}, {domain}: {len(catalogue)} messages, {len(missing)} not translated.")
                if options["missing"]:
                    self.stdout.write("\n".join(map(str, missing)))
