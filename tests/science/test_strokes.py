"""Paths of drawings: inside the walls, as many as asked for, evenly apart, to and fro, symmetric."""

from typing import get_args

import pytest

from soapbench.bars.formula import Path
from soapbench.science.errors import OutOfRange
from soapbench.science.strokes import GOES_UP, MARGIN, SHAPES, path_of, rod_of

NAMES = [name for name in get_args(Path) if name != "none"]
RODS = ("upright", "along", "across")
SIZES = {"top": (240, 84), "end": (84, 64), "side": (240, 64)}


def drawn(name, passes=0, spacing=0.0, rod="upright", **more):
    return path_of(name, 240, 84, passes, spacing, height_mm=64, rod=rod, **more)


def points(strokes):
    return [point for stroke in strokes for point in stroke.points]


def test_every_path_of_a_formula_has_its_shape():
    assert set(NAMES) == set(SHAPES)
    assert path_of("none", 240, 84) == ()


@pytest.mark.parametrize("rod", RODS)
@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(("passes", "spacing"), [(0, 0), (1, 0), (5, 20), (9, 0), (0, 30), (4, 400), (40, 3)])
def test_no_stroke_comes_nearer_a_wall_than_the_margin(name, rod, passes, spacing):
    strokes = drawn(name, passes, spacing, rod)
    wide, tall = SIZES[strokes[0].view]

    for across, up in points(strokes):
        assert MARGIN.value - 1e-6 <= across <= wide - MARGIN.value + 1e-6
        assert MARGIN.value - 1e-6 <= up <= tall - MARGIN.value + 1e-6


@pytest.mark.parametrize("rod", RODS)
@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("passes", [1, 2, 7])
def test_there_are_as_many_strokes_as_passes(name, rod, passes):
    assert len(drawn(name, passes, 15, rod)) == passes


@pytest.mark.parametrize("name", [name for name in NAMES if name != "round the edge"])
def test_each_stroke_begins_where_the_last_ended(name):
    strokes = drawn(name, 4)

    assert all(one.end == pytest.approx(other.start) for one, other in zip(strokes, strokes[1:], strict=False))


@pytest.mark.parametrize(("name", "axis"), [("zigzag", 1), ("lengthwise zigzag", 0), ("down and up", 1)])
def test_the_direction_alternates(name, axis):
    ways = [stroke.points[1][axis] > stroke.points[0][axis] for stroke in drawn(name, 6)]

    assert ways in ([True, False] * 3, [False, True] * 3)


@pytest.mark.parametrize(("name", "axis"), [("zigzag", 0), ("lengthwise zigzag", 1), ("down and up", 0)])
def test_lines_lie_as_far_apart_as_asked_for_where_they_fit(name, axis):
    starts = [stroke.start[axis] for stroke in drawn(name, 4, 12)]

    assert [b - a for a, b in zip(starts, starts[1:], strict=False)] == pytest.approx([12, 12, 12])


def test_lines_that_do_not_fit_move_closer():
    starts = [stroke.start[0] for stroke in drawn("zigzag", 20, 30)]

    assert starts[1] - starts[0] == pytest.approx((240 - 16) / 20)


def test_without_passes_the_spacing_says_how_many():
    assert len(drawn("zigzag", 0, 30)) == 7


@pytest.mark.parametrize("name", ["zigzag", "lengthwise zigzag", "figure eights", "s curve", "down and up"])
def test_a_path_with_an_even_number_of_passes_lies_in_the_middle(name):
    strokes = drawn(name, 4, 15)
    wide, tall = SIZES[strokes[0].view]
    across, up = zip(*points(strokes), strict=True)

    assert min(across) + max(across) == pytest.approx(wide, abs=0.5)
    assert min(up) + max(up) == pytest.approx(tall, abs=0.5)


def test_eights_and_loops_are_the_same_turned_about():
    for name in ("figure eights", "lifted loops"):
        found = points(drawn(name, 3))
        wide, tall = SIZES["top" if name == "figure eights" else "side"]
        turned = [(wide - across, tall - up if name == "figure eights" else up) for across, up in reversed(found)]
        assert turned == [pytest.approx(point, abs=1e-6) for point in found]


def test_a_spiral_comes_nearer_the_middle_with_every_turn():
    radii = [abs(stroke.start[0] - 120) for stroke in drawn("spiral", 4)]

    assert radii == sorted(radii, reverse=True)
    assert drawn("spiral", 4)[-1].end == pytest.approx((120, 42))


def test_rounds_close_and_go_inwards():
    outer, inner = drawn("round the edge", 2, 10)

    assert outer.start == outer.end
    assert inner.start[0] - outer.start[0] == pytest.approx(10)


def test_a_hanger_is_seen_from_the_end_and_starts_at_the_surface():
    assert rod_of("hanger") == "along"
    for name in ("round the edge", *GOES_UP):
        first = drawn(name, 2, rod=rod_of("hanger"))[0]
        assert first.view == "end"
        assert first.start[1] == pytest.approx(64 - MARGIN.value)
        assert first.depth_mm == pytest.approx(64 - MARGIN.value)


def test_an_upright_tool_is_seen_from_above_unless_it_goes_up_and_down():
    assert rod_of("skewer") == "upright"
    assert {name: drawn(name)[0].view for name in NAMES} == {
        name: "side" if name in GOES_UP else "top" for name in NAMES
    }
    assert drawn("zigzag")[0].depth_mm == 64


@pytest.mark.parametrize("name", [name for name in NAMES if name not in GOES_UP])
def test_a_round_mould_keeps_the_tool_inside_its_circle(name):
    for across, up in points(path_of(name, 80, 80, 3, is_round=True)):
        assert ((across - 40) ** 2 + (up - 40) ** 2) ** 0.5 <= 40 - MARGIN.value + 1e-6


def test_a_narrow_mould_still_has_a_path():
    assert path_of("zigzag", 60, 20, 3)[0].points[0][1] == pytest.approx(5)


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"name": "scribble"}, "no drawing"),
        ({"passes": 501}, "Take fewer"),
        ({"passes": -1}, "passes"),
        ({"width": 0}, "mould"),
        ({"spacing": -2}, "spacing"),
    ],
)
def test_what_cannot_be_drawn_is_refused(changes, sentence):
    given = {"name": "zigzag", "width": 84, "passes": 3, "spacing": 10, **changes}
    with pytest.raises(OutOfRange, match=sentence):
        path_of(given["name"], 240, given["width"], given["passes"], given["spacing"])
