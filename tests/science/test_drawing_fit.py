"""Which drawings a batter still takes, as it is now."""

from typing import get_args

import pytest

from soapbench.bars.formula import Path, Trace
from soapbench.science import drawing_fit
from soapbench.science.drawing_fit import BEARS, bears, cannot_show, is_borne, trace_now
from soapbench.science.errors import OutOfRange


def test_every_path_and_trace_of_a_formula_is_known():
    assert set(BEARS) == set(get_args(Path))
    assert get_args(Trace) == drawing_fit.TRACES


@pytest.mark.parametrize(
    ("seen", "used", "now"),
    [
        ("thin", 0.0, "thin"),
        ("thin", 0.49, "thin"),
        ("thin", 0.5, "medium"),
        ("medium", 0.7, "thick"),
        ("thick", 0.7, "thick"),
        ("emulsion", 1.0, "thick"),
    ],
)
def test_a_batter_that_waits_is_taken_as_thicker(seen, used, now):
    assert trace_now(seen, used) == now


def test_fine_lines_are_not_drawn_in_thick_batter():
    assert not is_borne(bears("zigzag", "skewer"), "thick")
    assert is_borne(bears("s curve", "skewer"), "thick")
    assert not is_borne(bears("zigzag", "skewer", 10), "medium")
    assert not is_borne(bears("s curve", "comb"), "medium")


def test_a_thin_batter_takes_every_path():
    assert all(is_borne(bears(path, "skewer"), "thin") for path in BEARS)


def test_an_upright_tool_in_level_layers_is_told():
    assert "level" in cannot_show("zigzag", "upright", ("layer",))
    assert cannot_show("zigzag", "upright", ("layer", "side by side")) == ""
    assert cannot_show("lifted loops", "along", ("layer",)) == ""
    assert cannot_show("none", "upright", ("layer",)) == ""


def test_an_unknown_path_is_refused():
    with pytest.raises(OutOfRange, match="no drawing"):
        bears("scribble", "skewer")
