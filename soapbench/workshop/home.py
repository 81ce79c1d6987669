"""The workshop's own pages: numbers to call, room, equipment, people, and the first start."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.core.exceptions import PermissionDenied
from django.db import transaction
from django.forms import ModelForm
from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from soapbench.workshop import entry
from soapbench.workshop.equipment_forms import EQUIPMENT
from soapbench.workshop.fields import free_key
from soapbench.workshop.forms import PersonForm, StartForm, WorkshopForm
from soapbench.workshop.http import MakerRequest
from soapbench.workshop.models import Person

form_methods = require_http_methods(["GET", "POST"])


@require_GET
def home(request: MakerRequest) -> HttpResponse:
    """Show the numbers to call, the equipment and the people."""
    shelves = [(word, title, getattr(request.workshop, word).all()) for word, (title, _form) in EQUIPMENT.items()]
    people = request.workshop.people.order_by("first_name", "username")
    return render(request, "workshop/home.html", {"equipment": shelves, "people": people})


@form_methods
def details(request: MakerRequest) -> HttpResponse:
    form = WorkshopForm(_typed(request), instance=request.workshop)
    if form.is_valid():
        form.save()
        return _saved(request)
    return _form_page(request, form, _("Numbers to call, and the room"))


@form_methods
def equipment_add(request: MakerRequest, word: str) -> HttpResponse:
    title, form_class = _equipment(word)
    things = getattr(request.workshop, word)
    form = form_class(_typed(request), initial={"is_here": True})
    if form.is_valid():
        thing = form.save(commit=False)
        thing.workshop = request.workshop
        thing.key = free_key(thing.name, set(things.values_list("key", flat=True)))
        thing.save()
        return _saved(request)
    return _form_page(request, form, title)


@form_methods
def equipment_edit(request: MakerRequest, word: str, pk: int) -> HttpResponse:
    title, form_class = _equipment(word)
    form = form_class(_typed(request), instance=get_object_or_404(getattr(request.workshop, word), pk=pk))
    if form.is_valid():
        form.save()
        return _saved(request)
    return _form_page(request, form, title)


@require_POST
def equipment_here(request: MakerRequest, word: str, pk: int) -> HttpResponse:
    """Mark a thing as here or not here, with one tap."""
    _equipment(word)
    thing = get_object_or_404(getattr(request.workshop, word), pk=pk)
    thing.is_here = request.POST.get("is_here") == "yes"
    thing.save(update_fields=["is_here"])
    return redirect(f"{reverse('workshop:home')}#{word}")


@form_methods
def person_add(request: MakerRequest) -> HttpResponse:
    _only_the_owner(request)
    form = PersonForm(_typed(request), instance=Person(workshop=request.workshop))
    if form.is_valid():
        form.save()
        return _saved(request)
    return _form_page(request, form, _("Somebody who works here"))


@form_methods
def person_edit(request: MakerRequest, pk: int) -> HttpResponse:
    person = get_object_or_404(request.workshop.people, pk=pk)
    if person != request.user:
        _only_the_owner(request)
    form = PersonForm(_typed(request), instance=person)
    if form.is_valid():
        form.save()
        return _saved(request)
    return _form_page(request, form, person.name)


@login_not_required
@form_methods
def start(request: HttpRequest) -> HttpResponse:
    """Ask at the first start, at the machine itself, whose workshop this is."""
    if not entry.is_first_start(request):
        raise Http404
    form = StartForm(_typed(request))
    if form.is_valid():
        _open(form)
        return redirect("workshop:home")
    return _form_page(request, form, _("Whose workshop is this?"))


@transaction.atomic
def _open(form: StartForm) -> None:
    name = form.cleaned_data["your_name"]
    owner = Person(first_name=name, username=free_key(name, set()), workshop=form.save(), is_owner=True)
    owner.set_unusable_password()
    owner.save()


def _equipment(word: str) -> tuple[str, type[ModelForm[Any]]]:
    if word not in EQUIPMENT:
        raise Http404
    return EQUIPMENT[word]


def _only_the_owner(request: MakerRequest) -> None:
    if not request.user.is_owner:
        raise PermissionDenied


def _typed(request: HttpRequest) -> QueryDict | None:
    return request.POST if request.method == "POST" else None


def _saved(request: HttpRequest) -> HttpResponse:
    messages.success(request, _("Saved."))
    return redirect("workshop:home")


def _form_page(request: HttpRequest, form: ModelForm[Any], title: str) -> HttpResponse:
    status = 422 if request.method == "POST" else 200
    return render(request, "workshop/form.html", {"form": form, "title": title}, status=status)
