"""What a workshop can put into a formula: its materials, moulds and tools, in four queries."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext_lazy as _

from soapbench.shelf.models import Material
from soapbench.workshop.models import Equipment, Tool, Workshop

Choices = list[tuple[str, Any]]

CHOOSE: tuple[str, Any] = ("", _("choose …"))
READ_IT: tuple[str, Any] = ("", _("read it on the jar …"))
NONE: tuple[str, Any] = ("", _("none"))
CUTTERS = (Tool.Kind.CUTTER,)
DRAWERS = (Tool.Kind.SKEWER, Tool.Kind.HANGER, Tool.Kind.COMB, Tool.Kind.SPOON, Tool.Kind.SPATULA)


@dataclass(frozen=True)
class Offers:
    """Keys and names to choose from; `kinds` maps each kind of material to its choices."""

    kinds: dict[str, Choices]
    moulds: Choices
    drawers: Choices
    cutters: Choices

    def of_kind(self, *kinds: str) -> Choices:
        return [choice for kind in kinds for choice in self.kinds.get(kind, [])]

    @property
    def names(self) -> dict[str, str]:
        """Return names by key, of materials, moulds and tools."""
        everything = (*self.of_kind(*self.kinds), *self.moulds, *self.drawers, *self.cutters)
        return {key: str(name) for key, name in everything}


def offers_for(workshop: Workshop) -> Offers:
    """Return what this workshop sees; its own material wins over a reference one of the same key."""
    rows = Material.objects.seen_by(workshop).order_by("name").values_list("key", "kind", "name", "workshop")
    own = {key for key, _kind, _name, owner in rows if owner}
    kinds: dict[str, Choices] = {kind: [] for kind in Material.Kind.values}
    for key, kind, name, owner in rows:
        if owner or key not in own:
            kinds[kind].append((key, name))
    tools = list(workshop.tools.filter(is_here=True))
    return Offers(
        kinds=kinds,
        moulds=_choices(workshop.moulds.filter(is_here=True)),
        drawers=_choices(tool for tool in tools if tool.kind in DRAWERS),
        cutters=_choices(tool for tool in tools if tool.kind in CUTTERS),
    )


def _choices(equipment: Iterable[Equipment]) -> Choices:
    return [(one.key, one.name) for one in equipment]
