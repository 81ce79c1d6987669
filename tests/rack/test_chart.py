"""The drawing of a curve."""

import pytest

from soapbench.rack.chart import HEIGHT, WIDTH, Band, Series, draw, ticks

SERIES = Series("weighed", ((0, 130), (14, 121)), mark="circle", is_line=False)
BAND = Band("band", ((0, 128), (14, 119)), ((0, 132), (14, 123)))


def chart(*series, band=None):
    return draw("Title", "Sentence.", series, x_title="days", y_title="g", band=band)


@pytest.mark.parametrize(
    ("values", "expected"),
    [((0, 42), (0, 10, 20, 30, 40, 50)), ((111, 130), (110, 115, 120, 125, 130)), ((7, 7), (6, 6.5, 7, 7.5, 8))],
)
def test_ticks_are_round_and_enclose_the_values(values, expected):
    assert ticks(values) == expected


def test_nothing_to_draw_gives_no_chart():
    assert chart(Series("weighed", ())) is None


def test_everything_lies_inside_the_box():
    drawn = chart(SERIES, band=BAND)

    points = [point for stroke in drawn.strokes for point in stroke.points]
    assert all(0 <= x <= WIDTH and 0 <= y <= HEIGHT for x, y in points)


def test_heavier_stands_higher_and_later_stands_further_right():
    marks = [stroke for stroke in chart(SERIES).strokes if stroke.role == "mark-first"]

    first, last = (stroke.points[0] for stroke in marks[:2])
    assert first[0] < last[0] and first[1] < last[1]


def test_every_series_is_named_in_the_key():
    assert {"weighed", "band"} <= {label.text for label in chart(SERIES, band=BAND).labels}


def test_a_path_needs_no_style():
    assert chart(SERIES).strokes[0].path.startswith("M")
