"""What importing the science costs in a fresh interpreter: the package alone, all of it, and numpy for comparison.

    .venv/bin/python tests/benchmarks/science_import.py

Medians of some runs, in seconds of the processor; all of it is to stay under 0.25 s where numpy takes 0.1.
"""

import statistics
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
ROUNDS = 9
CASES = {
    "the package alone": "import soapbench.science",
    "what a formula needs": "import soapbench.science.superfat, soapbench.science.remedy, soapbench.science.doses",
    "numpy": "import numpy",
    "all of the science": "from soapbench.science.sources import everything; everything()",
}


def seconds(statement):
    """Return the median cost of a statement in a new process."""
    code = f"import time; began = time.process_time(); {statement}; print(time.process_time() - began)"
    run = [sys.executable, "-c", code]
    costs = [float(subprocess.run(run, check=True, capture_output=True, cwd=ROOT).stdout) for _ in range(ROUNDS)]
    return statistics.median(costs)


if __name__ == "__main__":
    found = {name: seconds(statement) for name, statement in CASES.items()}
    for name, cost in found.items():
        print(f"  {name:22} {cost:6.3f} s   ratio to numpy {cost / found['numpy']:.2f}")
