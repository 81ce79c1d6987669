import pytest

from soapbench.science import words
from soapbench.science.errors import OutOfRange, between, not_negative, positive


@pytest.fixture
def german():
    """The catalogue of another language, and its decimal mark."""
    known = {"Weigh {mass:.1f} g of {fat}.": "Wieg {mass:.1f} g {fat} ab.", "The mass": "Die Masse"}
    before = (words._speech.one, words._speech.many, words._speech.word, words._speech.decimal_mark)
    words.speak_with(
        lambda message: known.get(message, message),
        lambda one, many, count: "{count} Stange" if count == 1 else "{count} Stangen",
        lambda context, name: {("material", "Olive oil"): "Olivenöl"}.get((context, name), name),
        lambda: ",",
    )
    yield
    words.speak_with(*before)


def test_a_sentence_is_said_with_its_values():
    assert words.say("Weigh {mass:.1f} g of {fat}.", mass=1234.56, fat="olive") == "Weigh 1234.6 g of olive."


def test_braces_stay_where_there_are_no_values():
    assert words.say("{so}") == "{so}"


def test_another_language_has_its_own_words_and_decimal_mark(german):
    assert words.say("Weigh {mass:.1f} g of {fat}.", mass=1234.56, fat="3.5 % milk") == "Wieg 1234,6 g 3.5 % milk ab."


def test_thousands_never_stand_behind_a_mark_that_could_be_a_decimal_one(german):
    assert words.figure(1234.5, ",.1f") == "1\u202f234,5"


def test_a_count_chooses_its_sentence(german):
    assert [words.plural("{count} bar", "{count} bars", count) for count in (1, 2)] == ["1 Stange", "2 Stangen"]


def test_a_name_of_the_reference_data_is_translated_and_a_typed_one_is_not(german):
    assert [words.word("material", name) for name in ("Olive oil", "My own oil", "")] == ["Olivenöl", "My own oil", ""]


@pytest.mark.parametrize(
    ("names", "said"), [((), ""), (("A",), "A"), (("A", "B"), "A and B"), (("A", "B", "C"), "A, B and C")]
)
def test_names_stand_in_a_row(names, said):
    assert words.listed(names) == said


def test_a_check_says_its_name_only_when_it_refuses(german):
    with pytest.raises(OutOfRange, match="Die Masse must be more than 0 g, not -1,5."):
        positive(-1.5, "The mass")


@pytest.mark.parametrize(
    ("check", "sentence"),
    [
        (lambda: positive(0, "The number of bars", ""), "The number of bars must be more than 0, not 0."),
        (
            lambda: not_negative(-1, "The weight of {name}", name="milk"),
            "The weight of milk cannot be less than 0 g, but it is -1.",
        ),
        (lambda: between(9, 1, 2, "The rate"), "The rate must be between 1 and 2, not 9."),
    ],
)
def test_a_check_without_a_unit_leaves_no_gap(check, sentence):
    with pytest.raises(OutOfRange) as refusal:
        check()

    assert str(refusal.value) == sentence
