"""One event that asks to be recorded, with what the rules look at."""

from __future__ import annotations

from dataclasses import dataclass

from soapbench.bench.folding.book import Book
from soapbench.bench.kinds import Payload
from soapbench.bench.plan import Line, Prompt, Tick
from soapbench.bench.refusal import Refused
from soapbench.bench.state import Fact, RunState
from soapbench.science.words import say


@dataclass(frozen=True)
class Asked:
    """An event that asks to be recorded, and the run as it stands before."""

    book: Book
    state: RunState
    facts: tuple[Fact, ...]
    kind: str
    prompt_key: str
    payload: Payload

    @property
    def prompt(self) -> Prompt | None:
        return self.book.prompts.get(self.prompt_key)

    def line(self, key: str) -> Line:
        """Return the line of that key.

        Raises:
            Refused: this run has no such line.
        """
        if key not in self.book.lines:
            raise Refused(say("That material is not in this batch. Choose one from the list."), "line")
        return self.book.lines[key]

    def is_accounted(self, line: Line) -> bool:
        """Return whether the line was weighed, or left out with a reason."""
        return line.key in self.state.weights or self.is_left_out(line)

    def is_left_out(self, line: Line) -> bool:
        weigh = self.book.weigh_prompts.get(line.key, "")
        return weigh in self.state.done and line.key not in self.state.weights

    def missing(self, *groups: str) -> list[str]:
        """Return the names of the lines of these groups of which something is still to weigh."""
        lines = (line for line in self.book.plan.lines if line.group in groups)
        return [line.name for line in lines if not self.is_accounted(line) or line.key in self.state.owed]

    @property
    def not_at_hand(self) -> list[str]:
        """Return the items of the gate before the lye that are neither at hand nor dealt with."""
        return [tick.text for tick in self.book.gate if not self.is_settled(tick)]

    def is_settled(self, tick: Tick) -> bool:
        """Return whether an item is at hand, or a change deals with it."""
        return self.state.ticked.get(tick.key, False) or tick.key in self.state.dealt
