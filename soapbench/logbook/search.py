"""Finding runs in the logbook: what may be asked, and the answer in pages."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, time, timedelta
from typing import Any

from django import forms
from django.core.paginator import Page, Paginator
from django.http import QueryDict
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from soapbench.bars.models import Bar
from soapbench.bench.models import Run, RunQuerySet
from soapbench.workshop.fields import DateField, in_plain_words
from soapbench.workshop.models import Workshop

ON_A_PAGE = 25
MOST_WORDS = 8
ANY = gettext_lazy("any")
WRONG_WAY_ROUND = gettext_lazy("The last day lies before the first. Change one of them.")
CHOOSE = gettext_lazy("There is no “%(value)s”. Choose one from the list.")


class WordsField(forms.CharField):
    """Free words; what no database can store becomes a blank."""

    def to_python(self, value: Any) -> str:
        text = super().to_python(value) or ""
        return " ".join(text.replace("\0", " ").split())


class SearchForm(forms.Form):
    """Every field may be empty; one that makes no sense says so and is left out of the search."""

    words = WordsField(label=gettext_lazy("Words"), required=False, max_length=100)
    bar = forms.ChoiceField(label=gettext_lazy("Bar"), required=False)
    state = forms.ChoiceField(label=gettext_lazy("State"), required=False, choices=[("", ANY), *Run.Status.choices])
    since = DateField(gettext_lazy("From"))
    until = DateField(gettext_lazy("To"))
    deviations = forms.BooleanField(label=gettext_lazy("Only with deviations from the plan"), required=False)

    def __init__(self, data: QueryDict, workshop: Workshop) -> None:
        super().__init__(data)
        bars = Bar.objects.seen_by(workshop).values_list("slug", "name")
        choice = self.fields["bar"]
        assert isinstance(choice, forms.ChoiceField)
        choice.choices = [("", ANY), *bars]
        in_plain_words(self)
        for name in ("bar", "state"):
            self.fields[name].error_messages["invalid_choice"] = CHOOSE
        self.fields["words"].widget.attrs["type"] = "search"

    def clean_words(self) -> str:
        return " ".join(self.cleaned_data["words"].split()[:MOST_WORDS])

    def clean(self) -> dict[str, Any]:
        asked = self.cleaned_data
        if asked.get("since") and asked.get("until") and asked["until"] < asked["since"]:
            self.add_error("until", forms.ValidationError(WRONG_WAY_ROUND, code="wrong way round"))
        return asked

    @property
    def is_narrowed(self) -> bool:
        """Return whether anything was asked for."""
        return any(self.cleaned_data.values())

    @property
    def is_filtered(self) -> bool:
        """Return whether more than words was asked for, or asked for wrongly: the filters are shown open then."""
        return bool(self.errors) or any(value for name, value in self.cleaned_data.items() if name != "words")


@dataclass(frozen=True)
class Found:
    """One page of runs, newest first, and a sentence where the page that was asked for is not there."""

    form: SearchForm
    page: Page[Run]
    remark: str
    query: str  # the search without the page, for the links to the other pages


def find(asked: QueryDict, workshop: Workshop) -> Found:
    """Return the runs of a workshop that fit what was asked: three queries, however many runs there are."""
    form = SearchForm(asked, workshop)
    form.is_valid()
    runs = narrowed(Run.objects.seen_by(workshop), form.cleaned_data).select_related("bar", "revision", "made_by")
    paginator = Paginator(runs.defer("plan_document").order_by("-made_at", "-pk"), ON_A_PAGE)
    page = paginator.get_page(asked.get("page", "1"))
    return Found(form, page, _remark(asked.get("page", ""), page), _without_page(asked))


def narrowed(runs: RunQuerySet, asked: dict[str, Any]) -> RunQuerySet:
    """Return the runs that fit every part of the search that is filled."""
    if asked.get("words"):
        runs = runs.matching(asked["words"])
    if asked.get("bar"):
        runs = runs.filter(bar__slug=asked["bar"])
    if asked.get("state"):
        runs = runs.filter(status=asked["state"])
    if asked.get("since"):
        runs = runs.filter(made_at__gte=_midnight(asked["since"]))
    if asked.get("until"):
        runs = runs.filter(made_at__lt=_midnight(asked["until"]) + timedelta(days=1))
    return runs.with_deviations() if asked.get("deviations") else runs


def _midnight(day: Any) -> datetime:
    return timezone.make_aware(datetime.combine(day, time.min))


def _remark(asked: str, page: Page[Run]) -> str:
    if not asked or asked == str(page.number):
        return ""
    pages = page.paginator.num_pages
    return _("There is no page “%(asked)s”. This is page %(number)d of %(pages)d.") % {
        "asked": asked[:20],
        "number": page.number,
        "pages": pages,
    }


def _without_page(asked: QueryDict) -> str:
    rest = asked.copy()
    rest.pop("page", None)
    return rest.urlencode()
