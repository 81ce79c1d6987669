"""The pictures: what is in, what comes, the strokes, the cuts; every letter has its texture, every view its words."""

import re
from dataclasses import replace

import pytest

from soapbench.bars.formula import Cut, Drawing, PourStage
from soapbench.bench.cut_words import cut_screen
from soapbench.bench.draw_screen import draw_screen
from soapbench.bench.pictures.drawn import mm, path, plain
from soapbench.bench.pictures.pouring import pour_pictures
from soapbench.science.mould import Mould
from tests.bench.pours import STAGED, WORKSHOP, loaf_of, staged

WAYS = ("layer", "side by side", "down the middle", "drops", "in the pot", "against the walls", "rings")
TUBE = Mould("cylinder", diameter_mm=76, height_mm=400)
CAVITIES = Mould("cavities", cavities=12, cavity_ml=130)


def letters(picture, look):
    return {shape.letter for shape in picture.shapes if shape.look == look}


def in_mould(mould, formula=STAGED):
    return loaf_of(staged(formula, replace(WORKSHOP, mould=mould)))


def numbers(picture):
    return [label.text for label in picture.labels if "is-number" in label.look]


def test_the_first_stage_has_nothing_in_yet():
    pictures = pour_pictures(loaf_of(staged()), 1)

    assert letters(pictures.end, "is-old") == set()
    assert letters(pictures.end, "is-new") == letters(pictures.top, "is-new") == {"A"}
    assert "empty" in pictures.end.alt


def test_a_later_stage_shows_what_is_in_and_what_comes():
    pictures = pour_pictures(loaf_of(staged()), 2)

    assert letters(pictures.end, "is-old") == letters(pictures.top, "is-old") == {"A"}
    assert letters(pictures.end, "is-new") == letters(pictures.top, "is-new") == {"A", "B"}
    assert "A are in" in pictures.end.alt and "side by side" in pictures.end.alt


def test_the_height_stands_over_the_arrow():
    pictures = pour_pictures(loaf_of(staged()), 3)

    assert [label.text for label in pictures.end.labels if label.look == "is-height"] == ["80 mm"]
    assert sum(shape.look == "is-arrowhead" for shape in pictures.end.shapes) == 1


def test_side_by_side_has_an_arrow_for_each_portion():
    pictures = pour_pictures(loaf_of(staged()), 2)

    assert sum(shape.look == "is-arrowhead" for shape in pictures.end.shapes) == 2


def test_every_portion_of_now_is_lettered():
    for number in (1, 2, 3, 4):
        pictures = pour_pictures(loaf_of(staged()), number)
        named = {label.text for label in pictures.end.labels if label.look == "is-new"}
        assert named == letters(pictures.end, "is-new")


def test_the_real_masses_are_drawn():
    played = staged().until("split:B")
    played.tap("split", "split:B", portion="B", mass_g=900)

    planned, real = (pour_pictures(loaf_of(each), 2).end for each in (staged(), played))
    assert planned.shapes != real.shapes


@pytest.mark.parametrize("mould", [Mould("box", 300, 80, 80), Mould("slab", 400, 300, 45), TUBE, CAVITIES])
@pytest.mark.parametrize("way", WAYS)
def test_every_way_of_pouring_has_its_pictures_in_every_mould(way, mould):
    cut = {"cylinder": "rounds", "cavities": "cavities"}.get(mould.shape, "slices")
    stages = (PourStage("layer", ("A",), 1.0, 40), PourStage(way, ("B", "C"), 1.0, 60))
    loaf = in_mould(mould, replace(STAGED, pour=stages, cut=Cut(cut, 25, 3)))

    pictures = pour_pictures(loaf, 2)

    assert letters(pictures.end, "is-new") == {"B", "C"}
    assert pictures.top.is_round == (mould.shape == "cylinder")
    for shape in (*pictures.end.shapes, *pictures.top.shapes):
        assert re.fullmatch(r"[MLZhva0-9 .\-]+", shape.d), shape.d


def test_a_stage_that_is_not_there_has_no_picture():
    assert pour_pictures(loaf_of(staged()), 0) is None
    assert pour_pictures(loaf_of(staged()), 5) is None


def test_a_formula_without_stages_is_one_layer():
    pictures = pour_pictures(loaf_of(staged(replace(STAGED, pour=()))), 1)

    assert letters(pictures.end, "is-new") == {"A", "B", "C"}


def test_the_strokes_are_numbered_and_have_arrows():
    way = draw_screen(loaf_of(staged())).planned

    assert way.count == 5
    assert numbers(way.picture) == ["1", "2", "3", "4", "5"]
    assert sum(shape.look == "is-arrowhead" for shape in way.picture.shapes) == 5
    assert "5 strokes" in way.picture.alt


def test_many_strokes_carry_few_numbers():
    many = replace(STAGED, drawing=Drawing("zigzag", "skewer", 60, 4))
    picture = draw_screen(loaf_of(staged(many))).planned.picture

    assert len(numbers(picture)) < 12
    assert sum(shape.look == "is-arrowhead" for shape in picture.shapes) <= 10


def test_a_hanger_is_seen_from_the_end_and_its_bar_from_above():
    loops = replace(STAGED, drawing=Drawing("lifted loops", "hanger", 4))
    way = draw_screen(loaf_of(staged(loops))).planned

    assert "end" in way.picture.view
    assert "bar" in way.second.alt


def test_the_cuts_are_marked_from_the_end():
    (picture,) = cut_screen(loaf_of(staged(replace(STAGED, drawing=Drawing())))).best.pictures

    figures = [label.text for label in picture.labels]
    assert figures[:3] == ["3", "28", "53"]
    assert sum(shape.look == "is-cut" for shape in picture.shapes) == len(figures)


@pytest.mark.parametrize(("value", "text"), [(3.0, "3"), (61.54, "61.5"), (-0.01, "0"), (1200.0, "1200")])
def test_millimetres_have_one_decimal_at_most(value, text):
    assert mm(value) == text


def test_corners_that_nobody_sees_are_left_out():
    assert plain([(0, 0), (1, 0.01), (2, 0), (3, 0), (3, 5)]) == [(0, 0), (3, 0), (3, 5)]
    assert path([(0, 0), (10, 0), (10, 10)], closed=True) == "M0 0L10 0 10 10Z"
