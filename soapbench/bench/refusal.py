"""Why something was not recorded, in words for the maker."""

from __future__ import annotations


class Refused(Exception):
    """The bench did not accept this. `field` names the input at fault, "" when it is none in particular."""

    def __init__(self, sentence: str, field: str = "") -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.field = field
