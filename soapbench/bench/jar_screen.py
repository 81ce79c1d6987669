"""What two forcing functions show: the names on the jars of alkali, and what may not be in before a pour."""

from __future__ import annotations

from dataclasses import dataclass

from soapbench.bench.folding.unrecorded import NotIn, asked_before, not_in_yet
from soapbench.bench.plan import Plan, Prompt
from soapbench.bench.rules.forcing import JARS, jar_of
from soapbench.bench.state import RunState
from soapbench.science.words import say


@dataclass(frozen=True)
class Jar:
    """One answer to what the jar says; `wrong` is the sentence when it is not the jar of this step."""

    name: str
    words: str
    wrong: str


@dataclass(frozen=True)
class JarScreen:
    jars: tuple[Jar, ...]


@dataclass(frozen=True)
class AskedRow:
    """An addition that a pour asks for."""

    asked: NotIn
    is_open: bool


def jar_screen(plan: Plan, prompt: Prompt) -> JarScreen | None:
    """Return the jars to choose from where alkali is weighed, None at any other prompt."""
    line = plan.line(prompt.line) if prompt.kind == "weigh" and prompt.line else None
    if line is None or line.group != "alkali":
        return None
    wanted = jar_of(line)
    return JarScreen(
        tuple(Jar(name, say(words).partition(", ")[2], _wrong(name, wanted)) for name, words in JARS.items())
    )


def _wrong(name: str, wanted: str) -> str:
    return (
        ""
        if name == wanted
        else say(
            "This step takes {wanted}. This is {name}: shut it, put it back.",
            wanted=say(JARS[wanted]),
            name=say(JARS[name]),
        )
    )


def asked_rows(plan: Plan, state: RunState, prompt: Prompt) -> tuple[AskedRow, ...]:
    """Return what a pour prompt asks for, what is in already too, so that the phone can follow; none elsewhere."""
    if prompt.kind != "pour":
        return ()
    # Before there is batter nothing can be in, and nobody asks.
    missing = {each.prompt for each in not_in_yet(plan, state, prompt)} if state.is_combined else set()
    return tuple(AskedRow(each, each.prompt in missing) for each in asked_before(plan, prompt))
