"""Moments and spans as the rack and the logbook say them."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from django.utils import timezone
from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

HOUR = timedelta(hours=1)
DAY = timedelta(days=1)


def moment(at: datetime | None) -> str:
    """Return "25 Nov 2026, 08:12" in the workshop's own time, "" for None."""
    return date_format(timezone.localtime(at), "j M Y, H:i") if at else ""


def clock(at: datetime | None) -> str:
    """Return "08:12" in the workshop's own time, "" for None."""
    return date_format(timezone.localtime(at), "H:i") if at else ""


def day_and_clock(at: datetime | None) -> str:
    """Return "25 Nov, 08:12" in the workshop's own time, "" for None."""
    return date_format(timezone.localtime(at), "j M, H:i") if at else ""


def day(at: datetime | date | None) -> str:
    """Return "25 Nov 2026" in the workshop's own time, "" for None."""
    if at is None:
        return ""
    return date_format(timezone.localtime(at) if isinstance(at, datetime) else at, "j M Y")


def span(length: timedelta) -> str:
    """Return a length of time in its largest fitting unit: "3 days", "5 hours", "12 minutes"."""
    length = abs(length)
    if length >= 2 * DAY:
        days = round(length / DAY)
        return ngettext("%d day", "%d days", days) % days
    if length >= 1.5 * HOUR:
        hours = round(length / HOUR)
        return ngettext("%d hour", "%d hours", hours) % hours
    minutes = round(length.total_seconds() / 60)
    return ngettext("%d minute", "%d minutes", minutes) % minutes


def until(at: datetime, now: datetime) -> str:
    """Return "in 3 days", "5 hours ago" or "now"."""
    gap = at - now
    if abs(gap) < timedelta(minutes=1):
        return _("now")
    return (_("in %s") if gap > timedelta(0) else _("%s ago")) % span(gap)
