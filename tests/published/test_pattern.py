"""Strokes and pours against values worked out with 40 digits from the published forms, and against those forms.

The stylus field is Eq. 6 of A. Jaffer, "Oseen Flow in Paint Marbling", arXiv:1702.02106. Its check values, and those of
the twist, the strokes and the lenses, were computed from the closed forms with 40 digits; no soap was measured.
"""

import math

import numpy as np
import pytest

from soapbench.science.pattern.draw import Drawn, Twist, draw, fade_of, twists_of, undo
from soapbench.science.pattern.pool import Box, Bump, Lens, before_lens, thickness

LENGTH, WIDTH, HEIGHT = 240.0, 84.0, 64.0


def in_box(length, width):
    return lambda u, v: min(u, length - u, v, width - v)


def stylus(along, across, reach):
    """Return the published motion of a point per mm of a stylus that moves along the first axis."""
    r = math.hypot(along, across)
    fading = math.exp(-r / reach)
    return fading * (1 - across**2 / (r * reach)), fading * along * across / (r * reach)


@pytest.mark.parametrize(
    ("point", "moved"),
    [
        ((3, 2), (0.37833134963017, 0.16182118057390)),
        ((-4, 6), (0.00036397595390442, -0.15735884393365)),
    ],
)
def test_the_stylus_field_is_the_published_one(point, moved):
    assert stylus(*point, 5) == pytest.approx(moved, rel=1e-12)


def test_a_thin_tool_s_pair_of_twists_is_the_stylus_field():
    width, length, reach = 1e-4, 1e-6, 5.0
    wide = Drawn("z", ((0, 0), (length, 0)), width, reach)
    twists = twists_of(wide, lambda u, v: 1e9)
    for point in ((3.0, 2.0), (-4.0, 6.0), (0.5, -2.0)):
        u, v = draw(twists, reach, np.array([point[0]]), np.array([point[1]]))
        moved = ((u[0] - point[0]) / length, (v[0] - point[1]) / length)
        rim = math.exp(-6)  # our twist ends at six reaches, where the published field has not quite faded
        assert moved == pytest.approx([each / (1 - rim) for each in stylus(*point, reach)], abs=5e-3)


def test_one_twist_turns_a_point_as_worked_out():
    twist = Twist(29.71, 35.95, -0.17, 10.08)
    u, v = draw([twist], 6.29, np.array([26.517354334540]), np.array([29.998686983966]))
    assert (u[0], v[0]) == pytest.approx((26.340995520611, 30.096717008562), abs=1e-11)


def test_a_skewer_s_stroke_moves_a_point_as_worked_out():
    stroke = Drawn("z", ((30, 40), (70, 40)), 4, 5)
    twists = twists_of(stroke, in_box(LENGTH, WIDTH))
    assert len(twists) == 34
    point = np.array([50.0]), np.array([41.0])
    assert [each[0] for each in draw(twists, 5, *point)] == pytest.approx((59.470843197376, 41.089388262890), abs=1e-10)
    assert [each[0] for each in undo(twists, 5, *point)] == pytest.approx((40.680892388900, 41.123520357112), abs=1e-10)


@pytest.mark.parametrize(
    ("point", "moved"),
    [
        ((120, 22, 30), (22.440139294766, 25.981744415700)),
        ((3, 25, 15), (24.365444609848, 14.958759899344)),  # in the fade at the end of the bar
    ],
)
def test_a_hanger_s_stroke_moves_a_point_as_worked_out(point, moved):
    stroke = Drawn("x", ((20, 55), (20, 10), (40, 10)), 4.5, 5.5, 6, 234, 6)
    twists = twists_of(stroke, in_box(WIDTH, HEIGHT))
    assert len(twists) == 50
    x, y, z = (np.array([float(each)]) for each in point)
    found = draw(twists, 5.5, y, z, fade_of(stroke, x))
    assert [each[0] for each in found] == pytest.approx(moved, abs=1e-10)


BOX = Box(LENGTH, WIDTH)
STREAM = Lens(161_280, 1, ((Bump(), Bump(42, 30)),), 0.0)
RINGS = Lens(80_640, 1, ((Bump(60, 40), Bump(42, 35)), (Bump(180, 40), Bump(42, 35))), 1.0)


@pytest.mark.parametrize(
    ("lens", "low", "point", "before"),
    [
        (STREAM, 40, (100, 50, 35), (100, 47.594863407407, 22.597330995790)),
        (RINGS, 30, (120, 42, 10), (120, 42, 8.8235294117647)),
    ],
)
def test_a_lens_pushes_old_batter_as_worked_out(lens, low, point, before):
    at = tuple(np.array([float(each)]) for each in point)
    found = before_lens(lens, BOX, at, low, low + lens.volume / BOX.floor)
    assert [each[0] for each in found] == pytest.approx(before, abs=1e-10)


def test_a_point_in_the_stream_belongs_to_the_stream():
    high = 40 + STREAM.volume / BOX.floor
    assert thickness(STREAM, BOX, np.array([120.0]), np.array([42.0]))[0] > 10
    assert high == 40 + 8


@pytest.mark.parametrize(
    ("diameter", "reach", "tongue"),
    [(3, 3, 8.2), (3, 5, 17.9), (4, 4, 11.0), (4, 8, 31.0), (6, 5, 12.2), (6, 6.5, 18.7)],
)
def test_a_long_stroke_pulls_its_tongue_as_far_as_in_the_table_of_the_model(diameter, reach, tongue):
    """The table was computed with this model, far from walls: it holds that the code is that model."""
    stroke = Drawn("z", ((-150, 0), (150, 0)), diameter, reach)
    u = np.zeros(1)
    moved, _v = draw(twists_of(stroke, lambda u, v: 1e9), reach, u, np.zeros(1))
    assert moved[0] == pytest.approx(tongue, abs=0.15)
