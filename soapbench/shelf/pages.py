"""What the shelf's pages show, asked in a fixed number of queries."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from django.db.models import Q
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from soapbench.shelf.alkalis import age_words, purity_words
from soapbench.shelf.facts import left_in
from soapbench.shelf.models import Lot, Material
from soapbench.workshop.models import Workshop

AT_HAND = "at-hand"
TABS = (
    (AT_HAND, gettext_lazy("At hand")),
    ("fat", gettext_lazy("Fats")),
    ("alkali", gettext_lazy("Alkalis")),
    ("liquid", gettext_lazy("Liquids")),
    ("colourant", gettext_lazy("Colours")),
    ("scent", gettext_lazy("Scents")),
    ("addition", gettext_lazy("Additions")),
)
KINDS = tuple(kind for kind, _word in TABS[1:])


@dataclass(frozen=True)
class LotLine:
    lot: Lot
    left_g: float
    is_past: bool  # its best-before day
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True)
class MaterialLine:
    material: Material
    lots: tuple[LotLine, ...]

    @property
    def left_g(self) -> float:
        return sum(line.left_g for line in self.lots if line.lot.status == Lot.Status.USABLE)

    @property
    def is_kept(self) -> bool:
        return any(line.lot.status == Lot.Status.USABLE for line in self.lots)


def shelf_lines(
    workshop: Workshop, kind: str, words: str, used_g: Mapping[int, float], today: date
) -> list[MaterialLine]:
    """Return the materials of a kind, or those at hand, whose name holds every word; in two queries."""
    lots = lot_lines(workshop, used_g, today)
    found = Material.objects.seen_by(workshop)
    if kind == AT_HAND:
        found = found.filter(key__in=lots)
    elif kind in KINDS:
        found = found.of_kind(kind)
    for word in words.replace("\0", " ").split()[:8]:
        found = found.filter(Q(name__icontains=word) | Q(inci__icontains=word))
    lines = [MaterialLine(row, tuple(lots.get(row.key, ()))) for row in found.in_bulk_by_key().values()]
    return sorted(lines, key=lambda line: line.material.name.casefold())


def lot_lines(workshop: Workshop, used_g: Mapping[int, float], today: date) -> Mapping[str, list[LotLine]]:
    """Return every lot of the workshop with what it holds, by the key of its material."""
    lines: defaultdict[str, list[LotLine]] = defaultdict(list)
    for lot in Lot.objects.seen_by(workshop).select_related("material"):
        is_past = lot.best_before is not None and lot.best_before < today
        lines[lot.material.key].append(LotLine(lot, left_in(lot, used_g), is_past, remarks_on(lot, today)))
    return lines


def remarks_on(lot: Lot, today: date) -> tuple[str, ...]:
    """Return what there is to say of a lot: how much of an alkali works, its age, where a value comes from."""
    titrated = _("Titrated: %s.") % lot.titration if lot.titration else ""
    return tuple(words for words in (purity_words(lot), age_words(lot, today), titrated) if words)
