"""What is said when the pot of fats was weighed: science's own check, made of what this run weighed."""

import pytest

from soapbench.bench import rules
from soapbench.bench.folding.pot import pot_checked
from soapbench.bench.kinds import PotChecked
from soapbench.science.pot import pot_check
from tests.bench.sample import hand


@pytest.fixture
def fats_in():
    return hand().start().until("pot-check")


def remark(played, mass_g):
    return rules.check(played.plan, played.state, tuple(played.facts), "pot-checked", "pot-check", PotChecked(mass_g))


def mass_of(played, key):
    return played.state.weights[key].mass_g


def test_a_pot_that_weighs_what_it_should_needs_no_word(fats_in):
    assert remark(fats_in, fats_in.state.pot_g) == ""


def test_a_pot_without_one_of_its_fats_names_it(fats_in):
    without = fats_in.state.pot_g - mass_of(fats_in, "fat:olive")

    assert "Olive: is it really in the pot?" in remark(fats_in, without)


def test_a_pot_with_a_fat_twice_names_it(fats_in):
    assert "Olive: is it in the pot twice?" in remark(fats_in, fats_in.state.pot_g + mass_of(fats_in, "fat:olive"))


def test_the_bench_says_what_science_says(fats_in):
    weighed = {weight.name: weight.mass_g for weight in fats_in.state.weights.values() if weight.line.startswith("fat")}
    read = fats_in.state.pot_g - 20

    found = pot_checked(fats_in.plan, fats_in.state.weights, read)

    assert found == pot_check(sum(weighed.values()), read, len(weighed), fats_in.plan.resolution_g, weighed)
    assert remark(fats_in, read) == found.sentence != ""
