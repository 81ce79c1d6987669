"""The drying curve of the marked bars, as a chart."""

from __future__ import annotations

from collections.abc import Sequence

from django.utils.translation import gettext as _

from soapbench.bench.words import grams
from soapbench.rack.chart import Band, Chart, Series, draw
from soapbench.science.cure import CureFit, Weighed
from soapbench.science.interval import Interval


def drying_chart(fit: CureFit, points: Sequence[Weighed], level: Interval | None) -> Chart | None:
    """Return the weighings, the likely course through them with its band, and the likely day where it levels off."""
    weighed = Series(_("weighed"), tuple((one.day, one.mass_g) for one in points), "first", "circle", is_line=False)
    likely = Series(_("likely"), tuple((day, middle) for day, _low, middle, _high in fit.curve), "second")
    band = Band(
        _("95 % band"),
        tuple((day, low) for day, low, _middle, _high in fit.curve),
        tuple((day, high) for day, _low, _middle, high in fit.curve),
    )
    series = (weighed, likely, *_ready(fit, level))
    title, sentence = _("Drying curve"), _sentence(fit, points)
    return draw(title, sentence, series, x_title=_("days since the cut"), y_title=_("g, one bar"), band=band)


def _ready(fit: CureFit, level: Interval | None) -> tuple[Series, ...]:
    """Return an upright line at the likely day, where the curve reaches that far."""
    if level is None or level.central > fit.curve[-1][0]:
        return ()
    low, high = min(row[1] for row in fit.curve), max(row[3] for row in fit.curve)
    return (Series(_("ready"), ((level.central, low), (level.central, high)), "third"),)


def _sentence(fit: CureFit, points: Sequence[Weighed]) -> str:
    last = max(points, key=lambda one: one.day)
    words = {
        "first": grams(round(points[0].mass_g, 1)),
        "last": grams(round(last.mass_g, 1)),
        "final": grams(round(fit.final_g.central)),
    }
    if len(points) == 1:
        return _("One bar: %(first)s fresh, about %(final)s in the end.") % words
    return _("One bar: %(first)s fresh, %(last)s at the last weighing, about %(final)s in the end.") % words
