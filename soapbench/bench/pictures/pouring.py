"""One stage of the pour as two pictures: from the end and from above. What is in already is pale, what comes is not."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext as _

from soapbench.bench.pictures.drawn import Label, Picture, Shape, arrowhead, box, label, mm, oval, path
from soapbench.bench.pictures.loaf import Loaf
from soapbench.bench.words import listed
from soapbench.science.landing import Landing, landings
from soapbench.science.pour import Cell, Poured

OVER_RIM_MM = 34.0  # where the arrow stands
OVER_BATTER_MM = 8.0  # of a mould that is much deeper than its batter
SMALL_MM = 7.0  # a body thinner than this has no room for its letter


@dataclass(frozen=True)
class PourPictures:
    end: Picture
    top: Picture


def pour_pictures(loaf: Loaf, number: int) -> PourPictures | None:
    """Return the pictures of a stage, counted from 1; None where the mould's measures are not known."""
    if not 0 < number <= len(loaf.poured):
        return None
    before = loaf.poured[number - 2] if number > 1 else Poured((), 0.0)
    after, where = loaf.poured[number - 1], landings(loaf.room, loaf.stages[number - 1])
    return PourPictures(_from_the_end(loaf, number, after, where), _from_above(loaf, number, before, where))


def _from_the_end(loaf: Loaf, number: int, after: Poured, where: tuple[Landing, ...]) -> Picture:
    wide = loaf.room.width_mm
    rim = max(after.level_mm, loaf.poured[-1].level_mm) + OVER_BATTER_MM
    rim = min(rim, loaf.room.height_mm) if loaf.room.height_mm > after.level_mm else rim
    height = loaf.stages[number - 1].height_mm
    bodies = [_body(cell, rim, is_new=cell.stage == number) for cell in after.cells]
    old, new = (
        [body for body, cell in zip(bodies, after.cells, strict=True) if (cell.stage == number) == is_new]
        for is_new in (False, True)
    )
    arrows, heights = _arrows(where, after, rim, height, wide)
    letters = _letters(after, number, rim, wide)
    wall = Shape(path([(-1, 0), (-1, rim + 1), (wide + 1, rim + 1), (wide + 1, 0)]), "is-wall")
    return Picture(
        view=_("From the end"),
        alt=_alt(loaf, number),
        box=f"-6 {mm(-OVER_RIM_MM)} {mm(wide + 12)} {mm(rim + OVER_RIM_MM + 5)}",
        shapes=(*old, *new, wall, *arrows),
        labels=(*letters, *heights),
    )


def _body(cell: Cell, rim: float, *, is_new: bool) -> Shape:
    half = len(cell.outline) // 2
    floor, top = cell.outline[:half], cell.outline[half:]
    line = path([(y, rim - z) for y, z in floor]) + path([(y, rim - z) for y, z in top]).replace("M", "L", 1)
    return Shape(f"{line}Z", "is-new" if is_new else "is-old", cell.letter)


def _arrows(
    where: tuple[Landing, ...], after: Poured, rim: float, height: float, wide: float
) -> tuple[list[Shape], list[Label]]:
    places = list(dict.fromkeys(round(one.across_mm, 1) for one in where))
    if where and where[0].form == "band" and where[0].half_across_mm > 0.49 * wide:
        places = [wide / 2]
    start, tip = -OVER_RIM_MM + 14, rim - after.level_mm - 2
    shapes = []
    for place in places:
        shapes.append(Shape(path([(place, start), (place, tip - 5)]), "is-arrow"))
        shapes.append(Shape(arrowhead((place, tip), (place, start), 9), "is-arrowhead"))
    return shapes, [
        label(wide / 2, -OVER_RIM_MM + 6, f"{height:g} mm", max(11, rim / 12), "is-height")
    ] if height else []


def _letters(after: Poured, number: int, rim: float, wide: float) -> list[Label]:
    """Return one letter for each body of now, and for each older one with room for it."""
    found, size = [], max(wide * 0.13, rim / 15)
    seen: set[tuple[str, int]] = set()
    for cell in sorted(after.cells, key=lambda cell: -cell.area_mm2):
        is_new = cell.stage == number
        place, low, high = _thickest(cell)
        is_first = (cell.letter, cell.stage) not in seen
        seen.add((cell.letter, cell.stage))
        if is_first and (is_new or high - low >= SMALL_MM):
            look = "is-new" if is_new else "is-old"
            found.append(
                label(place, rim - (low + high) / 2, cell.letter, size if is_new else 0.75 * size, look, disc=True)
            )
    return sorted(found, key=lambda one: one.look == "is-new")


def _thickest(cell: Cell) -> tuple[float, float, float]:
    middle = (cell.left_mm + cell.right_mm) / 2
    inside = [middle, *(place for place in cell.places if cell.left_mm < place < cell.right_mm)]
    best = max(inside, key=lambda place: _thickness(cell, place) - abs(place - middle) / 1e3)
    return best, *cell.height_at(best)


def _thickness(cell: Cell, place: float) -> float:
    low, high = cell.height_at(place)
    return high - low


def _from_above(loaf: Loaf, number: int, before: Poured, where: tuple[Landing, ...]) -> Picture:
    stretch = loaf.mould.diameter_mm / loaf.room.length_mm if loaf.is_round else 1.0
    long, wide = loaf.room.length_mm * stretch, loaf.room.width_mm
    strips = [Shape(box(0, left, long, right - left), "is-old", letter) for letter, left, right in _strips(before)]
    shapes = [_landed(one, stretch) for one in where]
    outline = oval(long / 2, wide / 2, long / 2 + 1, wide / 2 + 1) if loaf.is_round else box(-1, -1, long + 2, wide + 2)
    return Picture(
        view=_("From above"),
        alt=_("From above: %s") % _alt(loaf, number),
        box=f"-4 -4 {mm(long + 8)} {mm(wide + 8)}",
        shapes=(*strips, *shapes, Shape(outline, "is-wall")),
        labels=tuple(_named(where, stretch, long)),
        is_round=loaf.is_round,
    )


def _strips(before: Poured) -> tuple[tuple[str, float, float], ...]:
    return before.surface if before.cells else ()


def _landed(one: Landing, stretch: float) -> Shape:
    x, half = one.along_mm * stretch, one.half_along_mm * (stretch if one.form == "band" else 1.0)
    if one.form == "spot":
        return Shape(oval(x, one.across_mm, half, one.half_across_mm), "is-new", one.letter)
    top, high = one.across_mm - one.half_across_mm, 2 * one.half_across_mm
    return Shape(box(x - half, top, 2 * half, high), "is-new", one.letter)


def _named(where: tuple[Landing, ...], stretch: float, long: float) -> list[Label]:
    firsts = {(one.letter, one.across_mm): one for one in reversed(where)}
    return [
        label(one.along_mm * stretch, one.across_mm, one.letter, long * 0.062, "is-new", disc=True)
        for one in reversed(firsts.values())
    ]


def _alt(loaf: Loaf, number: int) -> str:
    stage, level = loaf.poured_stages[number - 1], loaf.poured[number - 1].level_mm
    said = {"way": stage.way, "letters": listed(list(stage.portions)), "level": f"{level:.0f}"}
    now = _("now %(letters)s, %(way)s; after it the batter stands %(level)s mm high.") % said
    if number == 1:
        return _("The mould is empty; %s") % now
    under = listed(list(dict.fromkeys(letter for one in loaf.poured_stages[: number - 1] for letter in one.portions)))
    height = f"{loaf.poured[number - 2].level_mm:.0f}"
    return _("%(under)s are in, %(height)s mm high; %(now)s") % {"under": under, "height": height, "now": now}
