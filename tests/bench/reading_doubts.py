"""Writes tests/js/readings.json: temperatures, and the question that the server and the phone must both ask."""

import json
from pathlib import Path

from soapbench.science.cooling import Reading, reading_doubt

PATH = Path(__file__).parent.parent / "js" / "readings.json"
# name: (the pot's last reading or None, what is read now, the room)
CASES = {
    "the first": (None, 90.0, 20.0),
    "cooler than before": (60.0, 55.0, 20.0),
    "a little warmer than before": (60.0, 62.0, 20.0),
    "warmer than a pot left alone can be": (60.0, 62.1, 20.0),
    "a cold pot that warms up to its room": (8.0, 22.0, 20.0),
    "a cold pot that is warmer than its room": (8.0, 22.5, 20.0),
    "just under the room": (25.0, 17.0, 20.0),
    "far under the room": (25.0, 16.9, 20.0),
    "colder than a cold pot": (8.0, 4.0, 20.0),
    "the hottest that is believed": (None, 120.0, 20.0),
    "hotter than any lye": (None, 140.0, 20.0),
    "hotter than any lye, half a degree": (80.0, 140.5, 20.0),
}


def case(name):
    last, temp, room = CASES[name]
    before = [] if last is None else [Reading(0.0, last)]
    asked = reading_doubt(before, Reading(0.0, temp), room) or ""
    return {"name": name, "last": last, "temp": temp, "room": room, "expect": asked}


def document():
    return [case(name) for name in CASES]


def write():
    PATH.write_text(json.dumps(document(), indent=1, ensure_ascii=False) + "\n")


if __name__ == "__main__":
    write()
