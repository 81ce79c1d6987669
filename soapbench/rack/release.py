"""What must be seen before bars are released: each check with what the record says about it."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from soapbench.bench.folding.book import CURE
from soapbench.bench.rules.lye import needs_test
from soapbench.bench.rules.rack import HIGHEST_PH
from soapbench.bench.state import Fact, RunState


@dataclass(frozen=True)
class Check:
    """One thing to see before the release. `stops` says that without it there is none."""

    sentence: str
    is_met: bool
    stops: bool = False

    @property
    def mark(self) -> str:
        if self.is_met:
            return "good"
        return "stop" if self.stops else "attention"


def checks(state: RunState) -> tuple[Check, ...]:
    """Return what a person looks at before the decision, in the order of the run."""
    return (_superfat(state), _deviations(state), _cure(state), _test(state))


def has_passed(state: RunState) -> bool:
    """Return whether the last test was passed; earlier ones do not count."""
    return bool(state.tests) and bool(state.tests[-1].payload["passed"])


def waits_for_test(state: RunState) -> bool:
    """Return whether these bars cannot be released before a test is passed."""
    return needs_test(state) and not has_passed(state)


def _superfat(state: RunState) -> Check:
    interval = state.superfat
    is_met = interval is not None and not interval.lye_heavy_possible and not state.needs_test
    return Check(state.superfat_sentence or _("Nobody knows the superfat of this batch."), is_met)


def _deviations(state: RunState) -> Check:
    if not state.deviations:
        return Check(_("Nothing departed from the plan."), True)
    found = ngettext("%d departure from the plan.", "%d departures from the plan.", state.deviations)
    return Check(_("%s Read each in the record, with what was decided.") % (found % state.deviations), False)


def _cure(state: RunState) -> Check:
    is_closed = CURE in state.done
    return Check(_("The cure is closed.") if is_closed else _("The cure is still open."), is_closed, stops=True)


def _test(state: RunState) -> Check:
    if has_passed(state):
        return Check(_("A bar passed its test: %s.") % said(state.tests[-1]), True)
    if state.tests:
        return Check(_("The last test was not passed: %s.") % said(state.tests[-1]), False, stops=True)
    if needs_test(state):
        return Check(_("This batch is, was or may be lye-heavy: it needs a passed test."), False, stops=True)
    return Check(_("No bar was tested. Your rules may ask for a test."), False)


def said(test: Fact) -> str:
    """Return what a test found: its method and its value."""
    method, value = test.payload["method"], f"{test.payload['value']:g}"
    if method.startswith("pH"):
        return _("pH %s in a 1 %% solution") % value
    if method.startswith("titration"):
        return _("%s %% free alkali by titration") % value
    return f"{method}, {value}"


def ph_rule() -> str:
    """Return the app's own rule on pH in words."""
    words = _("Above pH %g a bar is not released: our own limit, after entry 15a in Annex III of EU 1223/2009.")
    return words % HIGHEST_PH
