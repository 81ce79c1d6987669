"""Something is not here: what helps, each way with its computed effect before it is chosen."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime

from django.utils.functional import Promise
from django.utils.translation import gettext as _

from soapbench.bench.missing_tools import STAND_INS, TIME_WAYS
from soapbench.bench.plan import Choice, Line, Plan, Prompt, Tick
from soapbench.bench.refusal import Refused
from soapbench.bench.run import fold
from soapbench.bench.state import Fact
from soapbench.bench.what_if import what_if
from soapbench.bench.words import round_grams
from soapbench.shelf.facts import MaterialFacts

MOST_STAND_INS = 5
MOST_DRAWINGS = 6
SETTLES = ("substituted", "left out")
LEAVES_OUT = ("fat", "colourant", "scent", "addition")
Words = str | Promise
Buttons = tuple[tuple[str, Words], ...]  # value and words


@dataclass(frozen=True)
class Way:
    """One way to go on: a form of one event, with a button for each of its answers to one question."""

    title: Words
    effect: str
    fields: dict[str, str]
    buttons: Buttons
    asks: str = "why"  # the field that the buttons answer
    swatch: str = ""


@dataclass(frozen=True)
class Helps:
    """What may be done about one item that is not here."""

    tick: Tick
    prompt: Prompt
    ways: tuple[Way, ...]
    note: Words = ""


def helps_with(plan: Plan, facts: tuple[Fact, ...], item: str) -> Helps | None:
    """Return what helps when an item of the plan is not here, None for an item that is not in it."""
    found = next(((prompt, tick) for prompt in plan.prompts for tick in prompt.ticks if tick.key == item), None)
    if found is None:
        return None
    prompt, tick = found
    ask = Ask(plan, facts, prompt, tick)
    return Helps(tick, prompt, tuple(_ways(ask)), _note(tick))


@dataclass(frozen=True)
class Ask:
    """The run as it stands, and the item that is not here."""

    plan: Plan
    facts: tuple[Fact, ...]
    prompt: Prompt
    tick: Tick

    def effect(self, fields: dict[str, str]) -> str:
        """Return what would follow if this change were made now.

        Raises:
            Refused: it could not be made.
        """
        payload = {**fields, "lot": int(fields["lot"])} if "lot" in fields else fields
        now = datetime.now(UTC)
        return what_if(
            self.plan, self.facts, kind="changed", prompt=self.prompt.key, payload=payload, happened_at=now, person=""
        ).effect


def _ways(ask: Ask) -> Iterator[Way]:
    if ask.tick.what == "material":
        settled = {change.details.get("line") for change in fold(ask.plan, ask.facts).changes if change.what in SETTLES}
        for key in ask.tick.lines:
            if key not in settled:
                yield from _for_line(ask, ask.plan.line(key))
    elif ask.tick.key == "tool:drawing":
        yield from _drawings(ask)
    elif ask.tick.key == "tool:scale":
        yield from _scales(ask)
    elif ask.tick.what in ("tool", "time"):
        yield from _stand_ins(ask)


def _note(tick: Tick) -> Words:
    if tick.what in ("protection", "room"):
        return _("Nothing stands in for this. Put the batch off until it is so.")
    if tick.key.startswith("material:") and tick.is_short:
        return _("The shelf book says that too little is left. If the jar says otherwise, tick it as here.")
    return ""


def _offered(ask: Ask, title: Words, fields: dict[str, str], buttons: Buttons, **more: str) -> Iterator[Way]:
    """Yield a way with its effect; none that the bench would refuse now."""
    try:
        effect = ask.effect(fields)
    except Refused:
        return
    yield Way(title, f"{effect} {more.get('left', '')}".strip(), fields, buttons, swatch=more.get("swatch", ""))


def _for_line(ask: Ask, line: Line) -> Iterator[Way]:
    for fact in _replacing(ask.plan, line):
        fields = {"what": "substituted", "line": line.key, "material": fact.key}
        if fact.lot:
            fields["lot"] = str(fact.lot)
        fields["decision"] = _("Use it in the same amount")
        title = _("%(name)s instead%(whom)s") % {"name": fact.name, "whom": _whom(line)}
        button = (_why_of(ask.tick), _("Use it"))
        yield from _offered(ask, title, fields, (button,), left=_left(fact, line), swatch=fact.swatch)
    if line.group in LEAVES_OUT:
        fields = {"what": "left out", "line": line.key, "decision": _("Go on without it")}
        reasons = (_("Out of stock"), _("Looks or smells wrong"), _("Not wanted this time"))
        title = _("Leave it out%s, because …") % _whom(line)
        yield from _offered(ask, title, fields, tuple((why, why) for why in reasons))


def _whom(line: Line) -> str:
    return _(" for portion %s") % line.portion if len(line.portion) == 1 else ""


def _why_of(tick: Tick) -> str:
    return _("Not enough left") if tick.is_short else _("Not at hand")


def _replacing(plan: Plan, line: Line) -> list[MaterialFacts]:
    """Return the stand-ins of the same kind: those with enough left first, the nearest to the planned one first."""
    planned = plan.materials.get(line.material)
    if planned is None:
        return []
    same = [fact for key, fact in plan.stand_ins.items() if fact.kind == planned.kind and key != line.material]
    return sorted(same, key=lambda fact: (_is_short(fact, line), _distance(fact, planned), fact.name))[:MOST_STAND_INS]


def _is_short(fact: MaterialFacts, line: Line) -> bool:
    return fact.left_g is not None and fact.left_g < line.planned_g


def _distance(fact: MaterialFacts, planned: MaterialFacts) -> float:
    """Return how far a stand-in is from what was planned: by its colour, its alkali or the time it leaves."""
    if planned.kind == "colourant" and fact.swatch and planned.swatch:
        return sum((one - other) ** 2 for one, other in zip(_rgb(fact.swatch), _rgb(planned.swatch), strict=True))
    if planned.kind == "fat":
        return abs(fact.sv_low + fact.sv_high - planned.sv_low - planned.sv_high)
    return abs((fact.working_minutes or 0.0) - (planned.working_minutes or 0.0))


def _rgb(swatch: str) -> bytes:
    return bytes.fromhex(swatch.removeprefix("#"))


def _left(fact: MaterialFacts, line: Line) -> str:
    if fact.left_g is None:
        return ""
    if _is_short(fact, line):
        return _("Only %(left)s of it are left, %(needed)s are needed.") % {
            "left": round_grams(fact.left_g),
            "needed": round_grams(line.planned_g),
        }
    return _("%s of it are left.") % round_grams(fact.left_g)


def _drawings(ask: Ask) -> Iterator[Way]:
    planned = ask.plan.formula.drawing
    for choice in _drawings_with_others(ask.plan):
        fields = {"what": "drawn differently", "path": choice.path, "tool": choice.tool, "item": ask.tick.key}
        title = _("%(path)s with %(tool)s") % {"path": choice.path.capitalize(), "tool": choice.tool_name.lower()}
        fields["decision"] = title
        yield from _offered(ask, title, fields, ((_("The tool is not at hand"), _("Draw this")),))
    if planned.path != "none":
        fields = {"what": "drawn differently", "path": "none", "item": ask.tick.key, "decision": _("No drawing")}
        why = _("The tool is not at hand")
        yield from _offered(ask, _("No drawing at all"), fields, ((why, _("Leave it as poured")),))


def _drawings_with_others(plan: Plan) -> list[Choice]:
    """Return the same path with another tool first, then one path after the other."""
    planned = plan.formula.drawing
    others = [choice for choice in plan.drawings if choice.tool != planned.tool]
    ranked = sorted(others, key=lambda choice: choice.path != planned.path)
    return ranked[:MOST_DRAWINGS]


def _scales(ask: Ask) -> Iterator[Way]:
    for scale in ask.plan.other_scales:
        fields = {"what": "another scale", "tool": scale.key, "item": ask.tick.key}
        fields["decision"] = _("Weigh on %s") % scale.name
        why = _("The scale is not right or not at hand")
        yield from _offered(ask, scale.name, fields, ((why, _("Take this one")),))


def _stand_ins(ask: Ask) -> Iterator[Way]:
    kind = ask.tick.key.removeprefix("tool:")
    if ask.tick.what == "time":
        for title, effect in TIME_WAYS:
            fields = {"what": "not at hand", "item": ask.tick.key, "decision": str(title)}
            yield Way(title, str(effect), fields, ((_("Less time than it takes"), _("Go on so")),))
        return
    for title, effect in STAND_INS.get(kind, ()):
        fields = {"what": "not at hand", "item": ask.tick.key, "decision": str(title)}
        yield Way(title, str(effect), fields, ((_("Not at hand"), _("Do that")),))
