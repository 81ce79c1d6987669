"""What a change means at the prompts that come after it: one passive line each.

The phone makes the same lines from the same changes (`static/js/bench/notices.js`); tests/vectors hold both.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from soapbench.bench.folding.tally import Tally
from soapbench.bench.plan import Line, Prompt
from soapbench.bench.state import Change, Notice
from soapbench.bench.words import grams

Said = Iterator[tuple[Prompt, str]]
Targets = Mapping[str, float]
WARMED = ("cover", "oven")  # prompts that decide how warm the loaf stays


def notices(tally: Tally, asked: Targets) -> dict[str, tuple[Notice, ...]]:
    """Return, by the prompt's key, what earlier changes mean at prompts that are not done yet.

    The prompt at which a change was made says it in its own way and is left out.
    """
    found: dict[str, tuple[Notice, ...]] = {}
    for change in tally.changes:
        say = _SAYS.get(change.what)
        for prompt, sentence in say(tally, change, asked) if say else ():
            if prompt.key != change.prompt and prompt.key not in tally.done:
                found[prompt.key] = (*found.get(prompt.key, ()), Notice(change.event, change.at, sentence))
    return found


def _prompts_of(tally: Tally, line: Line) -> Iterator[Prompt]:
    return (prompt for prompt in tally.plan.prompts if prompt.line == line.key)


def _pours(tally: Tally, letter: str) -> Iterator[Prompt]:
    """Return the pours that a portion goes into; every pour for "" and for what is in the whole batter."""
    for prompt in tally.plan.prompts:
        if prompt.kind == "pour" and (letter in ("", "all") or letter in tally.book.letters_of(prompt)):
            yield prompt


def _of_kind(tally: Tally, *kinds: str) -> Iterator[Prompt]:
    return (prompt for prompt in tally.plan.prompts if prompt.kind in kinds)


def _line_of(tally: Tally, change: Change) -> Line | None:
    return tally.book.lines.get(change.details.get("line", ""))


def _substituted(tally: Tally, change: Change, asked: Targets) -> Said:
    line = _line_of(tally, change)
    stand_in = tally.book.facts(change.details.get("material", ""), None)
    if line is None or stand_in is None:
        return
    for prompt in _prompts_of(tally, line):
        weighs = f": weigh {grams(asked[line.key])}" if prompt.kind == "weigh" else ""
        yield prompt, f"{stand_in.name} goes in for {line.name}{weighs}."


def _amount_off(tally: Tally, change: Change, asked: Targets) -> Said:
    line, mass = _line_of(tally, change), change.details.get("mass_g")
    if line is None or mass is None:
        return
    for prompt in _prompts_of(tally, line):
        if prompt.kind == "act":
            yield prompt, f"{line.name}: {grams(mass)} weighed, {grams(line.planned_g)} planned."


def _lost(tally: Tally, change: Change, asked: Targets) -> Said:
    line, mass, letter = _line_of(tally, change), change.details.get("mass_g"), change.details.get("portion", "")
    if line is not None:
        for prompt in _prompts_of(tally, line):
            yield prompt, f"Some {line.name} was lost." if mass is None else f"{grams(mass)} of {line.name} was lost."
        return
    how_much = "Some batter" if mass is None else f"{grams(mass)} of batter"
    sentence = f"{how_much} was lost{f' from portion {letter}' if letter else ''}: fewer or thinner bars."
    for prompt in (*_pours(tally, letter), *_of_kind(tally, "cut")):
        yield prompt, sentence


def _left_out(tally: Tally, change: Change, asked: Targets) -> Said:
    line, letter = _line_of(tally, change), change.details.get("portion", "")
    if line is None:
        for prompt in (*_pours(tally, letter), *_of_kind(tally, "draw", "cut")) if letter else ():
            yield prompt, f"Portion {letter} is left out."
        return
    for prompt in tally.plan.prompts:
        carrier = tally.book.lines.get(prompt.line)
        if prompt.kind == "weigh" and carrier is not None and carrier.key.startswith(_carried(line)):
            rest = f"{carrier.name} still belongs to the fats" if carrier.basis == "fat" else "leave this out too"
            yield prompt, f"{line.name} is left out: {rest}."
    if line.group in ("colourant", "scent"):
        for prompt in _pours(tally, line.portion):
            where = "the batter" if line.portion == "all" else f"portion {line.portion}"
            yield prompt, f"No {line.name} in {where}."


def _carried(line: Line) -> str:
    """Return how the keys of the fats and waters begin that this line is stirred into."""
    return f"carrier:{line.portion}:{line.material}:"


def _drawn_differently(tally: Tally, change: Change, asked: Targets) -> Said:
    tool = next((each.tool_name for each in tally.plan.drawings if each.tool == change.details.get("tool")), "")
    planned = tally.plan.formula.drawing.path
    sentence = f"Drawn: {change.details['path']}{f' with {tool}' if tool else ''}. Planned: {planned}."
    for prompt in _of_kind(tally, "draw", "cut"):
        yield prompt, sentence


def _thickened(tally: Tally, change: Change, asked: Targets) -> Said:
    letter = change.details.get("portion", "")
    where = f"Portion {letter}" if letter else "The batter"
    for prompt in tally.plan.prompts:
        if prompt.kind == "act" and prompt.phase == "portions" and letter in ("", prompt.portion):
            yield prompt, f"{where} thickened early: stir by hand only."
    for prompt in _pours(tally, letter):
        yield prompt, f"{where} thickened early. Decided: {change.decision.rstrip('.')}."


def _temperature_off(tally: Tally, change: Change, asked: Targets) -> Said:
    for prompt in tally.plan.prompts:
        if prompt.kind == "trace" or prompt.key in WARMED:
            where = f" at “{change.prompt_title}”" if change.prompt_title else ""
            yield prompt, f"{change.details['temp_c']:g} °C{where}. Decided: {change.decision.rstrip('.')}."


_SAYS: dict[str, Callable[[Tally, Change, Targets], Said]] = {
    "substituted": _substituted,
    "amount off": _amount_off,
    "lost or spilt": _lost,
    "left out": _left_out,
    "drawn differently": _drawn_differently,
    "thickened early": _thickened,
    "temperature off": _temperature_off,
}
