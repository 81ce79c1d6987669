"""The maker's line: the bars, one bar with its revisions, and the page on which a formula is written."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from soapbench.bars.bar_page import about_bar, about_revisions
from soapbench.bars.conditions import conditions_for
from soapbench.bars.forms import BarForm
from soapbench.bars.formula import Formula, Portion
from soapbench.bars.formula_forms import FormulaForms
from soapbench.bars.models import Bar
from soapbench.bars.offers import offers_for
from soapbench.bars.revising import make_bar, revise
from soapbench.bars.row_changes import changed_rows
from soapbench.bars.section_words import section_words
from soapbench.workshop.http import MakerRequest

BLANK = Formula(fats=(), portions=(Portion("A", "Whole", 1),))
ADDED = "rows-changed"  # tells the page that the numbers are to be worked out again


@require_GET
def home(request: MakerRequest) -> HttpResponse:
    """Show the line."""
    bars = list(Bar.objects.seen_by(request.workshop).with_current())
    made = [bar for bar in bars if not bar.is_retired]
    retired = [bar for bar in bars if bar.is_retired]
    return render(request, "bars/home.html", {"made": made, "retired": retired})


@require_GET
def bar(request: MakerRequest, slug: str) -> HttpResponse:
    """Show a bar as it is made now."""
    return _show(request, _bar(request, slug), None)


@require_GET
def revision(request: MakerRequest, slug: str, number: int) -> HttpResponse:
    """Show a bar as it was in one revision."""
    return _show(request, _bar(request, slug), number)


def _bar(request: MakerRequest, slug: str) -> Bar:
    return get_object_or_404(Bar.objects.seen_by(request.workshop), slug=slug)


def _show(request: MakerRequest, bar: Bar, number: int | None) -> HttpResponse:
    revisions = list(bar.revisions.select_related("made_by"))
    shown = next((one for one in revisions if number in (None, one.number)), None)
    if shown is None:
        return redirect("bars:bar" if revisions else "bars:edit", bar.slug)
    offers = offers_for(request.workshop)
    about = about_bar(request.workshop, shown.formula, offers.names)
    told = about_revisions(revisions, offers.names)
    return render(
        request, "bars/bar.html", {"bar": bar, "shown": shown, "current": revisions[0], "told": told, **about}
    )


@require_http_methods(["GET", "POST"])
def new(request: MakerRequest) -> HttpResponse:
    """Write down a new bar."""
    offers = offers_for(request.workshop)
    if request.method == "GET":
        return _editor(request, BarForm(), FormulaForms.of(BLANK, offers))
    form = BarForm(request.POST)
    if "row" in request.POST:
        return _rows_changed(request, form, None)
    forms = FormulaForms.bound(request.POST, offers)
    if not _all_right(form, forms):
        return _editor(request, form, forms, status=422)
    said = form.cleaned_data
    made = make_bar(
        workshop=request.workshop,
        name=said["name"],
        description=said["description"],
        formula=forms.formula,
        by=request.user,
    )
    messages.success(request, _("%s is written down.") % made.name)
    return redirect("bars:bar", made.slug)


@require_http_methods(["GET", "POST"])
def edit(request: MakerRequest, slug: str) -> HttpResponse:
    """Edit a bar's formula; one that a run has used gives the next revision."""
    bar = _bar(request, slug)
    current = bar.revisions.first()
    offers = offers_for(request.workshop)
    if request.method == "GET":
        formula = current.formula if current else BLANK
        return _editor(request, BarForm(instance=bar), FormulaForms.of(formula, offers), bar=bar)
    form = BarForm(request.POST, instance=bar)
    if "row" in request.POST:
        return _rows_changed(request, form, bar)
    forms = FormulaForms.bound(request.POST, offers, needs_why=bool(current and current.is_pinned))
    if not _all_right(form, forms):
        return _editor(request, form, forms, bar=bar, status=422)
    form.save()
    saved = revise(bar=bar, formula=forms.formula, by=request.user, why=forms.why)
    messages.success(request, _("%(bar)s is saved as revision %(number)d.") % {"bar": bar.name, "number": saved.number})
    return redirect("bars:bar", bar.slug)


def _all_right(form: BarForm, forms: FormulaForms) -> bool:
    # Both are asked, so that each shows what is wrong with it.
    return all([form.is_valid(), forms.is_valid()])


def _editor(
    request: MakerRequest, form: BarForm, forms: FormulaForms, *, bar: Bar | None = None, status: int = 200
) -> HttpResponse:
    pinned = bool(bar and (current := bar.revisions.first()) and current.is_pinned)
    touched = request.POST.get("row", "").split("-")[1:2]
    about: dict[str, Any] = {"form": form, "forms": forms, "bar": bar, "pinned": pinned, "failed": status == 422}
    first = () if bar else ("fats", "alkali", "water", "portions")  # a known bar is folded, to see it whole
    about["opened"] = {*touched, *(forms.wrong if status == 422 else ()), *first}
    return render(request, "bars/edit.html", about, status=status)


def _rows_changed(request: MakerRequest, form: BarForm, bar: Bar | None) -> HttpResponse:
    typed = BarForm(initial={name: form.data.get(name, "") for name in form.fields}, instance=bar)
    answer = _editor(request, typed, changed_rows(request.POST, offers_for(request.workshop)), bar=bar)
    answer["HX-Trigger-After-Settle"] = ADDED
    return answer


@require_POST
def check_typed(request: MakerRequest) -> HttpResponse:
    """Work out the numbers of what is typed so far."""
    offers = offers_for(request.workshop)
    forms = FormulaForms.bound(request.POST, offers)
    template = "bars/_check.html" if request.htmx else "bars/check.html"
    if not forms.is_valid():
        return render(request, template, {"forms": forms}, status=422)
    check = conditions_for(request.workshop, forms.formula).check(forms.formula)
    about = {"check": check, "told": section_words(forms.formula, offers.names)}
    return render(request, template, about)
