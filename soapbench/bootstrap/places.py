"""Where things are in the project folder."""

import os
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
ENVIRONMENT = ROOT / ".venv"
LOCK = ROOT / "requirements.lock"
TEST_LOCK = ROOT / "tests" / "requirements.lock"


def python_of(environment: Path) -> Path:
    """Return the environment's Python, whether it exists or not."""
    return environment / "Scripts" / "python.exe" if os.name == "nt" else environment / "bin" / "python"


def program_of(environment: Path, name: str) -> Path:
    """Return a program that a package put into the environment."""
    return python_of(environment).with_name(f"{name}.exe" if os.name == "nt" else name)


def inside(environment: Path) -> bool:
    """Return whether this very process runs in the environment."""
    return os.path.realpath(sys.prefix) == os.path.realpath(environment)
