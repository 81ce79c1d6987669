"""The whole page on which a formula is edited: all its forms, filled from a formula or from what was typed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.http import QueryDict
from django.utils.translation import gettext as _

from soapbench.bars.forms import (
    AlkaliForm,
    CutForm,
    DrawingForm,
    FatsByForm,
    OfferForm,
    ProcessForm,
    WaterForm,
    WhyForm,
)
from soapbench.bars.formula import Formula
from soapbench.bars.offers import Offers
from soapbench.bars.row_forms import ROWS, RowForm, Rows

SINGLES: dict[str, type[OfferForm]] = {
    "fats_by": FatsByForm,
    "alkali": AlkaliForm,
    "water": WaterForm,
    "drawing": DrawingForm,
    "cut": CutForm,
    "process": ProcessForm,
    "why": WhyForm,
}
PARTS = ("fats_by", "alkali", "water", "drawing", "cut", "process")  # the forms that make one part of a formula each


class FormulaForms:
    """Every form of a formula by name, as attributes `singles` and `rows`."""

    def __init__(self, singles: Mapping[str, OfferForm], rows: Mapping[str, Rows]) -> None:
        self.singles = singles
        self.rows = rows

    @classmethod
    def bound(cls, data: QueryDict, offers: Offers, *, needs_why: bool = False) -> FormulaForms:
        """Return the forms with what was typed, to be checked; `needs_why` asks what changed and why."""
        more = {"offers": offers}
        forms = cls(
            {name: form(data, prefix=name, **more) for name, form in SINGLES.items()},
            {name: rows(data, prefix=name, form_kwargs=more) for name, rows in ROWS.items()},
        )
        forms.singles["why"].fields["why"].required = needs_why
        return forms

    @classmethod
    def filled(
        cls, singles: Mapping[str, Mapping[str, Any]], rows: Mapping[str, list[dict[str, Any]]], offers: Offers
    ) -> FormulaForms:
        """Return the forms with these values, unchecked."""
        more = {"offers": offers}
        return cls(
            {name: form(initial=singles.get(name), prefix=name, **more) for name, form in SINGLES.items()},
            {name: of(initial=rows[name], prefix=name, form_kwargs=more) for name, of in ROWS.items()},
        )

    @classmethod
    def of(cls, formula: Formula, offers: Offers) -> FormulaForms:
        """Return the forms filled from a formula."""
        singles = {
            "fats_by": {"fats_by": formula.fats_by},
            "alkali": AlkaliForm.typed(formula),
            "water": WaterForm.typed(formula),
            "drawing": DrawingForm.typed(formula),
            "cut": CutForm.typed(formula),
            "process": ProcessForm.typed(formula),
        }
        rows = {name: _typed_rows(formula, name) for name in ROWS}
        rows["fats"] = rows["fats"] or [{}, {}]  # a new bar has somewhere to begin
        return cls.filled(singles, rows, offers)

    def __getitem__(self, name: str) -> OfferForm | Rows:
        return self.singles[name] if name in self.singles else self.rows[name]

    def is_valid(self) -> bool:
        """Check every form, so that each says what is wrong with it; a formula needs a fat and a portion."""
        return not self.wrong and not self.missing

    @property
    def missing(self) -> str:
        """Return the sentence that says what a formula cannot do without, or nothing."""
        if self.rows["fats"].is_valid() and not self.rows["fats"].parts():
            return _("Choose at least one fat, and write how much of it.")
        if self.rows["portions"].is_valid() and not self.rows["portions"].parts():
            return _("Name at least one portion: A, with all of the batter, will do.")
        return ""

    @property
    def formula(self) -> Formula:
        """Return the formula that was typed; only after is_valid said yes."""
        parts: dict[str, Any] = {name: self.singles[name].part() for name in PARTS}
        parts |= {name: rows.parts() for name, rows in self.rows.items()}
        superfat = self.singles["alkali"].cleaned_data["superfat"] / 100
        return Formula(**parts, superfat=superfat, mould=self.singles["cut"].cleaned_data["mould"])

    @property
    def why(self) -> str:
        return str(self.singles["why"].part())

    @property
    def wrong(self) -> set[str]:
        """Return the names of the parts in which something is wrong."""
        singles = {name for name, form in self.singles.items() if form.errors}
        return singles | {name for name, rows in self.rows.items() if rows.is_bound and not rows.is_valid()}

    @property
    def complaints(self) -> list[tuple[str, str]]:
        """Return the label and the first sentence of each field that cannot be read."""
        singles = [form for form in self.singles.values() if form.errors]
        rows = [row for rows in self.rows.values() for row in rows.forms if row.errors]
        return [
            (str(form.fields[name].label), str(errors[0]))
            for form in (*singles, *rows)
            for name, errors in form.errors.items()
            if name in form.fields
        ]


def _typed_rows(formula: Formula, name: str) -> list[dict[str, Any]]:
    form = ROWS[name].form
    assert issubclass(form, RowForm)
    return [form.typed(part) for part in getattr(formula, name)]
