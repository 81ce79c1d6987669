"""What manage.py does before Django can: the manual, the environment, the change of Python."""

import gc
import os
import sys
from collections.abc import Callable

from soapbench.bootstrap import environment
from soapbench.bootstrap.places import ENVIRONMENT, ROOT, inside, python_of
from soapbench.bootstrap.trouble import Trouble, of_the_system

Django = Callable[[list[str]], None]

HELP = ("-h", "--help", "help")
NEED_TEST_TOOLS = ("test", "gate")


def run(argv: list[str], django: Django) -> int:
    """Return the exit code: 0 done, 1 trouble that one sentence explains, 130 stopped by hand."""
    try:
        return _run(argv, django)
    except Trouble as trouble:
        return _say(str(trouble))
    except OSError as error:
        trouble_of_system = of_the_system(error)
        if trouble_of_system is None:
            raise
        return _say(str(trouble_of_system))
    except KeyboardInterrupt:
        sys.stderr.write("Stopped.\n")
        return 130


def _say(sentence: str) -> int:
    sys.stderr.write(sentence + "\n")
    return 1


def _run(argv: list[str], django: Django) -> int:
    words = argv[1:]
    if not words or words[0] in HELP or any(word in HELP[:2] for word in words):
        from soapbench.bootstrap import manual

        page = manual.page(words)
        if page is not None:
            sys.stdout.write(page)
            return 0
    environment.ensure(with_tests=bool(words) and words[0] in NEED_TEST_TOOLS)
    if not inside(ENVIRONMENT):
        return hand_over(argv)
    if words[:1] == ["serve"]:
        gc.disable()  # loading leaves next to no garbage, and looking for it takes a sixth of a start; serve enables it
    django(argv)
    return 0


def hand_over(argv: list[str]) -> int:
    """Go on in the environment's Python. Does not return, except on Windows, which has no exec worth the name."""
    python = python_of(ENVIRONMENT)
    command = [python, os.path.join(ROOT, "manage.py"), *argv[1:]]
    sys.stdout.flush()
    if os.name == "nt":
        import subprocess

        return subprocess.call(command)
    os.execv(python, command)
