import pytest

from soapbench.science.mould import Mould, fats_to_fill


# 0.40 oz of fats per cubic inch, a factor of the trade, is 0.69 g per ml: a mould of 1000 ml takes 690 to 700 g.
def test_the_trade_factor_of_040_oz_per_cubic_inch():
    grams_per_ml = 0.40 * 28.3495 / 16.387064

    assert fats_to_fill(Mould("box", 200, 100, 50), 1 / grams_per_ml) == pytest.approx(692, abs=1)


# Cavity moulds: 110 to 115 g of fats for a bar of 135 g cured, as printed by a trade page; with 33 % lye the fresh
# cavity holds about 1.44 ml of batter per gram of fats and a bar loses about 12 %.
def test_cavities_take_the_printed_fats():
    fats = fats_to_fill(Mould("cavities", cavities=1, cavity_ml=135 / 0.88 / 1.005), 1.41)

    assert 105 <= fats <= 116
