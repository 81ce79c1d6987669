"""Writes tests/js/potGaps.json: readings of the pot, and what the server and the phone must both make of them.

python -m tests.bench.pot_gaps
"""

import json
from pathlib import Path

from soapbench.science.pot import pot_check

PATH = Path(__file__).parent.parent / "js" / "potGaps.json"
PARTS = {"Olive": 400.0, "Coconut": 300.0, "Palm": 305.0, "Castor": 40.0}
TARE = 842.0

# name: (reading, tare)
CASES = {
    "as it should be": (1045.0, TARE),
    "at the edge of what is believed": (1048.1, TARE),
    "just over it": (1048.2, TARE),
    "without the olive": (645.0, TARE),
    "without the coconut": (744.8, TARE),
    "between coconut and palm": (742.2, TARE),
    "the castor twice": (1085.0, TARE),
    "light by nothing known": (945.0, TARE),
    "the pot not taken off": (1887.0, TARE),
    "heavy by a pot that nobody weighed": (1887.0, 0.0),
    "an empty scale": (0.0, TARE),
}


def case(name):
    read, tare = CASES[name]
    expected = sum(PARTS.values())
    found = pot_check(expected, read, len(PARTS), 0.1, PARTS, tare)
    return {
        "name": name,
        "given": [read, expected, {"allowed_g": found.allowed_g, "parts": list(PARTS.items())}, tare],
        "expect": {
            "gap": found.gap_g,
            "isOk": found.ok,
            "like": "tare" if "own weight" in found.sentence else found.suspect or "",
        },
    }


def document():
    return [case(name) for name in CASES]


if __name__ == "__main__":
    PATH.write_text(json.dumps(document(), indent=1, ensure_ascii=False) + "\n")
