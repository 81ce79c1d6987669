"""The loaf with the cuts marked, in mm from the end."""

from __future__ import annotations

from django.utils.translation import gettext as _

from soapbench.bench.pictures.drawn import Label, Picture, Shape, box, label, mm, path
from soapbench.bench.pictures.loaf import Loaf
from soapbench.science.cut_planes import Axis, Planes

ROOM_MM = 22.0  # under the loaf, for its figures


def cut_pictures(loaf: Loaf, found: tuple[Planes, ...]) -> tuple[Picture, ...]:
    """Return the loaf from the side with the cuts along it, and from the end with the others, where there are any."""
    along = [one for one in found if one.axis == "along"]
    others = [one for one in found if one.axis != "along"]
    return (*(_from_the_side(loaf, one) for one in along), *(_from_the_end(loaf, one) for one in others))


def said(planes: Planes) -> str:
    """Return the cuts of one axis in words: "3, 28, 53 mm"."""
    return f"{', '.join(mm(at) for at in planes.at_mm)} mm"


FROM: dict[Axis, str] = {"along": "the left end", "across": "one side", "up": "the floor"}


def _from_the_side(loaf: Loaf, planes: Planes) -> Picture:
    long = loaf.fill_mm if loaf.is_round else loaf.room.length_mm
    high = loaf.room.width_mm if loaf.is_round else loaf.fill_mm
    size = long * 0.042
    cuts = [Shape(path([(at, -4), (at, high + 4)]), "is-cut") for at in planes.at_mm]
    return Picture(
        view=_("From the side, mm from the left end"),
        alt=_("From the side: cuts at %s from the left end.") % said(planes),
        box=f"-6 -6 {mm(long + 12)} {mm(high + ROOM_MM + 8)}",
        shapes=(Shape(box(0, 0, long, high), "is-soap"), *cuts),
        labels=tuple(_figures(planes, high, size)),
    )


def _figures(planes: Planes, high: float, size: float) -> list[Label]:
    """Return the distances under their cuts; where two are too near for figures, the second stands lower."""
    found: list[Label] = []
    last, lowered = -1e3, False
    for at in planes.at_mm:
        lowered = at - last < 0.34 * size * (len(mm(at)) + len(mm(last))) and not lowered
        found.append(label(at, high + 4 + size * (1.7 if lowered else 0.7), mm(at), size, "is-height"))
        last = at
    return found


def _from_the_end(loaf: Loaf, planes: Planes) -> Picture:
    wide, high = loaf.room.width_mm, loaf.fill_mm
    last = loaf.poured[-1] if loaf.poured else None
    cells = last.cells if last else ()
    bodies = [
        Shape(path([(y, high - z) for y, z in cell.outline], closed=True), "is-old", cell.letter) for cell in cells
    ]
    is_up = planes.axis == "up"
    lines = [[(-6, high - at), (wide + 4, high - at)] if is_up else [(at, -4), (at, high + 4)] for at in planes.at_mm]
    figures = [
        label(wide + 12, high - at, mm(at), 9, "is-height") if is_up else label(at, high + 10, mm(at), 9, "is-height")
        for at in planes.at_mm
    ]
    return Picture(
        view=_("From the end, mm from the floor") if is_up else _("From the end, mm from one side"),
        alt=_("From the end: cuts at %(mm)s from %(where)s.") % {"mm": said(planes), "where": FROM[planes.axis]},
        box=f"-8 -6 {mm(wide + 32)} {mm(high + ROOM_MM + 6)}",
        shapes=(*bodies, Shape(box(0, 0, wide, high), "is-soap"), *(Shape(path(line), "is-cut") for line in lines)),
        labels=tuple(figures),
    )
