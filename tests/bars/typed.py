"""What a browser sends for a formula: the page's own forms, filled and read back."""

from soapbench.bars.formula_forms import FormulaForms
from soapbench.bars.offers import Offers

NOTHING = Offers({}, [], [], [])


def typed(formula, offers=NOTHING, name="A bar", **changes):
    """Return the fields of the page for editing as the browser sends them, some of them typed over."""
    forms = FormulaForms.of(formula, offers)
    fields = {"name": name, "description": ""}
    for form in forms.singles.values():
        fields |= _sent(form)
    for prefix, rows in forms.rows.items():
        fields |= {f"{prefix}-TOTAL_FORMS": len(rows.forms), f"{prefix}-INITIAL_FORMS": len(rows.forms)}
        for row in rows.forms:
            fields |= _sent(row)
    return {**fields, **{key.replace("__", "-"): value for key, value in changes.items()}}


def _sent(form):
    values = {form.add_prefix(name): form[name].value() for name in form.fields}
    # A browser sends nothing for an empty tick, and an empty text for an empty field.
    return {key: "" if value is None else value for key, value in values.items() if value is not False}
