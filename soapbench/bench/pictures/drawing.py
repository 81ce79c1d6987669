"""A drawing as numbered strokes over the mould, in the view that its tool draws in."""

from __future__ import annotations

from math import ceil

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from soapbench.bench.pictures.drawn import Label, Picture, Point, Shape, arrowhead, box, label, mm, oval, path
from soapbench.bench.pictures.loaf import Loaf
from soapbench.science.errors import OutOfRange
from soapbench.science.strokes import Rod, Stroke, View, path_of

VIEWS: dict[View, str | Promise] = {
    "top": gettext_lazy("From above"),
    "end": gettext_lazy("From the end, the bar lying along the loaf"),
    "side": gettext_lazy("From the side"),
}
MOST_ARROWS = 10
MOST_NUMBERS = 9


def strokes_of(loaf: Loaf, name: str, rod: Rod, passes: int = 0, spacing_mm: float = 0.0) -> tuple[Stroke, ...]:
    """Return the strokes of a drawing in this loaf; none where the mould's measures do not allow it."""
    long = loaf.mould.diameter_mm if loaf.is_round else loaf.room.length_mm
    try:
        return path_of(
            name, long, loaf.room.width_mm, passes, spacing_mm, height_mm=loaf.fill_mm, rod=rod, is_round=loaf.is_round
        )
    except OutOfRange:
        return ()


def stroke_picture(loaf: Loaf, strokes: tuple[Stroke, ...], alt: str) -> Picture | None:
    """Return the strokes over the batter as it was poured, numbered, each with its direction."""
    if not strokes:
        return None
    view = strokes[0].view
    wide, high, ground = _ground(loaf, view)
    flip = view != "top"
    lines = [[(x, high - y if flip else y) for x, y in stroke.points] for stroke in strokes]
    shapes: list[Shape] = []
    for line in lines:
        shapes.append(Shape(path(line), "is-halo"))
    for at, line in enumerate(lines, 1):
        shapes.append(Shape(path(line), f"is-stroke stroke-{at}"))
    return Picture(
        view=str(VIEWS[view]),
        alt=alt,
        box=f"-6 -6 {mm(wide + 12)} {mm(high + 12)}",
        shapes=(*ground, *shapes, *_arrows(lines, wide)),
        labels=tuple(_numbers(lines, wide)),
        is_round=loaf.is_round and view == "top",
    )


def _ground(loaf: Loaf, view: View) -> tuple[float, float, list[Shape]]:
    """Return the size of the view and the batter in it, pale, with the walls."""
    last = loaf.poured[-1] if loaf.poured else None
    across, deep = loaf.room.width_mm, loaf.fill_mm or loaf.room.height_mm
    if view == "end":
        cells = last.cells if last else ()
        bodies = [
            Shape(path([(y, deep - z) for y, z in cell.outline], closed=True), "is-old", cell.letter) for cell in cells
        ]
        return (
            across,
            deep,
            [*bodies, Shape(path([(-1, 0), (-1, deep + 1), (across + 1, deep + 1), (across + 1, 0)]), "is-wall")],
        )
    long = loaf.mould.diameter_mm if loaf.is_round else loaf.room.length_mm
    if view == "side":
        return long, deep, [Shape(path([(-1, 0), (-1, deep + 1), (long + 1, deep + 1), (long + 1, 0)]), "is-wall")]
    strips = last.surface if last and last.cells else ()
    surface = [Shape(box(0, left, long, right - left), "is-old", letter) for letter, left, right in strips]
    wall = (
        oval(long / 2, across / 2, long / 2 + 1, across / 2 + 1) if loaf.is_round else box(-1, -1, long + 2, across + 2)
    )
    return long, across, [*surface, Shape(wall, "is-wall")]


def _arrows(lines: list[list[Point]], wide: float) -> list[Shape]:
    every = ceil(len(lines) / MOST_ARROWS)
    found = []
    for line in lines[::every]:
        at = max(1, round(0.6 * (len(line) - 1)))
        tail, tip = line[at - 1], line[at]
        if len(line) < 4:  # a straight stroke: a little past its middle
            tip = (tail[0] + 0.62 * (tip[0] - tail[0]), tail[1] + 0.62 * (tip[1] - tail[1]))
        found.append(Shape(arrowhead(tip, tail, wide * 0.042), "is-arrowhead"))
    return found


def _numbers(lines: list[list[Point]], wide: float) -> list[Label]:
    size = wide * 0.05
    found: list[Label] = []
    taken: list[Point] = []
    for at, line in enumerate(lines, 1):
        x, y = line[0]
        is_free = all(abs(x - one[0]) > 1.7 * size or abs(y - one[1]) > 1.7 * size for one in taken)
        if is_free and len(found) < MOST_NUMBERS:
            taken.append((x, y))
            found.append(label(x, y, str(at), size, f"is-number number-{at}", disc=True))
    return found


def hanger_picture(loaf: Loaf, strokes: tuple[Stroke, ...]) -> Picture | None:
    """Return where the bar of a hanger lies at the first stroke, from above; None for any other tool."""
    if not strokes or strokes[0].view != "end" or loaf.is_round:
        return None
    long, across, ground = _ground(loaf, "top")
    place = strokes[0].start[0]
    bar = [Shape(path([(6, place), (long - 6, place)]), look) for look in ("is-halo", "is-stroke")]
    return Picture(
        view=_("From above: the bar begins here"),
        alt=_("From above: the bar lies along the loaf, %d mm from one wall.") % round(place),
        box=f"-6 -6 {mm(long + 12)} {mm(across + 12)}",
        shapes=(*ground, *bar),
    )
