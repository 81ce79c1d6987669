"""Which drawings a batter still takes, as it is now."""

import json
from pathlib import Path as File
from typing import get_args

import pytest

from soapbench.bars.formula import Path, Trace
from soapbench.science import drawing_fit
from soapbench.science.drawing_fit import BEARS, STIFFER_AT, THICK_AT, bears, cannot_show, is_borne, trace_now
from soapbench.science.errors import OutOfRange

# The phone reads the same cases: tests/js/batter.test.js.
SHARED = json.loads((File(__file__).parent.parent / "js" / "traces.json").read_text())


def test_every_path_and_trace_of_a_formula_is_known():
    assert set(BEARS) == set(get_args(Path))
    assert get_args(Trace) == drawing_fit.TRACES


@pytest.mark.parametrize(("seen", "used", "now"), SHARED["cases"])
def test_a_batter_that_waits_is_taken_as_thicker(seen, used, now):
    assert trace_now(seen, used) == now


@pytest.mark.parametrize(("thickest", "now", "takes_it"), SHARED["borne"])
def test_a_batter_takes_what_needs_it_no_thinner(thickest, now, takes_it):
    assert is_borne(thickest, now) is takes_it


def test_the_phone_is_told_the_same_shares():
    assert (STIFFER_AT.value, THICK_AT.value) == (SHARED["stiffer"], SHARED["thick"])


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
