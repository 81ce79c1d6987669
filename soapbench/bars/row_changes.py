"""Adding and taking away rows on the page for editing; what was typed stays, checked or not."""

from __future__ import annotations

import re
from typing import Any

from django import forms
from django.http import QueryDict

from soapbench.bars.formula_forms import SINGLES, FormulaForms
from soapbench.bars.offers import Offers
from soapbench.bars.row_forms import ROWS, Rows

CHANGE = re.compile(r"^(add)-([a-z]+)$|^(remove)-([a-z]+)-(\d{1,3})$")


def changed_rows(data: QueryDict, offers: Offers) -> FormulaForms:
    """Return the forms as typed, with the row added or removed that the pressed button names; unchecked."""
    rows = {name: typed_rows(data, name, form) for name, form in ROWS.items()}
    changed = _change(rows, data.get("row", ""))
    singles = {name: typed_in(data, name, form) for name, form in SINGLES.items()}
    forms = FormulaForms.filled(singles, rows, offers)
    if changed:
        _go_to(forms.rows[changed[0]], changed[1])
    return forms


def _change(rows: dict[str, list[dict[str, Any]]], wish: str) -> tuple[str, int] | None:
    """Add or remove the row that is wished for; return which rows changed, and where to go on."""
    match = CHANGE.match(wish)
    if not match:
        return None
    add, added, _remove, removed, index = match.groups()
    if add and added in rows and len(rows[added]) < ROWS[added].max_num:
        rows[added].append({})
        return added, len(rows[added]) - 1
    if removed in rows and int(index) < len(rows[removed]):
        del rows[removed][int(index)]
        return removed, max(0, int(index) - 1)
    return None


def _go_to(rows: Rows, index: int) -> None:
    """Let the keyboard go on in this row: its button or the row itself has just been swapped away."""
    if index < len(rows.forms):
        first = next(iter(rows.forms[index].fields.values()))
        first.widget.attrs["autofocus"] = True


def typed_rows(data: QueryDict, name: str, rows: type[Rows]) -> list[dict[str, Any]]:
    """Return the raw values of each row."""
    try:
        count = int(data.get(f"{name}-TOTAL_FORMS", 0))
    except ValueError:
        count = 0
    count = max(0, min(count, rows.max_num))
    return [typed_in(data, f"{name}-{index}", rows.form) for index in range(count)]


def typed_in(data: QueryDict, prefix: str, form: type[forms.BaseForm]) -> dict[str, Any]:
    """Return the raw values of a form's fields, as its widgets read them."""
    fields = form.base_fields  # type: ignore[attr-defined]  # set by the metaclass of every form
    return {
        name: value
        for name, field in fields.items()
        if (value := field.widget.value_from_datadict(data, {}, f"{prefix}-{name}")) is not None
    }
