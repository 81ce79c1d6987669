"""A batter that looks like trace and is none: the rest test, and what to do when it fails."""

from __future__ import annotations

from dataclasses import dataclass

from soapbench.science.errors import a_temperature
from soapbench.science.sources import COMMON_PRACTICE, Constant, Relation

from .words import mark, say

REST = Constant("Rest before the batter is judged", "t", 2.0, "min", COMMON_PRACTICE, "rest_result")
BLEND_OFF = mark("Blend in short bursts until no streak of oil is left.")


@dataclass(frozen=True, slots=True)
class RestResult:
    """Whether a batter that has rested is at true trace, and what to do in words."""

    is_true: bool
    sentence: str


def rest_result(oil_film: bool, thickens_as_it_cools: bool, warm_to_c: float | None = None) -> RestResult:
    """Return what two minutes of rest tell of a batter.

    An emulsion that holds shows no oil on top. A batter that thickens while its temperature falls is setting fat;
    soap that forms warms it.

    Args:
        warm_to_c: the temperature in C at which every fat of the batch is clear, None when it is not known.

    Raises:
        OutOfRange: nothing can be as warm as that.

    Source: common practice, no source.
    """
    if warm_to_c is not None:
        a_temperature(warm_to_c, "The temperature to warm to")
    if not oil_film and not thickens_as_it_cools:
        return RestResult(True, say("No oil film, and it does not set as it cools: true trace."))
    if not thickens_as_it_cools:
        return RestResult(
            False, say("Oil on top: it was no trace yet. {blend_off} Then let it rest again.", blend_off=say(BLEND_OFF))
        )
    warm = (
        say("Warm it gently")
        if warm_to_c is None
        else say("Warm it gently to about {warm_to:.0f} °C", warm_to=warm_to_c)
    )
    film = say("Oil on top, and fat is setting") if oil_film else say("Fat is setting, it is no soap yet")
    return RestResult(
        False,
        say(
            "{film}: false trace. {warm} in a bath, stirring, until it is smooth. {blend_off}",
            film=film,
            warm=warm,
            blend_off=say(BLEND_OFF),
        ),
    )


CONSTANTS = (REST,)
RELATIONS = (
    Relation(
        "Rest test",
        "true when no oil film and not thicker while it cools",
        "",
        COMMON_PRACTICE,
        "soapbench.science.false_trace.rest_result",
    ),
)
