"""Writes tests/js/doubts.json: typed weights, and the questions that the server and the phone must both ask.

    python -m tests.bench.doubts

Each case: {"name", "entry": what static/js/bench/weighing.js is given, "expect": [{code, sentence, stops}]}.
"""

import json
from dataclasses import asdict
from pathlib import Path

from soapbench.science.doubts import entry_doubts

PATH = Path(__file__).parent.parent / "js" / "doubts.json"
TARES = {"Jug": 120.0, "Pot": 640.0}
OTHERS = {"Coconut": 300.0, "Palm": 305.5, "Nothing": 0.0}

# name: (entered, target, kind, what else it is held against)
CASES = {
    "as asked": (400.0, 400.0, "fat", {}),
    "at the edge of a fat's tolerance": (404.0, 400.0, "fat", {}),
    "just over a fat's tolerance": (404.1, 400.0, "fat", {}),
    "at the edge of an alkali's tolerance": (143.2, 142.5, "alkali", {}),
    "just over an alkali's tolerance": (143.3, 142.5, "alkali", {}),
    "at the edge of a colourant's tolerance": (4.2, 4.0, "colour", {}),
    "at the edge of a scent's tolerance": (13.5, 13.3, "scent", {}),
    "at the edge of the water's tolerance": (292.9, 287.2, "water", {}),
    "at the edge of an addition's tolerance": (10.2, 10.0, "addition", {}),
    "one step of a coarse scale": (5.0, 4.0, "colour", {"resolution_g": 1.0}),
    "nothing": (0.0, 400.0, "fat", {}),
    "ten times more": (4000.0, 400.0, "fat", {}),
    "ten times less": (40.0, 400.0, "fat", {}),
    "a hundred times more": (1330.0, 13.3, "scent", {}),
    "a hundred times less": (4.0, 400.0, "fat", {}),
    "ten times more alkali": (1425.0, 142.5, "alkali", {}),
    "ounces for grams": (14.1, 400.0, "fat", {}),
    "grams for ounces": (11340.0, 400.0, "fat", {}),
    "kilograms for grams": (0.4, 400.0, "fat", {}),
    "pounds for kilograms": (882.0, 400.0, "fat", {}),
    "ounces for pounds": (6400.0, 400.0, "fat", {}),
    "pounds for grams": (0.88, 400.0, "fat", {"resolution_g": 0.01}),
    "the jug weighed too": (520.0, 400.0, "fat", {"tares": TARES}),
    "the jug weighed too, two steps off": (520.2, 400.0, "fat", {"tares": TARES}),
    "three steps off the jug": (520.3, 400.0, "fat", {"tares": TARES}),
    "everything in the pot": (600.0, 400.0, "fat", {"running_total_g": 600.0}),
    "everything in the pot and this": (1000.0, 400.0, "fat", {"running_total_g": 600.0}),
    "an empty pot": (300.0, 400.0, "fat", {"running_total_g": 0.0}),
    "the pot with everything in it": (1640.0, 400.0, "fat", {"running_total_g": 600.0, "tares": TARES}),
    "a tolerance of its own": (404.1, 400.0, "fat", {"tolerance_g": 5.9}),
    "just over a tolerance of its own": (4000.0, 400.0, "fat", {"tolerance_g": 5.9}),
    "another row within the line's own tolerance": (304.0, 400.0, "fat", {"other_targets": OTHERS, "tolerance_g": 5.9}),
    "another row": (302.0, 400.0, "fat", {"other_targets": OTHERS}),
    "the second of two rows": (308.0, 400.0, "fat", {"other_targets": OTHERS}),
    "two digits swapped": (412.0, 421.0, "fat", {}),
    "two digits swapped over the mark": (142.5, 124.5, "alkali", {}),
    "a digit twice": (4421.0, 421.0, "fat", {}),
    "a decimal twice": (13.33, 13.3, "scent", {"resolution_g": 0.01}),
    "the other alkali": (199.9, 142.5, "alkali", {}),
    "the other alkali the other way": (101.6, 142.5, "alkali", {}),
    "a fat that weighs like the other alkali": (199.9, 142.5, "fat", {}),
    "far": (900.0, 400.0, "fat", {}),
    "far below": (150.0, 400.0, "fat", {}),
    "at the edge of far": (600.0, 400.0, "fat", {}),
    "far, of the alkali": (300.0, 142.5, "alkali", {}),
    "several at once": (3000.0, 300.0, "fat", {"tares": {"Crate": 2700.0}, "running_total_g": 3000.0}),
    "more than a thousand": (12345.6, 1234.5, "water", {}),
}


def case(name):
    entered, target, kind, more = CASES[name]
    against = {
        "resolution_g": 0.1,
        "tares": {},
        "running_total_g": None,
        "other_targets": {},
        "tolerance_g": None,
        **more,
    }
    doubts = entry_doubts(entered, target, kind=kind, **against)
    entry = {"entered_g": entered, "target_g": target, "kind": kind, **against}
    return {"name": name, "entry": entry, "expect": [asdict(doubt) for doubt in doubts]}


def document():
    return [case(name) for name in CASES]


if __name__ == "__main__":
    PATH.write_text(json.dumps(document(), indent=1, ensure_ascii=False) + "\n")
