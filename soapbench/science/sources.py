"""Where each constant, each table and each formula comes from, kept beside the code that uses it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from importlib import import_module
from pkgutil import walk_packages
from types import ModuleType
from typing import Literal

Confidence = Literal["published", "computed", "from memory", "common practice", "own choice"]
SUREST_FIRST: tuple[Confidence, ...] = ("published", "computed", "from memory", "common practice", "own choice")


@dataclass(frozen=True, slots=True)
class Source:
    """Who says so: a short key, the title, the place in it, and how far it can be trusted."""

    key: str
    title: str
    detail: str
    confidence: Confidence


@dataclass(frozen=True, slots=True)
class Constant:
    """One number in use; the code reads .value, so that the page of sources cannot drift from the sums.

    why is the reason in a sentence, wherever the number is our own choice.
    """

    name: str
    symbol: str
    value: float
    unit: str
    source: Source
    used_in: str
    why: str = ""


@dataclass(frozen=True, slots=True)
class Relation:
    """One formula in use, in plain text, with the dotted name of the function that works it out."""

    name: str
    formula: str
    units: str
    source: Source
    function: str


@dataclass(frozen=True, slots=True)
class Table:
    """Figures in use that stand in rows, such as coefficients; the code reads the same rows."""

    name: str
    columns: tuple[str, ...]
    rows: tuple[tuple[float | str, ...], ...]
    source: Source
    used_in: str


@dataclass(frozen=True, slots=True)
class Chapter:
    """What one module of the science declares, under the first sentence of what it says of itself."""

    key: str
    title: str
    constants: tuple[Constant, ...]
    relations: tuple[Relation, ...]
    tables: tuple[Table, ...]

    @property
    def sources(self) -> tuple[Source, ...]:
        """Return the source of each figure, formula and table."""
        entries: tuple[Constant | Relation | Table, ...] = (*self.constants, *self.relations, *self.tables)
        return tuple(entry.source for entry in entries)

    @property
    def size(self) -> int:
        """Return how many figures, formulas and tables there are."""
        return len(self.sources)


def gather(modules: Iterable[ModuleType]) -> tuple[tuple[Constant, ...], tuple[Relation, ...]]:
    """Return the constants and relations that the given modules declare, in the order of the modules."""
    constants: list[Constant] = []
    relations: list[Relation] = []
    for module in modules:
        constants.extend(getattr(module, "CONSTANTS", ()))
        relations.extend(getattr(module, "RELATIONS", ()))
    return tuple(constants), tuple(relations)


def everything() -> tuple[tuple[Constant, ...], tuple[Relation, ...]]:
    """Return every constant and every relation of the science, for the page that shows them with their sources."""
    return gather(_modules())


def chapters() -> tuple[Chapter, ...]:
    """Return the same by module, with the tables, in the order of the modules' names; empty modules are left out."""
    found = (_chapter(module) for module in _modules())
    return tuple(chapter for chapter in found if chapter.size)


def _chapter(module: ModuleType) -> Chapter:
    constants, relations = gather([module])
    title = (module.__doc__ or "").split("\n\n")[0].replace("\n", " ").rstrip(".")
    key = module.__name__.rpartition(".")[2]
    return Chapter(key, title, constants, relations, tuple(getattr(module, "TABLES", ())))


def _modules() -> tuple[ModuleType, ...]:
    package = import_module("soapbench.science")
    names = sorted(module.name for module in walk_packages(package.__path__, "soapbench.science.") if not module.ispkg)
    return tuple(import_module(name) for name in names)


CIAAW_2021 = Source(
    "ciaaw-2021",
    "IUPAC Commission on Isotopic Abundances and Atomic Weights, abridged standard atomic weights 2021",
    "H 1.008, C 12.011, O 15.999, Na 22.990, K 39.098",
    "published",
)
OWN_CHOICE = Source(
    "own-choice", "Choice made for this app", "no outside source; the reason stands beside it", "own choice"
)
COMMON_PRACTICE = Source("common-practice", "Common practice of the trade", "no source found", "common practice")
FROM_MEMORY = Source("from-memory", "From memory", "remembered, not looked up", "from memory")
STOICHIOMETRY = Source(
    "stoichiometry", "Stoichiometry", "mole balance with the atomic weights of CIAAW 2021", "computed"
)
