"""Where things are in the project folder.

Plain strings: every start passes here twice, and pathlib alone would add five milliseconds.
"""

import os
import sys

ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
ENVIRONMENT = os.path.join(ROOT, ".venv")
LOCK = os.path.join(ROOT, "requirements.lock")
TEST_LOCK = os.path.join(ROOT, "tests", "requirements.lock")


def python_of(environment: str) -> str:
    """Return the environment's Python, whether it exists or not."""
    return os.path.join(environment, *(("Scripts", "python.exe") if os.name == "nt" else ("bin", "python")))


def inside(environment: str) -> bool:
    """Return whether this very process runs in the environment."""
    return os.path.realpath(sys.prefix) == os.path.realpath(environment)
