"""How much of a drawing a face shows: the colour edges that do not run with their neighbours.

Plain stripes have long edges too, so their length alone does not tell a drawing from a plain cut. An edge counts as
bent where, within a small window, edges run in more than one direction.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from soapbench.science.errors import OutOfRange, positive
from soapbench.science.sources import OWN_CHOICE, Constant, Relation, Source
from soapbench.science.words import say

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.floating]
    Labels = NDArray[np.int8]

TENSOR = Source(
    "edge-tensor",
    "Windowed tensor of the directions of colour edges",
    "in the family of Minkowski tensors; window and blur were chosen on computed designs, no maker ranked faces yet",
    "own choice",
)
TUNED = "Tried on computed designs only; no maker has ranked faces yet."
EYE = Constant("Blur of the eye", "σ", 0.6, "mm", OWN_CHOICE, "edges", why="Finer is mud to the eye.")
WINDOW = Constant("Window in which edges are compared", "", 5.0, "mm", OWN_CHOICE, "edges", why=TUNED)
SCORE_PIXEL = Constant("Pixel of a score", "", 0.6, "mm", OWN_CHOICE, "edges", why="4 % more than at 0.2 mm.")
NEAR = Constant("Plans within this share of the best are as good", "", 0.15, "", OWN_CHOICE, "recommend", why=TUNED)
HARDLY = Constant("A drawing that gains less hardly shows", "", 0.05, "cm/cm²", OWN_CHOICE, "recommend", why=TUNED)
REACHES = (0.6, 1.0, 1.6)  # of the reach taken: a winner that changes between them is no winner
PER_CM = 10.0


@dataclass(frozen=True, slots=True)
class Edges:
    """Length of colour edges per area of a face, cm/cm²: all of them, and those that bend."""

    all: float
    bent: float


@dataclass(frozen=True, slots=True)
class Gain:
    """What a drawing adds to the bent edges of a plan's faces, cm/cm², and its share of the best plan's."""

    plan: str
    gain: float
    reveal: float


@dataclass(frozen=True, slots=True)
class Verdict:
    """The plan that shows the drawing best, "" where it hardly shows on any; the others that are as good."""

    best: str
    also: tuple[str, ...]
    gains: tuple[Gain, ...]


def edges(labels: Labels, pixel: float = SCORE_PIXEL.value) -> Edges:
    """Return how long the colour edges of a face are, and how much of that bends.

    Args:
        labels: of the portions, rows by columns.
        pixel: its side, mm.

    Raises:
        OutOfRange: the pixel is not above zero, or the face is smaller than three pixels.

    Source: windowed tensor of the directions of edges; own choice.
    """
    import numpy as np

    positive(pixel, "The pixel", "mm")
    if min(labels.shape) < 3:
        raise OutOfRange(say("This face is too small to be judged."))
    eye, window = _kernel(EYE.value / pixel), _kernel(WINDOW.value / pixel)
    tensor = np.zeros((3, *labels.shape))
    for label in np.unique(labels):
        down, across = np.gradient(_blurred((labels == label).astype(float), eye), pixel)
        steep = np.hypot(down, across)
        inverse = np.divide(0.5, steep, out=np.zeros_like(steep), where=steep > 0)
        tensor += np.stack([down * down, across * across, -down * across]) * inverse
    total = float(tensor[0].mean() + tensor[1].mean())
    one, two, mixed = (_blurred(each, window) for each in tensor)
    smaller = (one + two) / 2 - np.hypot((one - two) / 2, mixed)
    return Edges(PER_CM * total, PER_CM * 2 * float(smaller.mean()))


def _kernel(sigma: float) -> Array:
    import numpy as np

    half = max(1, round(3 * sigma))
    weights = np.exp(-0.5 * (np.arange(-half, half + 1) / sigma) ** 2)
    return np.asarray(weights / weights.sum())


def _blurred(image: Array, kernel: Array) -> Array:
    """Return the image under a Gaussian along both sides; beyond its rim it goes on as at the rim."""
    import numpy as np

    half = len(kernel) // 2
    for axis in (0, 1):
        pad = [(half, half) if each == axis else (0, 0) for each in (0, 1)]
        wide = np.pad(image, pad, mode="edge")
        count = image.shape[axis]
        parts = (np.take(wide, range(at, at + count), axis=axis) * weight for at, weight in enumerate(kernel))
        image = np.asarray(sum(parts))
    return image


def gain_of(drawn: Sequence[Labels], undrawn: Sequence[Labels], pixel: float = SCORE_PIXEL.value) -> float:
    """Return what a drawing adds to the bent edges of some faces, cm/cm², never below 0.

    Raises:
        OutOfRange: as edges does.

    Source: own choice.
    """
    import numpy as np

    more = [edges(after, pixel).bent - edges(before, pixel).bent for after, before in zip(drawn, undrawn, strict=True)]
    return max(0.0, float(np.mean(more)))


def recommend(gains: Sequence[Mapping[str, float]]) -> Verdict:
    """Return the plan to cut by; others are as good where, at any reach that was tried, they come near the best.

    Args:
        gains: cm/cm² by plan, at each reach that was tried, the likely one in the middle.

    Raises:
        OutOfRange: nothing was scored.

    Source: own choice.
    """
    if not gains or not gains[0]:
        raise OutOfRange(say("There is no plan to compare."))
    likely = gains[len(gains) // 2]
    largest = max(likely.values())
    found = tuple(Gain(plan, gain, gain / largest if largest else 0.0) for plan, gain in likely.items())
    ranked = tuple(sorted(found, key=lambda each: -each.gain))
    if largest < HARDLY.value:
        return Verdict("", (), ranked)
    firm = 1 - NEAR.value
    near = {plan for each in gains for plan, gain in each.items() if gain >= firm * max(each.values())}
    also = tuple(each.plan for each in ranked[1:] if each.plan in near)
    return Verdict(ranked[0].plan, also, ranked)


CONSTANTS = (EYE, WINDOW, SCORE_PIXEL, NEAR, HARDLY)
_HERE = "soapbench.science.pattern.reveal."
RELATIONS = (
    Relation("Colour edges of a face", "T = ½ Σ |∇χ| t⊗t; bent = mean 2 λmin(G*T)", "cm/cm²", TENSOR, _HERE + "edges"),
    Relation("What a drawing adds", "mean bent(drawn) - bent(undrawn), ≥ 0", "cm/cm²", TENSOR, _HERE + "gain_of"),
    Relation("Cut to recommend", "largest gain; within 15 % at any reach: either", "", OWN_CHOICE, _HERE + "recommend"),
)
