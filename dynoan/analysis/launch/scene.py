"""A launch to be run: its drive, over which ground and for how long."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from dynoan.analysis.launch.assumptions import (
    DURATION,
    LONGEST,
    MOST_GRIP,
    NO_LIMIT,
    SHORTEST,
    STEP,
)
from dynoan.analysis.launch.drive import Drive
from dynoan.analysis.road import SEED
from dynoan.errors import QuantityError
from dynoan.model.car import Surface


@dataclass(frozen=True)
class Scene:
    """Drive, ground and time: the same for all settings that are compared."""

    drive: Drive
    surface: Surface
    duration: float = DURATION  #: [s]
    step: float = STEP  #: [s]
    seed: int = SEED

    @property
    def steps(self) -> int:
        """Number of whole steps."""
        return round(self.duration / self.step)

    @property
    def grip(self) -> float:
        """The grip that limits the drive. [1]"""
        return self.surface.grip if self.drive.limited else NO_LIMIT


def check(scene: Scene) -> Scene:
    """Return the scene, which can be run.

    Raises
    ------
    QuantityError
        If grip or duration are none of a launch.
    """
    if not (math.isfinite(scene.surface.grip) and 0 < scene.surface.grip <= MOST_GRIP):
        raise QuantityError(
            f"grip of surface {scene.surface.name} is {scene.surface.grip:g}", hint=f"it must lie in 0 to {MOST_GRIP:g}"
        )
    if not (math.isfinite(scene.duration) and SHORTEST <= scene.duration <= LONGEST):
        raise QuantityError(f"a launch lasts {SHORTEST:g} to {LONGEST:g} s, not {scene.duration:g} s")
    return scene


def level(scene: Scene) -> Scene:
    """Return the scene without the road: what the drive alone does."""
    return replace(scene, surface=replace(scene.surface, roughness=0.0))
