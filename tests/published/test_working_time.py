from itertools import permutations

import pytest

from soapbench.science.scent_time import working_minutes
from soapbench.science.working_time import ScentedPortion, schedule


# Usual times of the trade: from thin to thick trace 5 to 30 min; a seizing scent acts within seconds to a minute; one
# maker's "accelerates slightly" meant 45 s once.
def test_first_guesses_lie_within_what_makers_report():
    assert 5 <= working_minutes("calm").central <= 30
    assert working_minutes("seizes").central <= 1
    assert working_minutes("seizes").contains(0.75)


# J. R. Jackson 1955: on one machine, earliest due date first has the smallest greatest lateness. Here by brute force
# over every order of scents and of pours, apart from our own search.
@pytest.mark.parametrize("working", [(4, 9, 6), (12, 5, 8), (7, 7, 7), (3, 20, 15)])
def test_spare_time_is_the_best_of_all_orders(working):
    scenting = (1.0, 1.5, 2.0)
    portions = [ScentedPortion(*portion) for portion in zip("ABC", working, scenting, strict=True)]

    assert schedule(portions).spare_minutes == pytest.approx(best_by_brute_force(portions))


def best_by_brute_force(portions):
    return max(least_spare(scents, pours) for scents in permutations(portions) for pours in permutations(portions))


def least_spare(scents, pours):
    clock, began = 0.0, {}
    for portion in scents:
        began[portion.letter] = clock
        clock += portion.scent_minutes
    spares = []
    for portion in pours:
        clock += portion.pour_minutes
        spares.append(portion.working_minutes - (clock - began[portion.letter]))
    return min(spares)
