"""The environment in .venv: is it as the locks say, and if not, make it so.

What was installed is remembered as a copy of the lock inside the environment, so that the
next start compares two files and asks neither pip nor the network.
"""

import importlib.util
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from soapbench.bootstrap import pip_words
from soapbench.bootstrap.places import ENVIRONMENT, LOCK, ROOT, TEST_LOCK, python_of
from soapbench.bootstrap.trouble import Trouble

Say = Callable[[str], object]


def stamp_of(lock: Path, environment: Path) -> Path:
    """Return where the copy of an installed lock is kept."""
    return environment / "installed" / ("tests.lock" if lock == TEST_LOCK else "app.lock")


def is_ready(lock: Path, environment: Path = ENVIRONMENT) -> bool:
    """Return whether the environment holds what the lock pins, under the Python it was made with."""
    try:
        same_lock = stamp_of(lock, environment).read_bytes() == lock.read_bytes()
        maker = (environment / "installed" / "python").read_text()
    except FileNotFoundError:
        return False
    return same_lock and maker == os.path.realpath(python_of(environment))


def ensure(*, with_tests: bool, say: Say = print, environment: Path = ENVIRONMENT) -> None:
    """Make the environment hold what is pinned. Quick, and off the network, when it does already.

    Raises:
        Trouble: something is missing on this machine; the sentence says what to do.
    """
    lock = TEST_LOCK if with_tests else LOCK
    if is_ready(lock, environment):
        return
    check_machine(environment.parent)
    say(f"Setting up in {environment.name}: this needs the network once, for a minute or two.")
    make(environment)
    install(lock, environment)
    compile_own_code(environment)
    remember(lock, environment)


def check_machine(folder: Path) -> None:
    """Raise Trouble when an environment cannot be made here."""
    if not os.access(folder, os.W_OK):
        raise Trouble(
            f"soapbench may not write to {folder}, where it keeps what it needs: "
            "copy the folder to a place that your user may write to, such as your home folder."
        )
    for module in ("venv", "ensurepip"):
        if importlib.util.find_spec(module) is None:
            raise Trouble(
                f"This Python lacks its module {module}: on Debian or Ubuntu run "
                "'sudo apt install python3-venv', elsewhere install Python whole, then start again."
            )


def make(environment: Path) -> None:
    """Make an empty environment, or leave one that works as it is."""
    if works(environment):
        return
    command = [sys.executable, "-m", "venv", "--clear", str(environment)]
    done = subprocess.run(command, capture_output=True, text=True)
    if done.returncode:
        words = (done.stderr or done.stdout).strip().splitlines() or ["no reason given"]
        raise Trouble(f"The environment in {environment} could not be made ({words[-1]}): remove it and start again.")


def works(environment: Path) -> bool:
    """Return whether the environment's Python is there, with its pip, and new enough."""
    python = python_of(environment)
    if not python.exists():
        return False
    probe = "import pip, sys; sys.exit(sys.version_info < (3, 11))"
    return subprocess.run([str(python), "-c", probe], capture_output=True).returncode == 0


def install(lock: Path, environment: Path) -> None:
    """Install exactly what the lock pins, each file checked against its hash.

    Ready-built packages only: building one would run code and fetch tools that nobody pinned.
    """
    command = [str(python_of(environment)), "-m", "pip", "install", "--require-hashes", "--no-deps"]
    command += ["--only-binary=:all:", "--quiet", "--no-input", "--retries=2", "--disable-pip-version-check"]
    done = subprocess.run([*command, "--requirement", str(lock)], capture_output=True, text=True)
    if done.returncode:
        log = environment / "install.log"
        log.write_text(done.stdout + done.stderr)
        raise pip_words.trouble(done.stderr, log)


def compile_own_code(environment: Path) -> None:
    """Compile our modules now, so that the second start need not even where Python may not write."""
    command = [str(python_of(environment)), "-m", "compileall", "-q", str(ROOT / "soapbench")]
    subprocess.run(command, capture_output=True)


def remember(lock: Path, environment: Path) -> None:
    """Keep a copy of what was installed. The tests' lock holds all of the app's as well."""
    (environment / "installed").mkdir(exist_ok=True)
    stamp_of(TEST_LOCK, environment).unlink(missing_ok=True)
    for kept in (LOCK, TEST_LOCK) if lock == TEST_LOCK else (LOCK,):
        stamp_of(kept, environment).write_bytes(kept.read_bytes())
    (environment / "installed" / "python").write_text(os.path.realpath(python_of(environment)))
