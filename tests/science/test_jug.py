import pytest

from soapbench.science.errors import OutOfRange
from soapbench.science.jug import JUG_MATERIALS, jug_check


def test_a_large_polypropylene_jug_is_right():
    assert jug_check("polypropylene", 1000, 400, 99).ok


@pytest.mark.parametrize("material", ["aluminium", "zinc", "tin", "glass", "PET", "polycarbonate", "polystyrene"])
def test_a_material_that_lye_attacks_stops(material):
    check = jug_check(material, 1000, 400, 60)

    assert (check.ok, check.stops) == (False, True)
    assert "polypropylene" in check.sentence


def test_metal_that_lye_eats_is_said_to_give_hydrogen():
    assert "hydrogen" in jug_check("aluminium", 1000, 400, 60).sentence


def test_more_lye_than_jug_stops():
    assert jug_check("polypropylene", 300, 400, 60).stops


def test_a_jug_over_two_thirds_full_is_warned_about():
    check = jug_check("polypropylene", 500, 400, 60)

    assert (check.ok, check.stops) == (False, False)
    assert "80 % full" in check.sentence


def test_a_jug_that_gets_too_hot_is_warned_about():
    assert "95 °C" in jug_check("HDPE", 1000, 400, 95).sentence


@pytest.mark.parametrize("name", JUG_MATERIALS)
def test_every_material_answers(name):
    assert jug_check(name, 1000, 400, 60).sentence


def test_an_unknown_material_is_refused():
    with pytest.raises(OutOfRange, match="cardboard"):
        jug_check("cardboard", 1000, 400, 60)
