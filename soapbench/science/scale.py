"""How far off a weighing can be: the standard uncertainty of one net mass."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from .errors import OutOfRange, not_negative, positive
from .sources import COMMON_PRACTICE, FROM_MEMORY, Constant, Relation, Source, Table
from .words import say

_GUM = Source(
    "gum-f221",
    "Evaluation of measurement data, JCGM 100:2008 (GUM)",
    "F.2.2.1: a rounded reading has the standard uncertainty d / sqrt(12); from memory",
    "from memory",
)
_MPE = Source(
    "si-1995-1907",
    "UK Non-automatic Weighing Instruments Regulations 1995, SI 1995/1907",
    "Schedule 2, paragraph 4, Table 3: permissible errors of verified scales",
    "published",
)

REPEAT_IN_STEPS = Constant(
    "scatter of repeats when nobody measured it",
    "s_rep",
    0.5,
    "scale steps",
    COMMON_PRACTICE,
    "uncertainty of a weighing",
)
KITCHEN_ERROR_IN_STEPS = Constant(
    "permissible error of a scale without a class, lower quarter of its range",
    "MPE",
    1.0,
    "scale steps",
    COMMON_PRACTICE,
    "uncertainty of a weighing",
)


@dataclass(frozen=True, slots=True)
class Weighing:
    """A scale: its step, the scatter of repeats (one standard deviation) and its permissible error, all g.

    None stands for what a kitchen scale without papers is taken to have: half a step and one step.

    Raises:
        OutOfRange: a step that is not above 0, or a negative scatter or error.
    """

    resolution_g: float
    repeat_g: float | None = None
    mpe_g: float | None = None

    def __post_init__(self) -> None:
        positive(self.resolution_g, "The step of the scale")
        for value, name in (
            (self.repeat_g, "The scatter of the scale"),
            (self.mpe_g, "The error of the scale"),
        ):
            if value is not None:
                not_negative(value, name)


def weighing_u(scale: Weighing) -> float:
    """Return the standard uncertainty of one net weighing, g.

    u^2 = s_rep^2 + 2 d^2 / 12 + (MPE / sqrt 3)^2: tare and load are each rounded, so the step enters twice.
    Source: GUM (JCGM 100:2008) F.2.2.1, from memory; defaults are common practice.
    """
    step = scale.resolution_g
    repeat = REPEAT_IN_STEPS.value * step if scale.repeat_g is None else scale.repeat_g
    error = KITCHEN_ERROR_IN_STEPS.value * step if scale.mpe_g is None else scale.mpe_g
    return sqrt(repeat**2 + step**2 / 6 + error**2 / 3)


def weighing_limit(scale: Weighing) -> float:
    """Return how far off one net weighing can reasonably be, g: two scatters, one step, the permissible error.

    Source: the same parts as weighing_u, each at its limit; from memory.
    """
    step = scale.resolution_g
    repeat = REPEAT_IN_STEPS.value * step if scale.repeat_g is None else scale.repeat_g
    error = KITCHEN_ERROR_IN_STEPS.value * step if scale.mpe_g is None else scale.mpe_g
    return 2 * repeat + step + error


# Load limits in verified scale intervals e, and the error allowed up to them, in e.
_CLASSES = {
    "II": ((5_000, 0.5), (20_000, 1.0), (100_000, 1.5)),
    "III": ((500, 0.5), (2_000, 1.0), (10_000, 1.5)),
}


def permissible_error_g(load_g: float, interval_g: float, scale_class: str, *, in_service: bool = True) -> float:
    """Return the maximum permissible error of a verified scale at this load, g.

    Args:
        load_g: the load, g.
        interval_g: verified scale interval e, from the plate of the scale, g.
        scale_class: "II" or "III".
        in_service: twice the error of first verification, as for a scale that has been in use.

    Raises:
        OutOfRange: an unknown class, a load above the class's largest, or an interval that is not above 0.

    Source: UK SI 1995/1907, Schedule 2, paragraph 4, Table 3 (the limits of OIML R 76-1, from memory).
    """
    positive(interval_g, "The scale interval")
    not_negative(load_g, "The load")
    for limit, steps in _CLASSES.get(scale_class, ()):
        if load_g <= limit * interval_g:
            return steps * interval_g * (2 if in_service else 1)
    raise OutOfRange(
        say(
            "No error is set for {load:g} g on a scale of class {scale_class}. Use class II or III and a load "
            "that the scale can carry.",
            load=load_g,
            scale_class=scale_class,
        )
    )


CONSTANTS = (REPEAT_IN_STEPS, KITCHEN_ERROR_IN_STEPS)
_AT = "soapbench.science.scale."
TABLES = (
    Table(
        "Permissible errors of verified scales, first verification",
        ("class", "load up to, e", "error, e"),
        tuple((name, *row) for name, rows in _CLASSES.items() for row in rows),
        _MPE,
        "permissible_error_g",
    ),
)
RELATIONS = (
    Relation(
        "uncertainty of one net weighing", "u^2 = s_rep^2 + 2 d^2/12 + (MPE/sqrt 3)^2", "g", _GUM, _AT + "weighing_u"
    ),
    Relation("reasonable limit of one net weighing", "2 s_rep + d + MPE", "g", FROM_MEMORY, _AT + "weighing_limit"),
    Relation(
        "permissible error of a verified scale",
        "0.5 e, 1 e or 1.5 e by load, twice that in service",
        "g",
        _MPE,
        _AT + "permissible_error_g",
    ),
)
