"""The environment in .venv: is it as the locks say, and if not, make it so.

What was installed is remembered as a copy of the lock inside the environment, so that the
next start compares two files and asks neither pip nor the network.
"""

import os
from collections.abc import Callable

from soapbench.bootstrap.places import ENVIRONMENT, LOCK, TEST_LOCK, python_of

Say = Callable[[str], object]


def stamp_of(lock: str, environment: str) -> str:
    """Return where the copy of an installed lock is kept."""
    return os.path.join(environment, "installed", "tests.lock" if lock == TEST_LOCK else "app.lock")


def python_stamp_of(environment: str) -> str:
    """Return where the place of the Python behind the environment is kept."""
    return os.path.join(environment, "installed", "python")


def is_ready(lock: str, environment: str = ENVIRONMENT) -> bool:
    """Return whether the environment holds what the lock pins, under the Python it was made with."""
    try:
        same_lock = content(stamp_of(lock, environment)) == content(lock)
        maker = content(python_stamp_of(environment)).decode()
    except FileNotFoundError:
        return False
    return same_lock and maker == os.path.realpath(python_of(environment))


def content(path: str) -> bytes:
    with open(path, "rb") as file:
        return file.read()


def ensure(*, with_tests: bool, say: Say = print, environment: str = ENVIRONMENT) -> None:
    """Make the environment hold what is pinned. Quick, and off the network, when it does already.

    Raises:
        Trouble: something is missing on this machine; the sentence says what to do.
    """
    lock = TEST_LOCK if with_tests else LOCK
    if is_ready(lock, environment):
        return
    from soapbench.bootstrap import install  # only now: what it imports would slow every later start

    folder, name = os.path.split(environment)
    install.check_folder(folder)
    say(f"Setting up in {name}: this needs the network once, for a minute or two.")
    install.make(environment)
    install.packages(lock, environment)
    install.compile_own_code(environment)
    remember(lock, environment)


def remember(lock: str, environment: str) -> None:
    """Keep a copy of what was installed. The tests' lock holds all of the app's as well."""
    stamps = {
        stamp_of(LOCK, environment): content(LOCK),
        stamp_of(TEST_LOCK, environment): content(TEST_LOCK) if lock == TEST_LOCK else b"",
        python_stamp_of(environment): os.path.realpath(python_of(environment)).encode(),
    }
    os.makedirs(os.path.join(environment, "installed"), exist_ok=True)
    for path, told in stamps.items():
        with open(path, "wb") as file:
            file.write(told)
