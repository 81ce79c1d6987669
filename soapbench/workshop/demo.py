"""The demo's workshop: people and equipment, all of our own invention."""

from __future__ import annotations

from datetime import date
from typing import Any

from soapbench.workshop.models import Person, Workshop

NAME = "Kettlemoth Yard"

# Key, name, step in g, grams carried; the brass weight of 200 g tries both.
SCALES = (("bench-scale", "Bench scale", 0.1, 6000), ("kitchen-scale", "Kitchen scale", 1, 5000))
# Key, name, use, material, volume in ml, grams empty.
VESSELS = (
    ("lye-jug", "Lye jug", "lye", "polypropylene", 1500, 148.2),
    ("lye-jug-large", "Large lye jug", "lye", "polypropylene", 3000, 231.6),
    ("steel-pot", "Steel pot", "pot", "steel", 5000, 842.0),
    ("blue-bucket", "Blue bucket", "pot", "hdpe", 8000, 391.5),
    ("cup-one", "Cup one", "cup", "polypropylene", 1000, 61.3),
    ("cup-two", "Cup two", "cup", "polypropylene", 1000, 61.9),
    ("cup-three", "Cup three", "cup", "polypropylene", 1000, 60.8),
    ("cup-four", "Cup four", "cup", "polypropylene", 600, 44.1),
)
MOULDS: tuple[dict[str, Any], ...] = (
    {"key": "long-loaf", "name": "Long loaf", "shape": "box", "length_mm": 240, "width_mm": 84, "height_mm": 80},
    {"key": "low-loaf", "name": "Low loaf", "shape": "box", "length_mm": 240, "width_mm": 84, "height_mm": 70},
    {"key": "slab", "name": "Slab", "shape": "slab", "length_mm": 300, "width_mm": 200, "height_mm": 45},
    {"key": "tube", "name": "Tube", "shape": "cylinder", "diameter_mm": 76, "height_mm": 260},
    {"key": "nine-cavities", "name": "Nine cavities", "shape": "cavities", "cavities": 9, "cavity_ml": 105},
)
# Key, name, kind, thickness in mm of what touches the batter.
TOOLS = (
    ("blender", "Stick blender", "blender", 0),
    ("spatula", "Spatula", "spatula", 0),
    ("thermometer", "Thermometer", "thermometer", 0),
    ("skewer", "Skewer", "skewer", 4),
    ("hanger", "Hanger", "hanger", 6),
    ("comb", "Comb", "comb", 3),
    ("spoon", "Spoon", "spoon", 30),
    ("dividers", "Dividers", "divider", 1),
    ("wire-cutter", "Wire cutter", "cutter", 1),
    ("oven", "Oven", "oven", 0),
)


def make_workshop() -> Workshop:
    """Make the invented workshop with its equipment."""
    workshop = Workshop.objects.create(
        name=NAME,
        is_invented=True,
        room_temperature_c=19,
        emergency_number="112, 911 or 999: know yours",
        poison_centre_number="look yours up now",
        hospital="",
    )
    for key, name, step, most in SCALES:
        workshop.scales.create(
            key=key, name=name, resolution_g=step, capacity_g=most, check_mass_g=200, check_name="the brass weight"
        )
    for key, name, use, material, volume, tare in VESSELS:
        workshop.vessels.create(key=key, name=name, use=use, material=material, volume_ml=volume, tare_g=tare)
    for columns in MOULDS:
        workshop.moulds.create(**columns)
    for key, name, kind, diameter in TOOLS:
        workshop.tools.create(key=key, name=name, kind=kind, diameter_mm=diameter)
    return workshop


def take_on(workshop: Workshop, username: str, first_name: str, last_name: str, *, is_owner: bool = False) -> Person:
    """Take a person on who has no password yet, and so comes in by the signed link."""
    person = Person(
        username=username,
        first_name=first_name,
        last_name=last_name,
        workshop=workshop,
        is_owner=is_owner,
        caustic_training_on=date(2026, 1, 12),
    )
    person.set_unusable_password()
    person.save()
    return person
