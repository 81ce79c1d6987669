"""What a lye is like at rest: density, heat capacity, boiling point, how much dissolves."""

from __future__ import annotations

import math
from typing import Literal

from soapbench.science.arithmetic import interpolate, polynomial
from soapbench.science.errors import OutOfRange, a_temperature, chosen, number
from soapbench.science.sources import Constant, Relation, Source, Table

from .words import say

Solute = Literal["NaOH", "KOH"]

OLSSON = Source(
    "olsson-1997",
    "J. Olsson, A. Jernqvist, G. Aly, Thermophysical Properties of Aqueous NaOH-H2O Solutions at High Concentrations",
    "Int. J. Thermophysics 18(3), 1997; coefficients by way of public Python code of D. Hoeffner",
    "published",
)
LALIBERTE = Source(
    "laliberte-2009",
    "M. Laliberte, A Model for Calculating the Heat Capacity of Aqueous Solutions, with Updated Density Data",
    "J. Chem. Eng. Data 54, 1725-1760, 2009; KOH fitted up to 0.519 (density) and 0.465 (heat capacity)",
    "published",
)
TWO_CORRELATIONS = Source(
    "lye-heat-capacity",
    "Heat capacity of lyes, tabulated from two correlations",
    "NaOH: mean of Olsson 1997 and Laliberte 2009 from 20 % up, Laliberte below; KOH: Laliberte; within 2 %",
    "computed",
)
SOLUBILITY = Source(
    "solubility-tables",
    "Solubility of solid inorganic compounds in water, Polish physics tables, table 04-26",
    "rows at 0, 20, 40, 50, 60 and 100 C; the rows at 10 and 30 C (and KOH at 40 C) are from memory",
    "published",
)
KELL = Source(
    "kell-1975",
    "G. S. Kell, Density, Thermal Expansivity, and Compressibility of Liquid Water",
    "J. Chem. Eng. Data 20, 97-105, 1975; the form that Laliberte 2009 uses",
    "published",
)
CRC = Source("crc", "CRC Handbook of Chemistry and Physics", "as carried in the Python package chemicals", "published")

STRONGEST = Constant("Strongest lye in use", "w", 0.50, "g/g", SOLUBILITY, "concentration: stays dissolved at 20 C")
HOTTEST = Constant("Hottest lye for which density is computed", "T", 110.0, "C", OLSSON, "density_g_per_ml")
AIR_PRESSURE = Constant("Standard air pressure", "p", 101.325, "kPa", CRC, "boiling_point_c")

# Olsson 1997. Density in kg/m3: b1 + b2 T + b3 T2, each a polynomial in the square root of the water fraction.
B1 = (5007.2279636, -25131.164248, 74107.692582, -104657.48684, 69821.773186, -18145.911810)
B2 = (-64.786269079, 525.34360564, -1608.4471903, 2350.9753235, -1660.9035108, 457.6437435)
B3 = (0.24436776978, -1.9737722344, 6.04601497138, -8.9090614947, 6.37146769397, -1.7816083111)
# Vapour pressure in kPa: exp((a1 + a2 T)/(T - a3)), each a polynomial in the logarithm of the water fraction.
A1 = (
    *(-113.93947, 209.82305, 494.77153, 6860.8330, 2676.6433),
    *(-21740.328, -34750.872, -20122.157, -4102.9890),
)
A2 = (
    *(16.240074, -11.864008, -223.47305, -1650.3997, -5997.3118, -12318.744),
    *(-15303.153, -11707.480, -5364.9554, -1338.5412, -137.96889),
)
A3 = (
    *(-226.80157, 293.17155, 5081.8791, 36752.126, 131262.00, 259399.54),
    *(301696.22, 208617.90, 81774.024, 15648.526, 906.29769),
)
# Enthalpy in kJ/kg: c1 + c2 T + c3 T2 + c4 T3 in the water fraction; c1 is a ratio of two polynomials.
C1_TOP = (1288.4485, -4387.8908, 4938.2298, -1841.1890)
C1_BOTTOM = (1.0, -0.49649131, -4.0915144, 7.2887292, -3.0202651)
C2 = (2.3087919, -9.0004252, 167.59914, -1051.6368, 3394.3378, -6115.0986, 6220.8249, -3348.8098, 743.87432)
C3 = (0.02302860, -0.37866056, 2.4529593, -8.2693542, 15.728833, -16.944427, 9.6254192, -2.2410628)
C4 = (
    *(-8.5131313e-5, 136.52823e-5, -875.68741e-5, 2920.0398e-5),
    *(-5488.2983e-5, 5841.8034e-5, -3278.7483e-5, 754.45993e-5),
)
# Laliberte 2009, apparent density of KOH in water.
KOH_C0, KOH_C1, KOH_C2, KOH_C3, KOH_C4 = 821.119043, 1043.201734, 0.11287333, 0.00124023636, 539.630389

# Kell 1975, water at 1 atm, kg/m3, as Laliberte takes it.
WATER_TOP = (999.83952, 16.945176, -0.0079870401, -4.6170461e-5, 1.0556302e-7, -2.8054253e-10)
WATER_BOTTOM = 0.01687985

# kJ/(kg K) at 25 and 60 C by mass fraction; the first row is water.
HEAT_CAPACITY: dict[Solute, tuple[tuple[float, float, float], ...]] = {
    "NaOH": (
        *((0.0, 4.18, 4.18), (0.05, 3.94, 3.99), (0.10, 3.79, 3.86), (0.15, 3.69, 3.77), (0.20, 3.66, 3.70)),
        *((0.25, 3.61, 3.65), (0.28, 3.59, 3.62), (0.30, 3.57, 3.61), (0.33, 3.55, 3.58), (0.35, 3.53, 3.56)),
        *((0.38, 3.50, 3.52), (0.40, 3.47, 3.49), (0.45, 3.40, 3.42), (0.50, 3.32, 3.33)),
    ),
    "KOH": (
        *((0.0, 4.18, 4.18), (0.05, 3.893, 3.930), (0.10, 3.653, 3.709), (0.15, 3.448, 3.511), (0.20, 3.269, 3.332)),
        *((0.25, 3.110, 3.170), (0.28, 3.023, 3.080), (0.30, 2.968, 3.023), (0.33, 2.890, 2.941), (0.35, 2.841, 2.889)),
        *((0.38, 2.771, 2.815), (0.40, 2.727, 2.768), (0.45, 2.626, 2.661)),
    ),
}
# C and mass fraction of the saturated solution.
SATURATED: dict[Solute, tuple[tuple[float, float], ...]] = {
    "NaOH": ((0, 0.296), (10, 0.340), (20, 0.522), (30, 0.543), (40, 0.563), (60, 0.635)),
    "KOH": ((0, 0.492), (10, 0.507), (20, 0.528), (30, 0.558), (40, 0.573), (50, 0.583), (100, 0.640)),
}


def density_g_per_ml(solute: Solute, w: float, temperature_c: float = 25) -> float:
    """Return the density of a lye in g/ml.

    Args:
        solute: "NaOH" or "KOH".
        w: mass of pure alkali by mass of lye, 0 to 0.50.
        temperature_c: 0 to 110 C.

    Raises:
        OutOfRange: the lye is stronger than 50 %, colder or hotter than that, or an unknown alkali.

    Source: NaOH: Olsson 1997, within 0.2 % of printed tables. KOH: Laliberte 2009, within 0.2 %.
    """
    check_solute(solute)
    check_strength(w)
    check_temperature(temperature_c)
    if solute == "KOH":
        return _koh_density(w, temperature_c)
    root = math.sqrt(1 - w)
    b1, b2, b3 = (polynomial(b, root) for b in (B1, B2, B3))
    return (b1 + b2 * temperature_c + b3 * temperature_c**2) / 1000


def heat_capacity(solute: Solute, w: float, temperature_c: float = 25) -> float:
    """Return the specific heat of a lye in kJ/(kg K), which is also J/(g K).

    Linear between tabulated strengths and between 25 and 60 C; held constant outside those temperatures.
    For KOH above 45 % the last row is carried on. Within 2 %.

    Raises:
        OutOfRange: the lye is stronger than 50 %, the temperature is outside 0 to 110 C, or an unknown alkali.

    Source: Olsson 1997 and Laliberte 2009.
    """
    check_solute(solute)
    check_strength(w)
    check_temperature(temperature_c)
    rows = HEAT_CAPACITY[solute]
    cool = interpolate(w, [(row[0], row[1]) for row in rows])
    warm = interpolate(w, [(row[0], row[2]) for row in rows])
    return interpolate(temperature_c, ((25, cool), (60, warm)))


def solubility_limit(solute: Solute, temperature_c: float) -> float:
    """Return the mass fraction of alkali in the saturated lye at a temperature; linear between table rows.

    Below about 16 C a strong NaOH lye drops a hydrate, hence the steep step between 10 and 20 C.

    Raises:
        OutOfRange: the temperature is below 0 C, or an unknown alkali.

    Source: Polish physics tables, table 04-26; some rows from memory.
    """
    check_solute(solute)
    if number(temperature_c, "The temperature") < 0:
        raise OutOfRange(say("Below 0 °C there is no figure for how much alkali dissolves. Let it warm up first."))
    return interpolate(temperature_c, SATURATED[solute])


def boiling_point_c(w: float) -> float:
    """Return the temperature in C at which a NaOH lye boils at standard air pressure.

    Solved by bisection; within 1.5 K. No such figure was found for KOH.

    Raises:
        OutOfRange: the lye is stronger than 50 %.

    Source: the vapour pressure of Olsson 1997.
    """
    check_strength(w)
    low, high = 95.0, 160.0
    for _ in range(50):
        middle = (low + high) / 2
        low, high = (middle, high) if vapour_pressure_kpa(w, middle) < AIR_PRESSURE.value else (low, middle)
    return (low + high) / 2


def vapour_pressure_kpa(w: float, temperature_c: float) -> float:
    """Return the vapour pressure of water over a NaOH lye in kPa, within 3 %.

    Raises:
        OutOfRange: the lye is stronger than 50 %, or the temperature is outside -80 to 400 C.

    Source: Olsson 1997.
    """
    check_strength(w)
    a_temperature(temperature_c)
    a1, a2, a3 = (polynomial(a, math.log(1 - w)) for a in (A1, A2, A3))
    return math.exp((a1 + a2 * temperature_c) / (temperature_c - a3))


def enthalpy_kj_per_kg(w: float, temperature_c: float) -> float:
    """Return the enthalpy of a NaOH lye in kJ/kg, pure water at 0 C being zero.

    Raises:
        OutOfRange: the lye is stronger than 50 %, or the temperature is outside -80 to 400 C.

    Source: Olsson 1997.
    """
    check_strength(w)
    a_temperature(temperature_c)
    water = 1 - w
    c1 = polynomial(C1_TOP, water) / polynomial(C1_BOTTOM, water)
    return polynomial((c1, *(polynomial(c, water) for c in (C2, C3, C4))), temperature_c)


def check_solute(solute: str) -> None:
    """Raise OutOfRange unless it is one of the two alkalis for soap."""
    chosen(solute, SATURATED, "an alkali for soap")


def check_strength(w: float) -> None:
    """Raise OutOfRange unless the mass fraction is from 0 to 0.50."""
    if number(w, "The strength of the lye") < 0:
        raise OutOfRange(say("A lye cannot hold less than no alkali. Look at the weights again."))
    if w > STRONGEST.value + 1e-9:
        raise OutOfRange(
            say(
                "A lye of {w:.3g} % is too strong: more alkali than water does not stay dissolved. Add water.",
                w=100 * w,
            )
        )


def check_temperature(temperature_c: float) -> None:
    """Raise OutOfRange unless the temperature is one that a lye can have in an open jug."""
    if not 0 <= number(temperature_c, "The temperature") <= HOTTEST.value:
        raise OutOfRange(
            say(
                "{temperature:g} °C cannot be the temperature of a lye in a jug. Is the thermometer set to °C?",
                temperature=temperature_c,
            )
        )


def _koh_density(w: float, t: float) -> float:
    shift = (t + KOH_C4) ** 2
    apparent = (KOH_C0 * w + KOH_C1) * math.exp(1e-6 * shift) / (w + KOH_C2 + KOH_C3 * t)
    return 1 / ((1 - w) / _water_density(t) + w / apparent) / 1000


def _water_density(t: float) -> float:
    return polynomial(WATER_TOP, t) / (1 + WATER_BOTTOM * t)


_DEGREES = ("polynomial", "x⁰", "x¹", "x²", "x³", "x⁴", "x⁵", "x⁶", "x⁷", "x⁸", "x⁹", "x¹⁰")
CONSTANTS = (STRONGEST, HOTTEST, AIR_PRESSURE)
TABLES = (
    Table("Density of NaOH lyes, b1 to b3 in √water fraction", _DEGREES[:7],
          (("b1", *B1), ("b2", *B2), ("b3", *B3)), OLSSON, "density_g_per_ml, kg/m³"),
    Table("Vapour pressure of NaOH lyes, a1 to a3 in ln water fraction", _DEGREES,
          (("a1", *A1), ("a2", *A2), ("a3", *A3)), OLSSON, "vapour_pressure_kpa"),
    Table("Enthalpy of NaOH lyes, c1 to c4 in the water fraction", _DEGREES[:10],
          (("c1, top", *C1_TOP), ("c1, bottom", *C1_BOTTOM), ("c2", *C2), ("c3", *C3), ("c4", *C4)),
          OLSSON, "enthalpy_kj_per_kg, kJ/kg"),
    Table("Apparent density of KOH in water", ("c0", "c1", "c2", "c3", "c4"),
          ((KOH_C0, KOH_C1, KOH_C2, KOH_C3, KOH_C4),), LALIBERTE, "density_g_per_ml"),
    Table("Density of water", _DEGREES[:7],
          (("top", *WATER_TOP), ("bottom", 1.0, WATER_BOTTOM)), KELL, "density_g_per_ml for KOH, kg/m³"),
    *(
        Table(f"Heat capacity of {solute} lyes, kJ/(kg K)", ("g/g", "25 °C", "60 °C"), HEAT_CAPACITY[solute],
              TWO_CORRELATIONS, "heat_capacity")
        for solute in HEAT_CAPACITY
    ),
    *(
        Table(f"Saturated {solute} lye", ("°C", "g/g"), SATURATED[solute], SOLUBILITY, "solubility_limit")
        for solute in SATURATED
    ),
)  # fmt: skip
_HERE = "soapbench.science.lye_properties."
RELATIONS = (
    Relation(
        "Density of a lye",
        "NaOH: b1 + b2 T + b3 T², polynomials in √water fraction; KOH: 1/(w_water/ρ_water + w/ρ_apparent)",
        "g/ml",
        OLSSON,
        _HERE + "density_g_per_ml",
    ),
    Relation("Density of a KOH lye", "apparent density of the solute", "g/ml", LALIBERTE, _HERE + "density_g_per_ml"),
    Relation(
        "Heat capacity of a lye", "table, linear between rows", "kJ/(kg K)", TWO_CORRELATIONS, _HERE + "heat_capacity"
    ),
    Relation("What dissolves", "table, linear between rows", "g/g", SOLUBILITY, _HERE + "solubility_limit"),
    Relation("Boiling point of a lye", "p(w, T) = 101.325 kPa", "C", OLSSON, _HERE + "boiling_point_c"),
    Relation("Vapour pressure", "exp((a1 + a2 T)/(T - a3))", "kPa", OLSSON, _HERE + "vapour_pressure_kpa"),
    Relation("Enthalpy of a lye", "c1 + c2 T + c3 T² + c4 T³", "kJ/kg", OLSSON, _HERE + "enthalpy_kj_per_kg"),
)
