"""The shelf: find a material, see what is known of it, write down what was bought."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from soapbench.shelf.about import about_material
from soapbench.shelf.forms import ASKED, MaterialForm
from soapbench.shelf.lot_form import LotForm
from soapbench.shelf.models import Lot, Material
from soapbench.shelf.pages import AT_HAND, TABS, lot_lines, remarks_on, shelf_lines
from soapbench.shelf.stock import used_by_lot
from soapbench.shelf.writing import put_on_shelf
from soapbench.workshop.http import MakerRequest

form_methods = require_http_methods(["GET", "POST"])


@require_GET
def home(request: MakerRequest) -> HttpResponse:
    """Show the materials of one kind; a search alone looks through all of them."""
    words = request.GET.get("words", "")[:100]
    kind = request.GET.get("kind", "" if words else AT_HAND)
    if kind not in dict(TABS):
        kind = ""
    lines = shelf_lines(request.workshop, kind, words, used_by_lot(request.workshop), timezone.localdate())
    page = {"lines": lines, "kind": kind, "words": words, "tabs": TABS}
    return render(request, "shelf/home.html#lines" if request.htmx else "shelf/home.html", page)


@require_GET
def material(request: MakerRequest, pk: int) -> HttpResponse:
    row = get_object_or_404(
        Material.objects.seen_by(request.workshop).prefetch_related("fatty_acids", "allergens"), pk=pk
    )
    lots = lot_lines(request.workshop, used_by_lot(request.workshop), timezone.localdate()).get(row.key, [])
    return render(request, "shelf/material.html", {"material": row, "lots": lots, **about_material(row, lots)})


@form_methods
def material_add(request: MakerRequest, kind: str) -> HttpResponse:
    """Write down a material of one's own, or take over a reference one to change its figures."""
    if kind not in ASKED:
        raise Http404
    like = _like(request, kind)
    form = MaterialForm(_typed(request), kind=kind, initial=_figures(like) if like else {"confidence": "supplier"})
    if form.is_valid():
        row = put_on_shelf(form.save(commit=False), request.workshop, like)
        messages.success(request, _("%s is on the shelf.") % row.name)
        return redirect("shelf:material", row.pk)
    page = {"form": form, "kind": kind, "like": like}
    return render(request, "shelf/material_form.html", page, status=_status(request))


@form_methods
def material_edit(request: MakerRequest, pk: int) -> HttpResponse:
    row = get_object_or_404(Material.objects.filter(workshop=request.workshop), pk=pk)
    form = MaterialForm(_typed(request), instance=row, kind=row.kind)
    if form.is_valid():
        form.save()
        messages.success(request, _("Saved. Batches that have begun keep the old figures."))
        return redirect("shelf:material", row.pk)
    page = {"form": form, "kind": row.kind, "material": row}
    return render(request, "shelf/material_form.html", page, status=_status(request))


@form_methods
def lot_add(request: MakerRequest, pk: int) -> HttpResponse:
    row = get_object_or_404(Material.objects.seen_by(request.workshop), pk=pk)
    return _lot(request, Lot(workshop=request.workshop, material=row), 0.0)


@form_methods
def lot_edit(request: MakerRequest, pk: int) -> HttpResponse:
    row = get_object_or_404(Lot.objects.seen_by(request.workshop).select_related("material"), pk=pk)
    return _lot(request, row, used_by_lot(request.workshop).get(row.pk, 0.0))


def _lot(request: MakerRequest, lot: Lot, used_g: float) -> HttpResponse:
    form = LotForm(_typed(request), instance=lot, used_g=used_g)
    if form.is_valid():
        form.save()
        messages.success(request, _("Lot %s is written down.") % lot.code)
        return redirect("shelf:material", lot.material.pk)
    remarks = remarks_on(lot, timezone.localdate()) if lot.pk and request.method == "GET" else ()
    page = {"form": form, "lot": lot, "material": lot.material, "remarks": remarks}
    return render(request, "shelf/lot_form.html", page, status=_status(request))


def _like(request: MakerRequest, kind: str) -> Material | None:
    """Return the reference material that is to be taken over, unless it was already."""
    key = request.GET.get("like", "")
    if not key:
        return None
    if Material.objects.filter(workshop=request.workshop, key=key[:60]).exists():
        raise Http404
    return get_object_or_404(Material, workshop=None, key=key[:60], kind=kind)


def _figures(like: Material) -> dict[str, object]:
    return {name: getattr(like, name) for name in MaterialForm.Meta.fields}


def _typed(request: MakerRequest) -> QueryDict | None:
    return request.POST if request.method == "POST" else None


def _status(request: MakerRequest) -> int:
    return 422 if request.method == "POST" else 200
