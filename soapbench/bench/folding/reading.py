"""How each kind of event enters the tally."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import msgspec

from soapbench.bench import kinds
from soapbench.bench.folding.book import REST_TEST, SCALE_CHECK, TRACE
from soapbench.bench.folding.changes import take_change, weigh, weigh_part
from soapbench.bench.folding.firming import looked, pressed
from soapbench.bench.folding.hands import given_back, taken_in_hand
from soapbench.bench.folding.pausing import ASIDE, end_pause, paused, resumed, rinsed
from soapbench.bench.folding.remedying import take_remedy
from soapbench.bench.folding.superfat import central, pot_doubt, situation
from soapbench.bench.folding.tally import Tally
from soapbench.bench.kinds import KINDS
from soapbench.bench.state import Fact, PutOff, ScaleTried, TemperatureReading
from soapbench.science.false_trace import rest_result
from soapbench.science.scale_check import scale_check

MINUTE = 60.0
# After these, what was weighed in for a way out is in.
ENDS_TO_DO = ("done", "settled", "pot-checked", "trace-seen", "rest-tested", "split")
# Never what "take back" means.
UNTAKEN = ("started", "paused", "resumed", "rinsed", "taken-in-hand", "given-back", "credited")
ENDINGS = ("released", "rejected", "stopped")
# After these the superfat may be another one.
MOVES_SUPERFAT = ("weighed", "changed", "remedied", "done")


def read(tally: Tally, fact: Fact) -> None:
    """Take one event into the tally."""
    payload = msgspec.convert(fact.payload, KINDS[fact.kind])
    _READERS[fact.kind](tally, fact, payload)
    tally.people.setdefault(fact.person)
    if fact.kind in ENDS_TO_DO:
        tally.to_do = ""
    if fact.kind not in ASIDE:
        end_pause(tally, fact.happened_at)
    if fact.kind not in ("postponed", *ASIDE):
        tally.put_off = None  # going on takes it up again
    if fact.kind not in (*UNTAKEN, *ENDINGS):
        tally.last_event = fact.id
    if fact.kind in MOVES_SUPERFAT and tally.is_combined and not tally.was_lye_heavy:
        now = central(tally)
        tally.was_lye_heavy = now is not None and now < 0


def _started(tally: Tally, fact: Fact, payload: kinds.Started) -> None:
    tally.started_at = fact.happened_at


def _ticked(tally: Tally, fact: Fact, payload: kinds.Ticked) -> None:
    tally.ticked[payload.item] = payload.is_here


def _done(tally: Tally, fact: Fact, payload: kinds.Done) -> None:
    prompt = tally.book.prompts.get(fact.prompt)
    if payload.all_here and prompt is not None:
        for tick in prompt.ticks:
            if not tick.alone:
                tally.ticked.setdefault(tick.key, True)
    tally.mark_done(fact.prompt, fact.happened_at)


def _scale_checked(tally: Tally, fact: Fact, payload: kinds.ScaleChecked) -> None:
    found = scale_check(payload.known_g, payload.read_g, tally.plan.resolution_g)
    tally.scale_tried = ScaleTried(payload.known_g, payload.read_g, found.ok, found.sentence, fact.id)
    if found.ok:
        _mark(tally, fact, "scale check")
    else:
        tally.done.pop(SCALE_CHECK, None)


def _postponed(tally: Tally, fact: Fact, payload: kinds.Postponed) -> None:
    tally.put_off = PutOff(payload.why, payload.until, fact.happened_at, fact.person, fact.id)


def _weighed(tally: Tally, fact: Fact, payload: kinds.Weighed) -> None:
    line = tally.book.lines.get(payload.line)
    if line is not None:
        weigh(tally, fact, line, payload.mass_g, payload.lot)


def _part_weighed(tally: Tally, fact: Fact, payload: kinds.PartWeighed) -> None:
    line = tally.book.lines.get(payload.line)
    if line is not None:
        weigh_part(tally, fact, line, payload.mass_g)


def _remedied(tally: Tally, fact: Fact, payload: kinds.Remedied) -> None:
    take_remedy(tally, fact, payload)


def _settled(tally: Tally, fact: Fact, payload: kinds.Settled) -> None:
    tally.choice = payload.choice
    tally.decided = situation(tally)
    tally.mark_done(fact.prompt, fact.happened_at)


def _read(tally: Tally, fact: Fact, payload: kinds.Read) -> None:
    began = tally.lye_at or fact.happened_at
    minutes = (fact.happened_at - began).total_seconds() / MINUTE
    tally.readings.append(TemperatureReading(payload.pot, payload.temp_c, fact.happened_at, fact.id, minutes))
    _mark(tally, fact, "read")


def _pot_checked(tally: Tally, fact: Fact, payload: kinds.PotChecked) -> None:
    tally.pot_read_g = None if payload.decision else payload.mass_g
    if pot_doubt(tally) is None:
        tally.pot_read_g = None  # it agreed; what changes later is no matter of this weighing
    _mark(tally, fact, "pot check")


def _trace_seen(tally: Tally, fact: Fact, payload: kinds.TraceSeen) -> None:
    tally.trace = payload.trace
    _mark(tally, fact, "trace")


def _rest_tested(tally: Tally, fact: Fact, payload: kinds.RestTested) -> None:
    tally.rest_tests.append(fact)
    if rest_result(payload.oil_film, payload.thickens_as_it_cools).is_true:
        _mark(tally, fact, "rest test")
    else:  # it was no trace: blend on to it, then rest once more
        tally.trace = ""
        tally.done.pop(TRACE, None)
        tally.done.pop(REST_TEST, None)


def _split(tally: Tally, fact: Fact, payload: kinds.Split) -> None:
    tally.portions_g[payload.portion] = payload.mass_g
    for prompt in tally.plan.prompts:
        if prompt.kind == "split" and prompt.portion == payload.portion:
            tally.mark_done(prompt.key, fact.happened_at)


def _drawn(tally: Tally, fact: Fact, payload: kinds.Drawn) -> None:
    tally.drawing = {"path": payload.path, "tool": payload.tool, "passes": payload.passes, "event": fact.id}
    _mark(tally, fact, "draw")


def _changed(tally: Tally, fact: Fact, payload: kinds.Changed) -> None:
    take_change(tally, fact, payload)
    if payload.what == "drawn differently" and tally.is_combined:
        _mark(tally, fact, "draw")


def _noted(tally: Tally, fact: Fact, payload: kinds.Noted) -> None:
    tally.notes.append(fact)


def _said_before(tally: Tally, fact: Fact, payload: kinds.Credited | kinds.Decided) -> None:
    """What these say was applied to the log before it is read."""


def _attached(tally: Tally, fact: Fact, payload: kinds.Attached) -> None:
    tally.attachments.append(fact)


def _cut(tally: Tally, fact: Fact, payload: kinds.Cut) -> None:
    tally.cut = {"bars": payload.bars, "mass_g": payload.mass_g, "offcuts_g": payload.offcuts_g, "event": fact.id}
    tally.cut |= {"at": fact.happened_at, "way": payload.way or tally.plan.formula.cut.way}
    _mark(tally, fact, "cut")


def _cure_weighed(tally: Tally, fact: Fact, payload: kinds.CureWeighed) -> None:
    tally.cure_weighings.append((fact.happened_at, payload.bars, payload.mass_g))


def _tested(tally: Tally, fact: Fact, payload: kinds.Tested) -> None:
    tally.tests.append(fact)
    _mark(tally, fact, "test")


def _ended(tally: Tally, fact: Fact, payload: Any) -> None:
    tally.ended = fact
    if fact.kind != "stopped":
        _mark(tally, fact, "release")


def _mark(tally: Tally, fact: Fact, kind: str) -> None:
    """Mark the prompt done that the event names, or else the one that waits for just this."""
    prompt = tally.book.prompts.get(fact.prompt)
    if prompt is not None:
        if prompt.kind == kind:
            tally.mark_done(prompt.key, fact.happened_at)
        return
    for each in tally.plan.prompts:
        if each.kind == kind and kind != "read":
            tally.mark_done(each.key, fact.happened_at)


_READERS: dict[str, Callable[[Tally, Fact, Any], None]] = {
    "started": _started,
    "ticked": _ticked,
    "done": _done,
    "scale-checked": _scale_checked,
    "postponed": _postponed,
    "weighed": _weighed,
    "part-weighed": _part_weighed,
    "remedied": _remedied,
    "settled": _settled,
    "read": _read,
    "pot-checked": _pot_checked,
    "trace-seen": _trace_seen,
    "rest-tested": _rest_tested,
    "split": _split,
    "drawn": _drawn,
    "changed": _changed,
    "noted": _noted,
    "attached": _attached,
    "paused": paused,
    "resumed": resumed,
    "rinsed": rinsed,
    "taken-in-hand": taken_in_hand,
    "given-back": given_back,
    "credited": _said_before,
    "decided": _said_before,
    "looked": looked,
    "firmness-checked": pressed,
    "cut": _cut,
    "cure-weighed": _cure_weighed,
    "tested": _tested,
    "released": _ended,
    "rejected": _ended,
    "stopped": _ended,
}
