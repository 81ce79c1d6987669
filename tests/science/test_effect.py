import pytest

from soapbench.science.alkali import Alkali, AlkaliMass, Fat, alkali_for, superfat_of
from soapbench.science.effect import MOST_OF_LINE, MOST_POINTS, alkali_slope, fat_slope, mol_per_g, tolerance_by_effect
from soapbench.science.errors import OutOfRange
from soapbench.science.split_weighing import split_weighing

OLIVE, COCONUT, CASTOR = Fat("olive", 400, 184, 196), Fat("coconut", 300, 248, 265), Fat("castor", 40, 176, 187)
FATS = [OLIVE, COCONUT, CASTOR]
SODIUM = Alkali(naoh_purity=0.98)
MADE = alkali_for(FATS, 0.05, SODIUM)


def test_the_slope_of_the_alkali_is_what_one_gram_more_does():
    more = AlkaliMass(MADE.naoh_g + 1)
    gap = superfat_of(FATS, more, SODIUM) - superfat_of(FATS, MADE, SODIUM)

    assert alkali_slope("NaOH", FATS, SODIUM) == pytest.approx(gap)


@pytest.mark.parametrize("fat", FATS, ids=lambda fat: fat.name)
def test_the_slope_of_a_fat_is_what_a_little_more_does(fat):
    little = 0.01
    more = [*FATS, Fat(fat.name, little, fat.sv_low, fat.sv_high)]
    gap = superfat_of(more, MADE, SODIUM) - superfat_of(FATS, MADE, SODIUM)

    assert fat_slope(fat, FATS, 0.05) == pytest.approx(gap / little, rel=1e-4)


def test_a_weight_at_its_tolerance_moves_the_superfat_by_half_a_point_at_most():
    slope = alkali_slope("NaOH", FATS, SODIUM)
    allowed = tolerance_by_effect(slope, MADE.naoh_g, 0.01)

    assert 0.9 * MOST_POINTS.value < abs(slope) * allowed <= MOST_POINTS.value


def test_a_small_fat_may_be_off_by_a_twentieth_of_itself_and_no_more():
    assert tolerance_by_effect(fat_slope(CASTOR, FATS, 0.05), 40, 0.1) == pytest.approx(40 * MOST_OF_LINE.value)


def test_a_fat_that_takes_no_alkali_has_its_twentieth():
    assert tolerance_by_effect(0.0, 100, 0.1) == 5


def test_no_tolerance_is_finer_than_a_step_of_the_scale():
    assert tolerance_by_effect(-0.1, 10, 1.0) == 1


def test_a_tolerance_is_in_whole_steps():
    assert tolerance_by_effect(-0.0066, 143.6, 0.5) == 0.5


def test_without_a_fat_there_is_no_slope():
    with pytest.raises(OutOfRange):
        alkali_slope("KOH", [], SODIUM)


def test_a_gram_of_potassium_hydroxide_gives_less_than_one_of_sodium():
    assert mol_per_g("KOH", SODIUM) < mol_per_g("NaOH", SODIUM)


def test_what_the_scale_carries_is_one_part():
    assert split_weighing(900, capacity_g=2000, resolution_g=0.1, tare_g=640).parts == (900,)


def test_more_than_the_scale_carries_is_weighed_in_full_parts_and_the_rest():
    found = split_weighing(1351.5, capacity_g=1550, resolution_g=0.1, tare_g=640)

    assert (found.parts, found.limit) == ((900, 451.5), "scale")


def test_parts_add_up_and_none_is_too_heavy():
    found = split_weighing(4321.7, capacity_g=1000, resolution_g=0.1, tare_g=120)

    assert sum(found.parts) == pytest.approx(4321.7)
    assert max(found.parts) + 120 <= 1000


def test_a_pot_that_is_too_heavy_with_what_is_in_it_sends_the_weighing_aside():
    found = split_weighing(400, capacity_g=2000, resolution_g=0.1, tare_g=640, in_it_g=1200, cup_tare_g=60)

    assert (found.parts, found.is_aside) == ((400,), True)


def test_a_vessel_that_holds_no_more_is_named_as_the_limit():
    found = split_weighing(500, capacity_g=5000, resolution_g=1, tare_g=100, room_g=300)

    assert (found.parts, found.limit) == ((300, 200), "vessel")


@pytest.mark.parametrize("capacity", [100, 120])
def test_a_scale_too_small_for_the_vessel_is_told(capacity):
    with pytest.raises(OutOfRange):
        split_weighing(500, capacity_g=capacity, resolution_g=1, tare_g=120)
