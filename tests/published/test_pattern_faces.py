"""Faces of a drawn loaf against sums of another kind: what every map must keep, whatever is poured and drawn.

Areas and volumes are those of the portions; mirrored and reversed drawings give mirrored and undone loaves. Ranks of
the cuts follow from geometry: a rod draws in the plane across itself. No real soap was measured.
"""

import numpy as np
import pytest

from soapbench.science.errors import OutOfRange
from soapbench.science.pattern.calibrate import reach_from_tongue, tongue_mm
from soapbench.science.pattern.chance import pot_swirl
from soapbench.science.pattern.draw import Drawn, draw, reach_mm, twists_of, undo
from soapbench.science.pattern.face import Plane, label_face, walls_of
from soapbench.science.pattern.plans import best_cut, faces_of, gains, offers
from soapbench.science.pattern.pool import Box, Bump, Lens, lens_fits, volumes
from soapbench.science.pattern.reveal import edges, gain_of, recommend
from soapbench.science.pattern.stages import pool_of
from soapbench.science.pattern.tools import Tool, drawn_by
from soapbench.science.strokes import Stroke
from tests.science.loaves import FILL, MOULD, POURS, ROOM, SLICES, WHOLE, loaf_of, strokes_of, verdict_of

BOX = Box(240.0, 84.0)
TOP = Plane("z", 40.0, 0, 240, 0, 84)
POINTS = np.random.default_rng(3).uniform((0, 0), (240, 84), (4000, 2)).T


def stirred(seed=1):
    """Return a skewer's wild path that goes near every wall."""
    corners = np.random.default_rng(seed).uniform((1, 1), (239, 83), (12, 2))
    return Drawn("z", tuple(map(tuple, corners.tolist())), 4.0, 5.0)


def twists(stroke):
    return twists_of(stroke, walls_of(BOX, FILL, "z"))


def test_undoing_a_stroke_brings_every_point_back():
    stroke = stirred()
    there = draw(twists(stroke), 5.0, *POINTS)
    back = undo(twists(stroke), 5.0, *there)

    assert np.abs(np.array(back) - POINTS).max() < 1e-9
    assert np.abs(np.array(there) - POINTS).max() > 5


def test_no_point_crosses_a_wall():
    u, v = draw(twists(stirred()), 5.0, *POINTS)

    assert u.min() >= 0
    assert u.max() <= 240
    assert v.min() >= 0
    assert v.max() <= 84


def test_points_far_from_a_path_do_not_move_at_all():
    stroke = Drawn("z", ((30, 42), (70, 42)), 4.0, 5.0)
    far = POINTS[0] > 70 + 6 * 5 + 2
    u, v = draw(twists(stroke), 5.0, *POINTS)

    assert far.sum() > 1000
    assert (u[far] == POINTS[0][far]).all()
    assert (v[far] == POINTS[1][far]).all()


def test_a_stroke_keeps_area():
    step, (u, v) = 1e-5, POINTS
    lift = [draw(twists(stirred()), 5.0, u + du, v + dv) for du, dv in ((step, 0), (-step, 0), (0, step), (0, -step))]
    (ru, rv), (lu, lv), (tu, tv), (bu, bv) = lift
    determinant = ((ru - lu) * (tv - bv) - (rv - lv) * (tu - bu)) / (4 * step * step)

    assert np.median(np.abs(determinant - 1)) < 1e-6


def test_a_stroke_drawn_backwards_undoes_it():
    corners = ((30.0, 42.0), (80.0, 42.0))  # an odd number of elements: the pairs then come in the same order
    forward, backward = (Drawn("z", each, 4.0, 5.0) for each in (corners, corners[::-1]))
    assert len(twists(forward)) // 2 % 2 == 1
    found = draw(twists(backward), 5.0, *draw(twists(forward), 5.0, *POINTS))

    assert np.abs(np.array(found) - POINTS).max() < 1e-9


def test_a_mirrored_drawing_gives_the_mirrored_face():
    columns = loaf_of("columns").pool
    mirrored = pool_of(ROOM, (POURS["columns"][0],)).pool
    stroke = stirred()
    turned = Drawn("z", tuple((240 - u, v) for u, v in stroke.corners), 4.0, 5.0)
    one, other = label_face(TOP, 1.0, columns, [stroke]), label_face(TOP, 1.0, mirrored, [turned])

    assert (one == other[:, ::-1]).mean() > 0.99  # the two twists of a pair come in the other order
    assert (one == other).mean() < 0.9


def test_the_order_of_crossing_strokes_matters():
    pool = loaf_of("columns").pool
    one, two = Drawn("z", ((60, 10), (60, 74)), 4, 6), Drawn("z", ((20, 42), (100, 42)), 4, 6)

    assert (label_face(TOP, 1.0, pool, [one, two]) != label_face(TOP, 1.0, pool, [two, one])).any()


def test_each_colour_of_columns_keeps_its_area_under_a_skewer():
    loaf = loaf_of("columns")
    face = label_face(TOP, 0.6, loaf.pool, strokes_of(loaf, "skewer", "zigzag", 9.5))

    assert [(face == label).mean() for label in range(6)] == pytest.approx([1 / 6] * 6, abs=1e-3)


@pytest.mark.parametrize("pour", POURS)
def test_each_portion_keeps_the_volume_that_was_weighed_poured_and_drawn(pour):
    loaf = loaf_of(pour)
    told = {}
    for stage in POURS[pour]:
        for letter, ml in stage.portions:
            told[letter] = told.get(letter, 0) + ml
    planes = [Plane("z", (at + 0.5) * FILL / 60, 0, 240, 0, 84) for at in range(60)]
    strokes = (*strokes_of(loaf, "skewer", "zigzag", 12), *strokes_of(loaf, "hanger", "lifted loops", 40))
    if pour == "pot":
        strokes = pot_swirl(loaf.pool.box, loaf.height)

    assert {loaf.letters[label]: cubic / 1000 for label, cubic in volumes(loaf.pool.stages).items()} == pytest.approx(
        told
    )
    for drawn in ((), strokes):
        faces = np.stack([label_face(plane, 2.0, loaf.pool, drawn) for plane in planes])
        shares = {letter: (faces == at).mean() for at, letter in enumerate(loaf.letters)}
        assert shares == pytest.approx({letter: ml / WHOLE for letter, ml in told.items()}, abs=4e-3)


def test_a_stream_too_deep_for_its_batter_spreads_until_it_stands():
    deep = Lens(600_000, 1, ((Bump(), Bump(42, 10)),), 0.0)
    assert not lens_fits(deep, BOX, 20.0)

    loaf = loaf_of("streams")
    low = 0.0
    for stage in loaf.pool.stages:
        assert not isinstance(stage, Lens) or lens_fits(stage, BOX, low)
        low += stage.volume / BOX.floor


def test_a_face_through_a_skewer_that_stops_half_way_is_undrawn_under_it():
    loaf = loaf_of("columns")
    (high,) = drawn_by(Tool("skewer", 4), [Stroke(((30, 7), (90, 77)), "top", 20.0)], loaf.pool.box, FILL, "medium")
    low, top = (Plane("z", at, 0, 240, 0, 84) for at in (20.0, 60.0))

    assert (label_face(low, 1.0, loaf.pool, [high]) == label_face(low, 1.0, loaf.pool)).all()
    assert (label_face(top, 1.0, loaf.pool, [high]) != label_face(top, 1.0, loaf.pool)).any()


def test_single_precision_shows_the_labels_of_double_precision():
    loaf = loaf_of("columns")
    strokes = strokes_of(loaf, "skewer", "zigzag", 9.5)
    face = label_face(TOP, 0.6, loaf.pool, strokes)
    u, v = np.meshgrid((np.arange(400) + 0.5) * 0.6, (np.arange(140) + 0.5) * 0.6)
    before = undo(twists(strokes[0]), strokes[0].reach_mm, u.ravel(), v.ravel())
    exact = loaf.pool.portion_at(*before, np.full(u.size, 40.0)).reshape(u.shape)[::-1]

    assert (face == exact).mean() > 0.9995


@pytest.mark.parametrize("turn", [0, 20, 45, 90])
def test_plain_stripes_at_any_angle_are_no_drawing(turn):
    x, y = np.meshgrid(np.arange(120) * 0.6, np.arange(120) * 0.6)
    angle = np.deg2rad(turn)
    stripes = (((x * np.cos(angle) + y * np.sin(angle)) // 8) % 2).astype(np.int8)
    found = edges(stripes)

    assert found.all > 0.8
    assert found.bent < 0.03 * found.all + 0.01


def test_small_dots_bend_almost_wholly():
    x, y = np.meshgrid(np.arange(160) * 0.6, np.arange(160) * 0.6)
    dots = ((x % 8 - 4) ** 2 + (y % 8 - 4) ** 2 < 4).astype(np.int8)
    found = edges(dots)

    assert found.bent > 0.9 * found.all
    assert gain_of([dots], [np.zeros_like(dots)]) == pytest.approx(found.bent)


# Ranks that follow from the rod's direction, and the counter-examples.
@pytest.mark.parametrize(
    ("pour", "kind", "path", "spacing", "best"),
    [
        ("columns", "skewer", "zigzag", 9.5, "blocks on their sides"),
        ("columns", "hanger", "lifted loops", 20, "slices"),
        ("layers", "hanger", "lifted loops", 20, "slices"),
    ],
)
def test_the_cut_across_the_rod_shows_the_drawing(pour, kind, path, spacing, best):
    verdict = verdict_of(pour, kind, path, spacing)

    assert (verdict.best, verdict.also) == (best, ())
    assert verdict.gains[0].gain > 5 * verdict.gains[1].gain
    assert verdict.gains[0].reveal == 1


def test_no_cut_shows_an_upright_skewer_in_level_layers():
    verdict = verdict_of("layers", "skewer", "zigzag", 9.5)

    assert verdict.best == ""
    assert max(each.gain for each in verdict.gains) < 1e-3


def test_rings_have_no_firm_winner():
    verdict = verdict_of("rings", "skewer", "figure eights", 40)

    assert len(verdict.also) >= 1


def test_among_cuts_as_good_the_one_with_more_bars_is_named_first():
    found = offers(MOULD, FILL, SLICES, 1.03)
    counts = {each.way: each.gives.count for each in found}
    one, two = sorted(counts, key=lambda way: counts[way])[:2]
    close = {one: 0.30, two: 0.29}

    assert recommend([close]).best == one
    assert best_cut([close], found).best == max((one, two), key=lambda way: counts[way])
    assert gains(found, loaf_of("columns").pool, ()) == {each.way: 0.0 for each in found}


def test_the_faces_of_a_plan_lie_at_its_cuts():
    for offer in offers(MOULD, FILL, SLICES, 1.03):
        at = {each for cuts in offer.cuts for each in cuts.at_mm}
        assert all(face.at in at or face.at == pytest.approx(FILL / 2) for face in offer.faces)
        assert faces_of(offer.way, offer.cuts, MOULD, FILL) == offer.faces
        assert offer.bar.at == offer.faces[len(offer.faces) // 2].at


def test_a_tongue_measured_in_a_cut_gives_the_reach_back():
    assert reach_from_tongue(4.0, tongue_mm(4.0, 5.0)) == pytest.approx(5.0, abs=0.01)
    assert reach_from_tongue(4.0, 15.5) == pytest.approx(5.0, abs=0.05)  # the model's table
    with pytest.raises(OutOfRange, match="between"):
        reach_from_tongue(4.0, 900.0)


def test_a_thicker_batter_pulls_less_far():
    assert reach_mm("thin", 4) > reach_mm("medium", 4) > reach_mm("thick", 4)


def test_a_pot_swirl_is_the_same_example_each_time():
    assert pot_swirl(BOX, FILL) == pot_swirl(BOX, FILL)
    assert pot_swirl(BOX, FILL, 1) != pot_swirl(BOX, FILL, 2)
