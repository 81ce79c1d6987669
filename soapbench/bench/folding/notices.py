"""What a change means at the prompts that come after it: one passive line each.

The phone makes the same lines from the same changes (`static/js/bench/notices.js`); tests/vectors hold both.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from soapbench.bench.folding.tally import Tally
from soapbench.bench.plan import Line, Prompt
from soapbench.bench.state import Change, Notice
from soapbench.bench.words import grams
from soapbench.science.words import say, word

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
        weighs = say(": weigh {asked}", asked=grams(asked[line.key])) if prompt.kind == "weigh" else ""
        yield (
            prompt,
            say("{name} goes in for {line_name}{weighs}.", name=stand_in.name, line_name=line.name, weighs=weighs),
        )


def _amount_off(tally: Tally, change: Change, asked: Targets) -> Said:
    line, mass = _line_of(tally, change), change.details.get("mass_g")
    if line is None or mass is None:
        return
    for prompt in _prompts_of(tally, line):
        if prompt.kind == "act":
            yield (
                prompt,
                say(
                    "{name}: {mass} weighed, {planned} planned.",
                    name=line.name,
                    mass=grams(mass),
                    planned=grams(line.planned_g),
                ),
            )


def _lost(tally: Tally, change: Change, asked: Targets) -> Said:
    line, mass, letter = _line_of(tally, change), change.details.get("mass_g"), change.details.get("portion", "")
    if line is not None:
        for prompt in _prompts_of(tally, line):
            yield (
                prompt,
                say("Some {name} was lost.", name=line.name)
                if mass is None
                else say("{mass} of {name} was lost.", mass=grams(mass), name=line.name),
            )
        return
    sentence = _lost_batter(letter, "" if mass is None else grams(mass))
    for prompt in (*_pours(tally, letter), *_of_kind(tally, "cut")):
        yield prompt, sentence


def _lost_batter(letter: str, mass: str) -> str:
    if letter and mass:
        return say("{mass} of batter was lost from portion {letter}: fewer or thinner bars.", mass=mass, letter=letter)
    if letter:
        return say("Some batter was lost from portion {letter}: fewer or thinner bars.", letter=letter)
    if mass:
        return say("{mass} of batter was lost: fewer or thinner bars.", mass=mass)
    return say("Some batter was lost: fewer or thinner bars.")


def _left_out(tally: Tally, change: Change, asked: Targets) -> Said:
    line, letter = _line_of(tally, change), change.details.get("portion", "")
    if line is None:
        for prompt in (*_pours(tally, letter), *_of_kind(tally, "draw", "cut")) if letter else ():
            yield prompt, say("Portion {letter} is left out.", letter=letter)
        return
    for prompt in tally.plan.prompts:
        carrier = tally.book.lines.get(prompt.line)
        if prompt.kind == "weigh" and carrier is not None and carrier.key.startswith(_carried(line)):
            if carrier.basis == "fat":
                told = {"name": line.name, "carrier": carrier.name}
                yield prompt, say("{name} is left out: {carrier} still belongs to the fats.", **told)
            else:
                yield prompt, say("{name} is left out: leave this out too.", name=line.name)
    if line.group in ("colourant", "scent"):
        for prompt in _pours(tally, line.portion):
            if line.portion == "all":
                yield prompt, say("No {name} in the batter.", name=line.name)
            else:
                yield prompt, say("No {name} in portion {portion}.", name=line.name, portion=line.portion)


def _carried(line: Line) -> str:
    """Return how the keys of the fats and waters begin that this line is stirred into."""
    return f"carrier:{line.portion}:{line.material}:"


def _drawn_differently(tally: Tally, change: Change, asked: Targets) -> Said:
    tool = next((each.tool_name for each in tally.plan.drawings if each.tool == change.details.get("tool")), "")
    told = {
        "path": word("drawing", change.details["path"]),
        "planned": word("drawing", tally.plan.formula.drawing.path),
    }
    if tool:
        sentence = say("Drawn: {path} with {tool}. Planned: {planned}.", tool=tool, **told)
    else:
        sentence = say("Drawn: {path}. Planned: {planned}.", **told)
    for prompt in _of_kind(tally, "draw", "cut"):
        yield prompt, sentence


def _thickened(tally: Tally, change: Change, asked: Targets) -> Said:
    letter = change.details.get("portion", "")
    where = say("Portion {letter}", letter=letter) if letter else say("The batter")
    for prompt in tally.plan.prompts:
        if prompt.kind == "act" and prompt.phase == "portions" and letter in ("", prompt.portion):
            yield prompt, say("{where} thickened early: stir by hand only.", where=where)
    for prompt in _pours(tally, letter):
        yield (
            prompt,
            say("{where} thickened early. Decided: {decision}.", where=where, decision=change.decision.rstrip(".")),
        )


def _temperature_off(tally: Tally, change: Change, asked: Targets) -> Said:
    for prompt in tally.plan.prompts:
        if prompt.kind == "trace" or prompt.key in WARMED:
            where = " " + say("at “{prompt_title}”", prompt_title=change.prompt_title) if change.prompt_title else ""
            yield (
                prompt,
                say(
                    "{details:g} °C{where}. Decided: {decision}.",
                    details=change.details["temp_c"],
                    where=where,
                    decision=change.decision.rstrip("."),
                ),
            )


_SAYS: dict[str, Callable[[Tally, Change, Targets], Said]] = {
    "substituted": _substituted,
    "amount off": _amount_off,
    "lost or spilt": _lost,
    "left out": _left_out,
    "drawn differently": _drawn_differently,
    "thickened early": _thickened,
    "temperature off": _temperature_off,
}
