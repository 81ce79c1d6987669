"""Make the environment and install into it; whatever this machine lacks for it is told in a sentence."""

import importlib.util
import os
import subprocess
import sys
from pathlib import Path

from soapbench.bootstrap import pip_words
from soapbench.bootstrap.places import ROOT, python_of
from soapbench.bootstrap.trouble import Trouble


def check_folder(folder: str) -> None:
    """Raise Trouble when nothing can be written there."""
    if not os.access(folder, os.W_OK):
        raise Trouble(
            f"soapbench may not write to {folder}, where it keeps what it needs: "
            "copy the folder to a place that your user may write to, such as your home folder."
        )


def check_modules() -> None:
    """Raise Trouble when this Python cannot make environments; Debian packs that apart."""
    for module in ("venv", "ensurepip"):
        if importlib.util.find_spec(module) is None:
            raise Trouble(
                f"This Python lacks its module {module}: on Debian or Ubuntu run "
                "'sudo apt install python3-venv', elsewhere install Python whole, then start again."
            )


def make(environment: str) -> None:
    """Make an empty environment, or leave one that works as it is."""
    if works(environment):
        return
    check_modules()
    command = [sys.executable, "-m", "venv", "--clear", environment]
    done = subprocess.run(command, capture_output=True, text=True)
    if done.returncode:
        words = (done.stderr or done.stdout).strip().splitlines() or ["no reason given"]
        raise Trouble(f"The environment in {environment} could not be made ({words[-1]}): remove it and start again.")


def works(environment: str) -> bool:
    """Return whether the environment's Python is there, with its pip, and new enough."""
    python = python_of(environment)
    if not os.path.exists(python):
        return False
    probe = "import pip, sys; sys.exit(sys.version_info < (3, 11))"
    return subprocess.run([python, "-c", probe], capture_output=True).returncode == 0


def packages(lock: str, environment: str) -> None:
    """Install exactly what the lock pins, each file checked against its hash.

    Ready-built packages only: building one would run code and fetch tools that nobody pinned.
    """
    command = [python_of(environment), "-m", "pip", "install", "--require-hashes", "--no-deps"]
    command += ["--only-binary=:all:", "--quiet", "--no-input", "--retries=2", "--disable-pip-version-check"]
    done = subprocess.run([*command, "--requirement", lock], capture_output=True, text=True)
    if done.returncode:
        log = Path(environment, "install.log")
        log.write_text(done.stdout + done.stderr)
        raise pip_words.trouble(done.stderr, log)


def compile_own_code(environment: str) -> None:
    """Compile our modules now, so that the second start need not even where Python may not write."""
    command = [python_of(environment), "-m", "compileall", "-q", os.path.join(ROOT, "soapbench")]
    subprocess.run(command, capture_output=True)
