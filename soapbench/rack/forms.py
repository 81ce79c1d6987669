"""The acts at the rack, each a small form that becomes one event."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any, ClassVar

from django import forms
from django.core.exceptions import ValidationError
from django.http import QueryDict
from django.utils import timezone
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from soapbench.bench.cut_words import WAYS
from soapbench.bench.folding.book import CURE, CUT, FIRM, RELEASE, TEST
from soapbench.bench.ids import new_id
from soapbench.workshop.fields import DateField, NumberField, in_plain_words

MOST_GRAMS = 100_000
METHODS = (
    ("pH of a 1 % solution", gettext_lazy("pH of a 1 % solution")),
    ("titration of free alkali", gettext_lazy("Titration of free alkali, %")),
    ("phenolphthalein in ethanol", gettext_lazy("Phenolphthalein in ethanol: 0 stays clear, 1 turns pink")),
)
VERDICTS = (
    ("", gettext_lazy("Choose")),
    ("yes", gettext_lazy("It passed")),
    ("no", gettext_lazy("It did not pass")),
)
GELS = (
    ("", gettext_lazy("Choose")),
    ("yes", gettext_lazy("Yes, it gelled")),
    ("no", gettext_lazy("No gel")),
    ("unknown", gettext_lazy("Don't know")),
)
FIRMNESS = (
    ("", gettext_lazy("Choose")),
    ("firm", gettext_lazy("Firm, no dent")),
    ("dents", gettext_lazy("It dents: leave it for 6 to 12 h")),
    ("crumbles", gettext_lazy("It crumbles: test it before anything else")),
)
LOST_ID = gettext_lazy("This form has lost its number. Load the page again.")
NOT_A_TIME = gettext_lazy("This is not a time. Write it as 2026-11-25 08:30.")
TIME_FORMATS = ["%Y-%m-%dT%H:%M", "%Y-%m-%dT%H:%M:%S", "%Y-%m-%d %H:%M"]


class CountField(NumberField):
    """A whole number of bars."""

    def to_python(self, value: Any) -> float | None:
        number = super().to_python(value)
        if number is not None and number != int(number):
            raise ValidationError(_("Write a whole number of bars."), code="not whole")
        return None if number is None else int(number)


class TimeField(forms.DateTimeField):
    """When it happened, for what is written down later; empty means now."""

    def __init__(self) -> None:
        super().__init__(
            label=gettext_lazy("When, if not now"),
            required=False,
            input_formats=TIME_FORMATS,
            widget=forms.DateTimeInput(attrs={"type": "datetime-local"}, format="%Y-%m-%dT%H:%M"),
            error_messages={"invalid": NOT_A_TIME},
        )

    def clean(self, value: Any) -> datetime | None:
        when: datetime | None = super().clean(value)
        if when is not None and when > timezone.now():
            raise ValidationError(_("This lies ahead. Leave it empty for now, or write when it was."), code="ahead")
        return when


def grams_field(label: str | Promise, **more: Any) -> NumberField:
    return NumberField(label, unit="g", most=MOST_GRAMS, **more)


def bars_field(label: str | Promise, **more: Any) -> CountField:
    return CountField(label, unit=gettext_lazy("bars"), least=1, most=10_000, **more)


def remark_field(label: Any) -> forms.CharField:
    return forms.CharField(label=label, required=False, max_length=200)


def words_field(label: Any) -> forms.CharField:
    return forms.CharField(label=label, min_length=2, max_length=2000, widget=forms.Textarea(attrs={"rows": 2}))


class ActForm(forms.Form):
    """One act. Its `id` makes a second tap on the same button harmless."""

    kind: ClassVar[str] = "done"
    prompt: ClassVar[str] = ""
    button: ClassVar[str | Promise] = ""

    id = forms.UUIDField(widget=forms.HiddenInput, error_messages={"invalid": LOST_ID})

    def __init__(self, data: QueryDict | None = None, *, name: str, **initial: Any) -> None:
        super().__init__(data, prefix=name, initial={"id": new_id(), **initial})
        self.name = name
        in_plain_words(self)
        for field in self.hidden_fields():
            field.field.error_messages["required"] = LOST_ID

    @property
    def at_prompt(self) -> str:
        """Return the key of the prompt that this answers."""
        return self.cleaned_data.get("at") or self.prompt

    @property
    def happened_at(self) -> datetime:
        when: datetime | None = self.cleaned_data.get("when")
        return when or timezone.now()

    def payload(self) -> dict[str, Any]:
        """Return what the event carries: every other field that was filled."""
        filled = {name: value for name, value in self.cleaned_data.items() if name not in ("id", "at", "when")}
        return {name: value for name, value in filled.items() if value not in (None, "")}

    def refuse(self, sentence: str, field: str = "") -> None:
        """Show the sentence at the field, or above the form where it belongs to no field that is seen."""
        is_seen = field in self.fields and not self.fields[field].widget.is_hidden
        self.add_error(field if is_seen else None, _(sentence))

    def renew(self) -> None:
        """Give the form a new number; all that was typed stays."""
        self.data = dict(self.data.items()) | {self.add_prefix("id"): new_id()}


class DoneForm(ActForm):
    """The act that a prompt asks for was done; the prompt comes from the page, which may be older than the run."""

    at = forms.CharField(max_length=120, widget=forms.HiddenInput)
    note = remark_field(gettext_lazy("Remark"))
    when = TimeField()


class CloseCureForm(ActForm):
    prompt, button = CURE, gettext_lazy("Close the cure")

    note = remark_field(gettext_lazy("Remark"))


class NoTestForm(ActForm):
    prompt, button = TEST, gettext_lazy("Go on without a test")

    note = remark_field(gettext_lazy("Why no test is needed"))


class LookForm(ActForm):
    """What the loaf shows; the prompt comes from the page: it is asked once soon after the pour, and again at rest."""

    kind, prompt, button = "looked", "look", gettext_lazy("Write down the look")

    at = forms.CharField(max_length=120, widget=forms.HiddenInput)
    gel = forms.ChoiceField(label=gettext_lazy("Dark, wet centre or a ring"), choices=GELS)
    when = TimeField()


class FirmnessForm(ActForm):
    kind, prompt, button = "firmness-checked", FIRM, gettext_lazy("Write down how firm it is")

    found = forms.ChoiceField(label=gettext_lazy("A gloved thumb in the middle"), choices=FIRMNESS)
    note = remark_field(gettext_lazy("Remark"))
    when = TimeField()

    def payload(self) -> dict[str, Any]:
        found = self.cleaned_data["found"]
        words = {"note": note} if (note := self.cleaned_data.get("note")) else {}
        return {"is_firm": found == "firm", "crumbles": found == "crumbles", **words}


class CutForm(ActForm):
    kind, prompt, button = "cut", CUT, gettext_lazy("Write down the cut")

    bars = bars_field(gettext_lazy("Bars"))
    mass_g = grams_field(gettext_lazy("Their weight together"), above=True)
    offcuts_g = grams_field(gettext_lazy("Trimmings"), required=False)
    way = forms.ChoiceField(
        label=gettext_lazy("Cut as"), choices=(("", gettext_lazy("As planned")), *WAYS.items()), required=False
    )
    when = TimeField()


class WeighingForm(ActForm):
    kind, prompt, button = "cure-weighed", CURE, gettext_lazy("Write down the weighing")

    bars = bars_field(gettext_lazy("Marked bars"))
    mass_g = grams_field(gettext_lazy("Their weight together"), above=True)
    when = TimeField()


class TestForm(ActForm):
    kind, prompt, button = "tested", TEST, gettext_lazy("Write down the test")

    method = forms.ChoiceField(label=gettext_lazy("How"), choices=METHODS)
    value = NumberField(gettext_lazy("Result"), most=100)
    passed = forms.ChoiceField(label=gettext_lazy("Verdict"), choices=VERDICTS)
    note = remark_field(gettext_lazy("Remark"))
    when = TimeField()

    def payload(self) -> dict[str, Any]:
        return {**super().payload(), "passed": self.cleaned_data["passed"] == "yes"}


class ReleaseForm(ActForm):
    kind, prompt, button = "released", RELEASE, gettext_lazy("Release these bars")

    bars = bars_field(gettext_lazy("Bars released"))
    note = remark_field(gettext_lazy("Why they may go"))


class RejectForm(ActForm):
    kind, prompt, button = "rejected", RELEASE, gettext_lazy("Reject the bars")

    reason = words_field(gettext_lazy("Why they may not be sold"))


class StopForm(ActForm):
    kind, button = "stopped", gettext_lazy("Give the batch up")

    reason = words_field(gettext_lazy("Why"))
    made_safe = words_field(gettext_lazy("How it was made safe"))


class NoteForm(ActForm):
    kind, button = "noted", gettext_lazy("Add a remark")

    text = words_field(gettext_lazy("Remark"))


class TakeBackForm(ActForm):
    kind, button = "took-back", gettext_lazy("Take it back")

    event = forms.CharField(min_length=36, max_length=36, widget=forms.HiddenInput)


class SoldForm(forms.Form):
    """The day for which the mass of a bar is asked; `cut_on` is the first that makes sense."""

    sold = DateField(gettext_lazy("Sold on"))

    def __init__(self, data: QueryDict | None, *, cut_on: date, usual: date) -> None:
        super().__init__(data, initial={"sold": usual})
        self.cut_on, self.usual = cut_on, usual
        self.fields["sold"].required = True
        in_plain_words(self)

    def clean_sold(self) -> date:
        sold: date = self.cleaned_data["sold"]
        if sold < self.cut_on:
            raise ValidationError(_("This is before the cut. Choose a later day."), code="before the cut")
        return sold

    @property
    def on(self) -> date:
        """Return the day that was asked for, the usual one where none was."""
        if self.is_bound and self.is_valid():
            sold: date = self.cleaned_data["sold"]
            return sold
        return self.usual
