"""Where the batter lies: areas that add up to what was poured, level surfaces, and streams that push aside."""

from collections import Counter

import pytest

from soapbench.science.errors import OutOfRange
from soapbench.science.mould import Mould
from soapbench.science.pour import Room, Stage, pour, room_of, sinks_to

LOAF = Room(240, 84, 80)
WAYS = ("layer", "side by side", "down the middle", "drops", "in the pot", "against the walls", "rings")


def volumes(poured, room):
    found = Counter()
    for cell in poured.cells:
        found[cell.letter] += cell.area_mm2 * room.length_mm / 1000
    return found


@pytest.mark.parametrize("last", WAYS)
@pytest.mark.parametrize("before", WAYS)
def test_the_areas_add_up_to_what_was_poured(before, last):
    stages = [
        Stage("layer", (("C", 200),)),
        Stage(before, (("A", 150), ("B", 250)), 100),
        Stage(last, (("A", 300), ("B", 60)), 120),
    ]

    found = volumes(pour(LOAF, stages)[-1], LOAF)

    assert found == pytest.approx({"A": 450, "B": 310, "C": 200}, rel=2e-3)


@pytest.mark.parametrize("way", WAYS)
def test_the_surface_is_level_and_seen_from_wall_to_wall(way):
    after = pour(LOAF, [Stage("layer", (("A", 400),)), Stage(way, (("A", 90), ("B", 110)), 80)])[-1]

    assert after.level_mm == pytest.approx(600 * 1000 / 240 / 84)
    assert (after.surface[0][1], after.surface[-1][2]) == pytest.approx((0, 84))
    assert all(one[2] == pytest.approx(other[1]) for one, other in zip(after.surface, after.surface[1:], strict=False))


@pytest.mark.parametrize("way", WAYS)
def test_bodies_fill_every_height_once(way):
    after = pour(LOAF, [Stage("side by side", (("A", 300), ("B", 300))), Stage(way, (("C", 200),), 100)])[-1]

    for place in (3, 21, 41, 43, 66, 81):
        spans = sorted(cell.height_at(place) for cell in after.cells if cell.left_mm < place < cell.right_mm)
        spans = [(low, high) for low, high in spans if high - low > 1e-6]
        assert spans[0][0] == pytest.approx(0, abs=1e-6)
        assert spans[-1][1] == pytest.approx(after.level_mm)
        assert all(one[1] == pytest.approx(other[0]) for one, other in zip(spans, spans[1:], strict=False))


def test_layers_have_the_heights_of_their_volumes():
    first, second = pour(LOAF, [Stage("layer", (("A", 201.6),)), Stage("layer", (("B", 403.2),))])

    assert first.level_mm == pytest.approx(10)
    assert second.cells[1].height_at(40) == pytest.approx((10, 30))
    assert second.surface == (("B", 0, 84),)


def test_side_by_side_parts_the_width_as_the_volumes():
    (after,) = pour(LOAF, [Stage("side by side", (("A", 300), ("B", 100)))])

    assert [(cell.left_mm, cell.right_mm) for cell in after.cells] == [(0, 63), (63, 84)]


def test_a_stream_down_the_middle_lies_on_the_floor_in_the_middle():
    after = pour(LOAF, [Stage("layer", (("A", 800),)), Stage("down the middle", (("B", 200),))])[-1]
    stream = after.cells[-1]

    assert stream.height_at(42)[0] == 0
    assert stream.left_mm + stream.right_mm == pytest.approx(84)
    assert 0 < stream.left_mm < 42
    assert after.surface == (("A", 0, pytest.approx(84)),)


def test_a_stream_too_large_for_the_middle_spreads():
    small, large = (
        pour(LOAF, [Stage("layer", (("A", 400),)), Stage("down the middle", (("B", volume),))])[-1].cells[-1]
        for volume in (80, 500)
    )

    assert large.left_mm < small.left_mm
    assert max(large.top) <= 0.6 * 900 * 1000 / 240 / 84 + 1e-9


def test_what_is_poured_along_the_walls_is_thickest_there():
    wall = pour(LOAF, [Stage("layer", (("A", 800),)), Stage("against the walls", (("B", 200),))])[-1].cells[-1]

    assert wall.height_at(0)[1] == pytest.approx(wall.height_at(84)[1])
    assert wall.height_at(0)[1] > wall.height_at(42)[1]


def test_rings_stay_on_top():
    after = pour(LOAF, [Stage("layer", (("A", 800),)), Stage("rings", (("B", 100), ("C", 100)))])[-1]

    assert {letter for letter, _left, _right in after.surface} == {"A", "B", "C"}
    assert after.cells[-1].height_at(42)[1] == pytest.approx(after.level_mm)


def test_a_drop_from_high_up_goes_deep():
    assert [sinks_to(height) for height in (10, 30, 115, 200, 400)] == [1, 1, 0.5, 0, 0]
    low, high = (
        pour(LOAF, [Stage("layer", (("A", 800),)), Stage("drops", (("B", 60),), height)])[-1].cells[-1]
        for height in (40, 180)
    )
    assert high.height_at(42)[0] < low.height_at(42)[0]


def test_a_stream_into_an_empty_mould_lies_level():
    (after,) = pour(LOAF, [Stage("down the middle", (("A", 201.6),))])

    assert after.cells[0].height_at(5) == pytest.approx((0, 10))


def test_a_left_right_mirrored_pour_gives_a_mirrored_section():
    stages = [Stage("layer", (("C", 400),)), Stage("against the walls", (("A", 90), ("B", 90)))]
    one, other = (
        pour(LOAF, [stages[0], Stage("against the walls", portions)])[-1].cells
        for portions in ((("A", 90), ("B", 90)), (("B", 90), ("A", 90)))
    )
    areas = [Counter(), Counter()]
    for found, cells in zip(areas, (one, other), strict=True):
        for cell in cells:
            found[cell.letter] += cell.area_mm2

    assert areas[0] == pytest.approx(areas[1], rel=1e-3)


def test_an_empty_stage_changes_nothing():
    before, after = pour(LOAF, [Stage("layer", (("A", 300),)), Stage("drops", (("B", 0),), 100)])

    assert before == after


@pytest.mark.parametrize(
    ("mould", "room"),
    [
        (Mould("box", 240, 84, 80), Room(240, 84, 80)),
        (Mould("cylinder", diameter_mm=80, height_mm=250), Room(62.83185307179586, 80, 250)),
        (Mould("cavities", height_mm=25, cavities=9, cavity_ml=90), Room(60, 60, 25)),
        (Mould("cavities", cavities=9, cavity_ml=125), Room(50, 50, 50)),
    ],
)
def test_every_mould_is_a_box_with_the_same_floor(mould, room):
    found = room_of(mould)

    assert (found.length_mm, found.width_mm, found.height_mm) == pytest.approx(
        (room.length_mm, room.width_mm, room.height_mm)
    )


@pytest.mark.parametrize("room", [Room(0, 84), Room(240, -1)])
def test_a_mould_without_a_floor_is_refused(room):
    with pytest.raises(OutOfRange, match="mould's"):
        pour(room, [])
