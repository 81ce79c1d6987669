"""The jug for the lye: what it is made of, how hot it may get, how full it may be."""

from __future__ import annotations

from dataclasses import dataclass

from soapbench.science.errors import OutOfRange, a_temperature, not_negative, positive
from soapbench.science.sources import FROM_MEMORY, OWN_CHOICE, Constant, Relation, Source

from .words import mark, say

MATERIALS = Source(
    "jug-materials",
    "What hot lye does to materials",
    "stainless steel resists (trade sheet for caustic soda), glass is etched (encyclopaedia), light metals give off "
    "hydrogen (safety sheets); plastics and all temperatures from memory",
    "from memory",
)


@dataclass(frozen=True, slots=True)
class Material:
    """A jug's material: specific heat in J/(g K), hottest lye in C (None: no lye at all), and why."""

    heat_capacity: float
    hottest_c: float | None
    why: str = ""


_ETCHED = mark("Lye etches glass, and a hot etched jug can break.")
_EATEN = mark("Lye eats this metal and gives off hydrogen, which burns.")
_ATTACKED = mark("Lye attacks this plastic.")
JUG_MATERIALS = {
    "polypropylene": Material(1.9, 120, mark("Polypropylene (code 5) stands hot lye.")),
    "HDPE": Material(1.9, 80, mark("HDPE (code 2) softens when the lye is hot.")),
    "stainless steel": Material(0.5, 100, mark("Stainless steel stands warm lye, not boiling lye.")),
    "silicone": Material(1.3, None, mark("Silicone is too soft to hold hot lye. Use it for spoons and moulds.")),
    "glass": Material(0.84, None, _ETCHED),
    "PET": Material(1.1, None, _ATTACKED),
    "polycarbonate": Material(1.2, None, _ATTACKED),
    "acrylic": Material(1.5, None, _ATTACKED),
    "polystyrene": Material(1.3, None, mark("Polystyrene softens with heat.")),
    "aluminium": Material(0.9, None, _EATEN),
    "zinc": Material(0.39, None, _EATEN),
    "tin": Material(0.23, None, _EATEN),
}
FULLEST = Constant(
    "Fullest jug",
    "",
    0.67,
    "ml/ml",
    OWN_CHOICE,
    "jug_check: room for foam, for stirring and for carrying",
    why="Foam, stirring and carrying need the rest.",
)


@dataclass(frozen=True, slots=True)
class JugCheck:
    """Whether the planned jug is right for the lye; stops says that it must not be used."""

    ok: bool
    stops: bool
    sentence: str


def material(name: str) -> Material:
    """Return a jug's material by name.

    Raises:
        OutOfRange: the material is not in the list.

    Source: see MATERIALS; temperatures from memory.
    """
    if name not in JUG_MATERIALS:
        raise OutOfRange(
            say("Nothing is known of lye in {name}. Use polypropylene (code 5) or stainless steel.", name=name)
        )
    return JUG_MATERIALS[name]


def heat_capacity_of(material_name: str) -> float:
    """Return the specific heat of a jug's material in J/(g K).

    Raises:
        OutOfRange: the material is not in the list.

    Source: from memory; the metals agree with the CRC Handbook.
    """
    return material(material_name).heat_capacity


def jug_check(material_name: str, jug_ml: float, lye_ml: float, hottest_c: float) -> JugCheck:
    """Return whether a jug of a material and a volume may take a lye that can reach a temperature.

    It must not be used when the material stands no lye or the lye is more than the jug; there is a warning when
    the jug gets more than two thirds full or hotter than its material likes.

    Raises:
        OutOfRange: the material is unknown, a volume is not above zero, or the temperature is none.

    Source: see MATERIALS; two thirds full is an own choice.
    """
    stuff = material(material_name)
    positive(jug_ml, "The jug", "ml")
    not_negative(lye_ml, "The lye", "ml")
    a_temperature(hottest_c, "The lye")
    if stuff.hottest_c is None:
        return JugCheck(
            False,
            True,
            say("Not in this jug. {why} Use polypropylene (code 5) or stainless steel.", why=say(stuff.why)),
        )
    if lye_ml > jug_ml:
        return JugCheck(
            False,
            True,
            say("The jug holds {jug:.0f} ml, the lye takes {lye:.0f} ml. Use a larger jug.", jug=jug_ml, lye=lye_ml),
        )
    if lye_ml > FULLEST.value * jug_ml:
        full = 100 * lye_ml / jug_ml
        return JugCheck(
            False, False, say("The jug gets {full:.0f} % full. Take one that stays two thirds full or less.", full=full)
        )
    if hottest_c > stuff.hottest_c:
        return JugCheck(
            False,
            False,
            say(
                "{why} The lye can reach {hottest:.0f} °C. Start with ice or take another jug.",
                why=say(stuff.why),
                hottest=hottest_c,
            ),
        )
    return JugCheck(True, False, say("The jug is large enough and stands this lye."))


CONSTANTS = (
    FULLEST,
    *(
        Constant(f"Specific heat of a jug of {name}", "c", stuff.heat_capacity, "J/(g K)", FROM_MEMORY, "heat balance")
        for name, stuff in JUG_MATERIALS.items()
    ),
    *(
        Constant(f"Hottest lye in {name}", "T", stuff.hottest_c, "C", MATERIALS, "jug_check")
        for name, stuff in JUG_MATERIALS.items()
        if stuff.hottest_c is not None
    ),
)
_HERE = "soapbench.science.jug."
RELATIONS = (
    Relation("Material of a jug", "table", "", MATERIALS, _HERE + "material"),
    Relation("Specific heat of a jug", "table", "J/(g K)", FROM_MEMORY, _HERE + "heat_capacity_of"),
    Relation("Right jug", "lye ≤ 2/3 of the jug; peak ≤ hottest", "ml, C", MATERIALS, _HERE + "jug_check"),
)
