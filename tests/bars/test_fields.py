"""Numbers and letters as makers type them."""

import pytest
from django.core.exceptions import ValidationError

from soapbench.bars.fields import LettersField, spelt
from soapbench.workshop.fields import NumberField

GRAMS = NumberField("Amount", unit="g", above=True, most=1000)


@pytest.mark.parametrize("text", ["12.5", "12,5", " 12.5 ", "012.50"])
def test_a_decimal_comma_is_as_good_as_a_point(text):
    assert GRAMS.clean(text) == 12.5


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "Write a number here."),
        ("12 oz", "“12 oz” is not a plain number. Write the number alone; it is in g."),
        ("twelve", "is not a plain number"),
        ("1.234,5", "is not a plain number"),
        ("nan", "is not a plain number"),
        ("1e999", "is not a plain number"),
        ("0", "Write more than 0 here."),
        ("-3", "Write more than 0 here."),
        ("−3", "Write more than 0 here."),
        ("1001", "1001 is too much. Write 1000 or less."),
    ],
)
def test_what_is_no_good_number_is_refused_in_words(text, sentence):
    with pytest.raises(ValidationError) as refusal:
        GRAMS.clean(text)

    assert sentence in refusal.value.messages[0]


def test_an_optional_number_may_be_left_out():
    assert NumberField("Spacing", required=False).clean("") is None


@pytest.mark.parametrize("text", ["A B A", "aba", "A, B, A"])
def test_letters_keep_their_order(text):
    assert LettersField("Portions").clean(text) == ("A", "B", "A")


@pytest.mark.parametrize("text", ["A Z", "1", "blue"])
def test_what_is_no_portion_letter_is_refused(text):
    with pytest.raises(ValidationError, match="letters of portions"):
        LettersField("Portions").clean(text)


@pytest.mark.parametrize(("number", "text"), [(5.0, "5"), (0.1 * 3, "0.3"), (12.25, "12.25"), (100000.0, "100000")])
def test_a_number_is_spelt_as_it_is_typed(number, text):
    assert spelt(number) == text
