"""The cut follows the tool that drew, the pour and the mould."""

import pytest

from soapbench.science.cut_advice import advise_cut

COLUMNS = ("side by side",)
LAYERS = ("layer",)


@pytest.mark.parametrize(
    ("path", "rod", "pours", "shape", "way", "strength"),
    [
        ("none", "upright", COLUMNS, "box", "slices", "no drawing"),
        ("zigzag", "upright", COLUMNS, "box", "blocks on their sides", "clear"),
        ("figure eights", "upright", ("layer", "drops"), "box", "blocks on their sides", "clear"),
        ("zigzag", "upright", LAYERS, "box", "slices", "hardly shows"),
        ("lifted loops", "along", LAYERS, "box", "slices", "clear"),
        ("round the edge", "along", COLUMNS, "slab", "slices", "clear"),
        ("lifted loops", "upright", LAYERS, "box", "long planks", "either"),
        ("figure eights", "upright", ("rings",), "box", "slices", "either"),
        ("zigzag", "upright", COLUMNS, "slab", "slices", "clear"),
        ("zigzag", "upright", COLUMNS, "cylinder", "rounds", "clear"),
        ("spiral", "upright", COLUMNS, "cavities", "cavities", "clear"),
    ],
)
def test_the_cut_that_shows_it(path, rod, pours, shape, way, strength):
    found = advise_cut(path, rod, pours, shape, "slices")

    assert (found.way, found.strength) == (way, strength)
    assert found.why.endswith(".")


def test_what_shows_either_way_keeps_the_planned_cut_and_names_another():
    found = advise_cut("spiral", "upright", ("rings",), "box", "blocks on their sides")

    assert (found.way, found.also) == ("blocks on their sides", ("slices",))
