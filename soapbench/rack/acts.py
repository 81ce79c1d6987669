"""Which acts a run on the rack offers now, and the one that a request performs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from django.http import QueryDict
from django.utils.functional import Promise
from django.utils.translation import gettext as _

from soapbench.bench.events import Appended, append
from soapbench.bench.folding.book import CURE, CUT, FIRM, RELEASE, TEST
from soapbench.bench.models import Run
from soapbench.bench.payloads import parse, stored
from soapbench.bench.plan import Plan
from soapbench.bench.refusal import Refused
from soapbench.bench.state import RunState
from soapbench.rack.forms import (
    ActForm,
    CloseCureForm,
    CutForm,
    DoneForm,
    FirmnessForm,
    LookForm,
    NoteForm,
    NoTestForm,
    RejectForm,
    ReleaseForm,
    StopForm,
    TakeBackForm,
    TestForm,
    WeighingForm,
)
from soapbench.rack.release import waits_for_test
from soapbench.workshop.models import Person

DEVICE = "plain page"  # as the bench names a form that came without a script
FORMS: Mapping[str, type[ActForm]] = {
    "done": DoneForm,
    "close": CloseCureForm,
    "no-test": NoTestForm,
    "look": LookForm,
    "firmness": FirmnessForm,
    "cut": CutForm,
    "weigh": WeighingForm,
    "test": TestForm,
    "release": ReleaseForm,
    "reject": RejectForm,
    "stop": StopForm,
    "note": NoteForm,
    "take-back": TakeBackForm,
}
AT: Mapping[str, tuple[str, ...]] = {
    "look": ("look",),
    "rest": ("done", "look"),
    FIRM: ("firmness",),
    CUT: ("cut",),
    CURE: ("weigh", "close", "test", "reject"),
    TEST: ("test", "no-test", "reject"),
    RELEASE: ("release", "test", "reject"),
}
DANGER = ("reject", "stop")


@dataclass(frozen=True)
class Act:
    """One form as the page shows it."""

    name: str
    form: ActForm
    title: str | Promise
    look: str  # class of its button


def acts(plan: Plan, state: RunState, sent: ActForm | None = None) -> tuple[Act, ...]:
    """Return the acts that make sense now, the likeliest first; a refused one keeps what was typed and is shown."""
    names = [*_names(state)]
    if sent is not None and sent.name not in names and sent.name != "take-back":
        names.insert(0, sent.name)
    return tuple(_act(name, plan, state, sent, is_first=name == names[0]) for name in names)


def _names(state: RunState) -> tuple[str, ...]:
    if state.ended is not None:
        return ("note",)
    names = AT.get(state.current, ("done",))
    if waits_for_test(state):
        names = tuple(name for name in names if name not in ("no-test", "release"))
    return (*names, "note") if state.cut is not None else (*names, "note", "stop")


def _act(name: str, plan: Plan, state: RunState, sent: ActForm | None, *, is_first: bool) -> Act:
    form = (
        sent
        if sent is not None and sent.name == name
        else FORMS[name](name=name, at=state.current, bars=_bars(name, state))
    )
    look = "is-danger" if name in DANGER else "is-main" if is_first and name != "note" else ""
    return Act(name, form, _title(name, plan, state, form), look)


def _bars(name: str, state: RunState) -> int | None:
    """Return the number that is likely right: as many as were weighed last, or all that were cut."""
    if name == "weigh":
        return state.cure_weighings[-1][1] if state.cure_weighings else None
    return state.cut["bars"] if name == "release" and state.cut else None


def _title(name: str, plan: Plan, state: RunState, form: ActForm) -> str | Promise:
    if name == "done" and state.current:
        return plan.prompt(state.current).title
    return form.button


def sent_form(name: str, data: QueryDict) -> ActForm | None:
    """Return the form of that name with what was sent, or None for a name that is none of ours."""
    return FORMS[name](data, name=name) if name in FORMS else None


def perform(run: Run, form: ActForm, by: Person) -> bool:
    """Append the event of a valid form; on a refusal the form says why, at the field, and False comes back.

    The same form sent twice is one event. A form that comes back from the browser's memory with other figures was
    never one event: it is shown again under a new number, since what was typed would be lost without a word.
    """
    try:
        done = append(
            run,
            id=form.cleaned_data["id"],
            kind=form.kind,
            prompt=form.at_prompt,
            payload=form.payload(),
            happened_at=form.happened_at,
            device=DEVICE,
            by=by,
        )
    except Refused as refusal:
        form.refuse(refusal.sentence, "when" if refusal.field == "happened_at" else refusal.field)
        return False
    if done.was_new or _is_same(done, form):
        return True
    form.renew()
    form.refuse(_("This form was sent before, with something else in it. If this is a further entry, send it again."))
    return False


def _is_same(done: Appended, form: ActForm) -> bool:
    event = done.event
    return event.kind == form.kind and event.payload == stored(parse(form.kind, form.payload()))
