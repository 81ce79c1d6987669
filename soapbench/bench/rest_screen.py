"""What the last rest test means, as long as the batter is not at true trace."""

from __future__ import annotations

from soapbench.bench.folding.book import REST_TEST
from soapbench.bench.state import RunState
from soapbench.science.false_trace import rest_result


def rest_advice(state: RunState) -> str:
    """Return what to do about a false trace; "" when there is none, or when the batter has passed since."""
    if not state.rest_tests or REST_TEST in state.done:
        return ""
    found = state.rest_tests[-1].payload
    melts = state.mixing.melts_c if state.mixing else None
    return rest_result(found["oil_film"], found["thickens_as_it_cools"], melts).sentence
