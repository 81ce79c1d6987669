"""The rows of a formula: fats, liquids, additions, portions, stages of the pour."""

from __future__ import annotations

from abc import abstractmethod
from typing import Any, Generic, TypeVar, cast

from django import forms
from django.forms import BaseFormSet, formset_factory
from django.utils.translation import gettext_lazy as _

from soapbench.bars import words
from soapbench.bars.fields import LettersField, OneOf, Words, spelt
from soapbench.bars.forms import OfferForm
from soapbench.bars.formula import LETTERS, Additive, FatLine, LiquidLine, Portion, PourStage
from soapbench.bars.offers import CHOOSE, READ_IT, Choices, Offers
from soapbench.shelf.acids import CITRIC
from soapbench.workshop.fields import NumberField

Part = TypeVar("Part")


class RowForm(OfferForm, Generic[Part]):
    """One row; an untouched one counts for nothing."""

    @abstractmethod
    def part(self) -> Part:
        """Return the line of the formula that was typed in this row."""

    @staticmethod
    @abstractmethod
    def typed(part: Any) -> dict[str, Any]:
        """Return what the row's fields would hold for a line."""


class FatRow(RowForm[FatLine]):
    material = OneOf(_("Fat"))
    amount = NumberField(_("Amount"), unit=_("% or g"), above=True)

    def offer(self, offers: Offers) -> None:
        self.choose("material", offers.of_kind("fat"), CHOOSE)

    def part(self) -> FatLine:
        return FatLine(self.cleaned_data["material"], self.cleaned_data["amount"])

    @staticmethod
    def typed(part: FatLine) -> dict[str, Any]:
        return {"material": part.material, "amount": spelt(part.amount)}


class LiquidRow(RowForm[LiquidLine]):
    material = OneOf(_("Liquid"))
    share = NumberField(_("In place of"), unit=_("% of the water"), above=True, most=100)
    goes_into = OneOf(_("It goes"), words.GOES_INTO, initial="fats")

    def offer(self, offers: Offers) -> None:
        self.choose("material", [choice for choice in offers.of_kind("liquid") if choice[0] != "water"], CHOOSE)

    def part(self) -> LiquidLine:
        typed = self.cleaned_data
        return LiquidLine(typed["material"], typed["share"] / 100, typed["goes_into"])

    @staticmethod
    def typed(part: LiquidLine) -> dict[str, Any]:
        return {"material": part.material, "share": spelt(100 * part.share), "goes_into": part.goes_into}


def _with_one_citric(choices: Choices) -> Choices:
    """Return the choices with the two forms of citric acid as one."""
    names = {CITRIC[0]: _("Citric acid")}
    return [(key, names.get(key, name)) for key, name in choices if key != CITRIC[1]]


class AdditionRow(RowForm[Additive]):
    material = OneOf(_("Colour, scent or addition"))
    # Citric acid stands in the list once: its two forms look alike, so which one it is gets asked.
    acid_form = OneOf(
        _("Which form does the jar say?"),
        required=False,
        help_text=_("The two take different masses of alkali; the check below says how much."),
    )
    dose = NumberField(_("Dose"), above=True, most=10_000)
    basis = OneOf(_("Counted in"), words.BASIS, initial="percent of fats")
    goes_to = OneOf(_("Goes to"), words.GOES_TO, initial="all")
    disperse_in = OneOf(
        _("Dispersed in"), required=False, help_text=_("Taken out of the recipe's own fat or water, never extra.")
    )
    disperse_ratio = NumberField(_("with so much of it"), unit=_("g for 1 g"), most=100, required=False)

    def offer(self, offers: Offers) -> None:
        groups = (("colourant", _("Colours")), ("scent", _("Scents")), ("addition", _("Additions")))
        self.choose("material", [(name, _with_one_citric(offers.of_kind(kind))) for kind, name in groups], CHOOSE)  # type: ignore[misc]  # groups of choices
        self.choose("acid_form", [one for one in offers.of_kind("addition") if one[0] in CITRIC], READ_IT)
        self.choose("disperse_in", [*offers.of_kind("liquid"), *offers.of_kind("fat")])

    def clean(self) -> dict[str, Any]:
        typed: dict[str, Any] = super().clean() or {}
        if typed.get("disperse_in") and not typed.get("disperse_ratio"):
            self.add_error("disperse_ratio", _("Write how many grams go with 1 g, such as 3."))
        if typed.get("material") in CITRIC and not typed.get("acid_form") and "acid_form" not in self.errors:
            self.add_error("acid_form", _("Anhydrous or monohydrate? Read it on the jar: the alkali differs by 9 %."))
        return typed

    def part(self) -> Additive:
        typed = {**self.cleaned_data}
        form = typed.pop("acid_form")
        material = form if typed["material"] in CITRIC else typed["material"]
        return Additive(**{**typed, "material": material, "disperse_ratio": typed["disperse_ratio"] or 0.0})

    @staticmethod
    def typed(part: Additive) -> dict[str, Any]:
        return {
            "material": CITRIC[0] if part.material in CITRIC else part.material,
            "acid_form": part.material if part.material in CITRIC else "",
            "dose": spelt(part.dose),
            "basis": part.basis,
            "goes_to": part.goes_to,
            "disperse_in": part.disperse_in,
            "disperse_ratio": spelt(part.disperse_ratio) if part.disperse_ratio else "",
        }


class PortionRow(RowForm[Portion]):
    letter = OneOf(_("Letter"), [CHOOSE, *((letter, letter) for letter in LETTERS)])
    name = Words(_("Name"), 40)
    parts = NumberField(_("Parts"), above=True, most=10_000)
    colour = forms.RegexField(
        r"^#[0-9a-fA-F]{6}$",
        label=_("Colour"),
        initial="#e8dcc4",
        widget=forms.TextInput(attrs={"type": "color"}),
        error_messages={"invalid": _("Choose a colour."), "required": _("Choose a colour.")},
    )
    texture = OneOf(_("Texture"), words.TEXTURE, initial="plain")

    def part(self) -> Portion:
        typed = self.cleaned_data
        return Portion(typed["letter"], typed["name"], typed["parts"], typed["colour"].lower(), typed["texture"])

    @staticmethod
    def typed(part: Portion) -> dict[str, Any]:
        return {
            "letter": part.letter,
            "name": part.name,
            "parts": spelt(part.parts),
            "colour": part.colour,
            "texture": part.texture,
        }


class PourRow(RowForm[PourStage]):
    way = OneOf(_("Pour as"), words.POUR_WAY, initial="layer")
    portions = LettersField(_("Portions, in order"), 40)
    share = NumberField(_("How much of each"), unit="%", above=True, most=100, initial="100")
    height_mm = NumberField(_("From a height of"), unit="mm", most=2000, initial="50")
    note = Words(_("Note"), 200, required=False)

    def part(self) -> PourStage:
        typed = self.cleaned_data
        return PourStage(typed["way"], typed["portions"], typed["share"] / 100, typed["height_mm"], typed["note"])

    @staticmethod
    def typed(part: PourStage) -> dict[str, Any]:
        return {
            "way": part.way,
            "portions": " ".join(part.portions),
            "share": spelt(100 * part.share),
            "height_mm": spelt(part.height_mm),
            "note": part.note,
        }


class Rows(BaseFormSet):  # type: ignore[type-arg]  # no subscript at run time
    """Rows of one kind. Which were there before does not matter: any may be left empty."""

    def get_form_kwargs(self, index: int | None) -> dict[str, Any]:
        return {**super().get_form_kwargs(index), "empty_permitted": True}

    def parts(self) -> tuple[Any, ...]:
        """Return what was typed, row by row, without the empty ones."""
        return tuple(row.part() for row in self.forms if row.cleaned_data)


def _rows(form: type[RowForm[Any]], most: int) -> type[Rows]:
    made = formset_factory(form, formset=Rows, extra=0, max_num=most, absolute_max=most + 5, validate_max=True)
    return cast("type[Rows]", made)


ROWS: dict[str, type[Rows]] = {
    "fats": _rows(FatRow, 20),
    "liquids": _rows(LiquidRow, 6),
    "additives": _rows(AdditionRow, 30),
    "portions": _rows(PortionRow, len(LETTERS)),
    "pour": _rows(PourRow, 30),
}
