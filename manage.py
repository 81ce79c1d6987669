#!/usr/bin/env python3
"""Start soapbench and everything that belongs to it: python3 manage.py serve

Sets itself up on a machine that has nothing but Python. Every older Python 3 must be able to
read this file, so that it can say in one sentence that it is too old: hence the quoted types.
"""

import os
import sys

OLDEST_PYTHON = (3, 11)


def too_old(version: "tuple[int, ...]") -> str:
    """Return the sentence for a Python that is too old, or nothing."""
    if tuple(version[:2]) >= OLDEST_PYTHON:
        return ""
    here = ".".join(str(part) for part in version[:2])
    return (
        "soapbench needs Python 3.11 or newer, and this is Python " + here + ": "
        "install a newer one from your system's packages or from python.org, then start with that one."
    )


def run_django(argv: "list[str]") -> None:
    """Hand over to Django, once everything it needs is installed."""
    from django.core.management import execute_from_command_line

    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "soapbench.settings")
    execute_from_command_line(argv)


def main() -> int:
    """Return the exit code: 0 done, 1 one sentence says what is wrong."""
    sentence = too_old(tuple(sys.version_info[:2]))
    if sentence:
        sys.stderr.write(sentence + "\n")
        return 1
    from soapbench.bootstrap import start

    return start.run(sys.argv, run_django)


if __name__ == "__main__":
    sys.exit(main())
