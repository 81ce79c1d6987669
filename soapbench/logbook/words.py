"""Numbers and moments as a record says them."""

from __future__ import annotations

from datetime import datetime, timedelta

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as later

from soapbench.bench.change_words import TILES
from soapbench.bench.state import Fact
from soapbench.bench.words import grams, percent
from soapbench.logbook.blocks import Cell

# WHO: values are written down when they happen. Longer than this is told; own choice.
LATE = timedelta(minutes=10)
WRONG = timedelta(minutes=2)  # of a device's clock; own choice
TITLES: dict[str, str | Promise] = {**{tile.kind: tile.title for tile in TILES}, "remedied": later("Put right")}


def signed(mass_g: float) -> str:
    """Return a difference in grams with its sign: "+40 g", "−2.5 g", "0 g"."""
    gap = round(mass_g, 4)
    return f"+{grams(gap)}" if gap > 0 else grams(gap + 0.0)


def signed_percent(share: float) -> str:
    """Return a fraction with its sign: "−8.2 %"."""
    said = percent(share)
    return said if said.startswith("−") or share < 0.0005 else f"+{said}"


def short_moment(at: datetime) -> str:
    """Return "25 Nov, 08:12"; the year stands in the head of the record."""
    return date_format(timezone.localtime(at), "j M, H:i")


def is_late(fact: Fact) -> bool:
    """Return whether it was entered more than ten minutes before or after it happened."""
    return abs(fact.received_at - fact.happened_at) > LATE


def when(fact: Fact) -> Cell:
    """Return when it happened, and when it was entered where that is another time."""
    notes = [_entered(fact)] if is_late(fact) else []
    if fact.device_at is not None and abs(fact.device_at - fact.happened_at) > WRONG:
        notes.append(_("the device's clock said %s") % short_moment(fact.device_at))
    return Cell(short_moment(fact.happened_at), ", ".join(notes), "attention" if notes else "")


def signed_by(fact: Fact) -> Cell:
    """Return who wrote it down and when it happened."""
    return Cell(fact.person, _times(fact))


def signed_text(fact: Fact) -> str:
    """Return the same in one line."""
    return f"{fact.person}, {_times(fact)}"


def _times(fact: Fact) -> str:
    happened = short_moment(fact.happened_at)
    return f"{happened}, {_entered(fact)}" if is_late(fact) else happened


def _entered(fact: Fact) -> str:
    return _("entered %s") % short_moment(fact.received_at)


def change_title(kind: str) -> str:
    return str(TITLES.get(kind, kind))
