"""The loaf as it really is: its mould, its stages, the volumes that were poured."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from soapbench.bars.formula import PourStage
from soapbench.bench.plan import Plan
from soapbench.bench.state import RunState
from soapbench.science.cut import BATTER_DENSITY
from soapbench.science.errors import OutOfRange
from soapbench.science.mould import Mould
from soapbench.science.pour import Poured, Room, Stage, pour, room_of


@dataclass(frozen=True)
class Loaf:
    """One run's mould with what is in it, or will be."""

    plan: Plan
    state: RunState

    @cached_property
    def mould(self) -> Mould:
        return Mould(**self.plan.mould_shape)

    @cached_property
    def room(self) -> Room:
        return room_of(self.mould)

    @property
    def is_round(self) -> bool:
        return self.mould.shape == "cylinder"

    @cached_property
    def masses(self) -> dict[str, float]:
        """Return grams by letter: as split, else as planned."""
        split = self.state.portions_g
        return {one.letter: split.get(one.letter, one.planned_g) for one in self.plan.portions}

    @cached_property
    def ml_per_g(self) -> float:
        """Return the room that a gram of batter takes in one mould or cavity, as planned."""
        if self.mould.shape == "cavities":
            return 1 / BATTER_DENSITY.value / max(1, self.plan.size.bars or self.mould.cavities)
        return self.mould.floor_mm2 * self.plan.size.fill_mm / 1000 / self.plan.size.batter_g

    @property
    def fill_mm(self) -> float:
        """Return how high the batter stands, or will stand, in the mould."""
        whole = self.state.batter_g or self.plan.size.batter_g
        return self.plan.size.fill_mm * whole / self.plan.size.batter_g

    @property
    def poured_stages(self) -> tuple[PourStage, ...]:
        return self.plan.formula.pour or (PourStage("layer", tuple(self.masses)),)

    @cached_property
    def stages(self) -> tuple[Stage, ...]:
        return tuple(
            Stage(stage.way, tuple((letter, self._ml(letter, stage)) for letter in stage.portions), stage.height_mm)
            for stage in self.poured_stages
        )

    def _ml(self, letter: str, stage: PourStage) -> float:
        return self.masses.get(letter, 0.0) * stage.share * self.ml_per_g

    @cached_property
    def poured(self) -> tuple[Poured, ...]:
        """Return the mould after each stage; none where the mould's measures do not allow it."""
        try:
            return pour(self.room, self.stages)
        except OutOfRange:
            return ()
