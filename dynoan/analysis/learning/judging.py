"""Which values the logs tell, what would tell the others, and whether a launch left out is predicted better."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from dynoan.analysis.learning.assumptions import BETTER, TOLD, WORSE
from dynoan.analysis.learning.fitting import LearnFit, fit_launches
from dynoan.analysis.learning.following import followed
from dynoan.analysis.learning.logged import LoggedLaunch
from dynoan.analysis.learning.problem import LearnScene
from dynoan.analysis.learning.values import UncertainValue
from dynoan.analysis.statistics import Z95
from dynoan.model.banded import Banded

#: what would tell a value that these logs cannot
Help = Literal["channels", "smooth", "both", ""]
LearnVerdict = Literal["better", "no better", "untried", "cannot tell"]
_HELPS: tuple[Help, ...] = ("channels", "smooth", "both")


@dataclass(frozen=True)
class LearnedValue:
    """A value before and after."""

    before: UncertainValue
    after: Banded  #: [SI]
    narrower: float  #: its limits over what they were [1]
    helped_by: Help  #: what the logs lack that would tell it; "" where nothing of a launch does

    @property
    def short_of_limit(self) -> bool:
        """Whether it is a grip that comes out below all that was thought of it, as gentle launches have it."""
        grip = self.before.key.endswith(".grip")
        return grip and self.after.value < self.before.value - self.before.half_width

    @property
    def told(self) -> bool:
        """Whether the logs tell it; what tyres that are not at their limit used says nothing of the grip."""
        return self.narrower < TOLD and not self.short_of_limit


@dataclass(frozen=True)
class LeftOut:
    """A launch that was not learned from, predicted with the values before and after."""

    name: str  #: of its log
    before: float  #: root mean square of logged less predicted travel of the shocks [m]
    after: float
    floor: float = 0.0  #: what road, sensors and the model leave of it whatever the car's values, expected [m]

    @property
    def verdict(self) -> LearnVerdict:
        """Whether it is predicted better; no worse where it is missed by no more than road and sensors leave."""
        share = self.after / max(self.before, 1e-12)
        worse = share > WORSE and self.after > WORSE * self.floor
        return "better" if share < BETTER else "no better" if worse else "cannot tell"


def learned_values(scene: LearnScene, fit: LearnFit) -> tuple[LearnedValue, ...]:
    """Return each value that people are told of, before and after. [SI]"""
    spreads = np.sqrt(np.diag(fit.spread))
    out = []
    for i, value in enumerate(scene.values):
        if not value.shown:
            continue
        z, sd = float(fit.state.values[i]), float(spreads[i])
        after = Banded(value.at(z), value.at(z - Z95 * sd), value.at(z + Z95 * sd))
        helps = [h for h in _HELPS if h in fit.imagined and fit.imagined[h][i] < TOLD]
        out.append(LearnedValue(value, after, sd, helps[0] if helps and sd >= TOLD else ""))
    return tuple(out)


def left_out(scene: LearnScene, launches: Sequence[LoggedLaunch]) -> LeftOut | None:
    """Return how the last launch is predicted by what the others tell; None with one alone, or without its shocks."""
    *others, last = launches
    if not others or not {"front", "rear"} & set(last.names):
        return None
    fit = fit_launches(scene, others)
    values, sensors = fit.state.values, fit.state.sensors
    before = followed(scene, last, 0 * values, 0 * sensors, fit.state)
    after = followed(scene, last, values, sensors, fit.state)
    return LeftOut(last.name, before.off, after.off, after.floor)


def verdict_of(values: Sequence[LearnedValue], tried: LeftOut | None) -> LearnVerdict:
    """Return what is to be thought of it all: nothing is told, told and not tried, or tried."""
    if not any(v.told for v in values):
        return "cannot tell"
    return "untried" if tried is None else tried.verdict
