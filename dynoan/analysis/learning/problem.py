"""What a fit of launches is about: the car with its unknowns, what the model predicts, and its derivatives.

Every unknown is standard normal before the logs are seen: values of the car, scales of the sensors, the drive of each
launch.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from scipy.linalg import solve_triangular

from dynoan.analysis.launch.drive import Drive
from dynoan.analysis.learning import drives as driving
from dynoan.analysis.learning.assumptions import NUDGE, SENSOR_SCALE, SPEED_LATE, SPEED_LATE_OFF, STEP, SUNK
from dynoan.analysis.learning.logged import CHANNELS, LoggedLaunch
from dynoan.analysis.learning.predicting import RunnableCar, held_drives, motions, runnable_car
from dynoan.analysis.learning.roughness import RoadHits, covariance, road_hits
from dynoan.analysis.learning.values import UncertainValue
from dynoan.errors import QuantityError
from dynoan.model.arrays import FloatArray
from dynoan.model.car import Car, Surface
from dynoan.model.curve import Curve

_ACCELERATION, _SPEED = CHANNELS.index("acceleration"), CHANNELS.index("speed")
_LATE = len(CHANNELS)  #: behind the scales of the channels stands how late the speed is
SENSORS = len(CHANNELS) + 1


@dataclass(frozen=True)
class LearnScene:
    """What is known before: the car, its curves, what is uncertain of it, and what it stood on."""

    car: Car
    curves: Mapping[str, Curve]
    values: tuple[UncertainValue, ...]
    surface: Surface

    def at(self, unknown: FloatArray) -> dict[str, float]:
        """Return the values that unknowns stand for, by key. [SI]"""
        return {v.key: v.at(float(z)) for v, z in zip(self.values, unknown, strict=True)}

    def runnable(self, unknown: FloatArray) -> RunnableCar:
        """Return the car with these values."""
        return runnable_car(self.car, self.curves, self.at(unknown))


@dataclass(frozen=True)
class LearnState:
    """All unknowns, and what was taken of road and drive."""

    values: FloatArray  #: of the car, standard normal before, shape (values,)
    sensors: FloatArray  #: shape (SENSORS,)
    drives: tuple[FloatArray, ...]  #: a launch each
    roughness: float  #: [m³]
    wander: float  #: of the drive, over the usual

    @property
    def all(self) -> FloatArray:
        """Every unknown in one row. [1]"""
        return np.concatenate([self.values, self.sensors, *self.drives])

    def moved(self, unknown: FloatArray) -> LearnState:
        """Return the state with other unknowns."""
        n, m = len(self.values), len(self.values) + SENSORS
        ends = np.cumsum([len(d) for d in self.drives]) + m
        parts = tuple(unknown[e - len(d) : e] for d, e in zip(self.drives, ends, strict=True))
        return replace(self, values=unknown[:n], sensors=unknown[n:m], drives=parts)


class LearnProblem:
    """A scene with its launches."""

    def __init__(self, scene: LearnScene, launches: Sequence[LoggedLaunch]) -> None:
        self.scene, self.launches = scene, launches
        self.length = max(one.length for one in launches)
        self.times: FloatArray = np.asarray(np.arange(round(self.length / STEP) + 2) * STEP)
        self.hits: RoadHits | None = None

    def start(self) -> LearnState:
        """Return the state before the logs are seen."""
        drives = tuple(np.zeros(driving.unknowns(self.length)) for _ in self.launches)
        return LearnState(np.zeros(len(self.scene.values)), np.zeros(SENSORS), drives, 0.0, 1.0)

    def drives(self, car: RunnableCar, state: LearnState, unknowns: Sequence[FloatArray]) -> list[Drive]:
        """Return the drives that unknowns stand for; what the tyres hold is run once for all that come in alike."""
        alike = list(dict.fromkeys((float(u[driving.START]), float(u[driving.RISING])) for u in unknowns))
        half, surface = car.large.half, car.car.surfaces[self.scene.surface.name]
        firsts = [np.array(pair) for pair in alike]
        asked = [driving.asked_for(half, surface.grip, first, self.times) for first in firsts]
        time, held = held_drives(car, asked, surface, self.length)
        by_pair = dict(zip(alike, held, strict=True))
        return [
            driving.wandered(by_pair[float(u[driving.START]), float(u[driving.RISING])], u, time, state.wander)
            for u in unknowns
        ]

    def run(self, state: LearnState, values: FloatArray, rows: Sequence[tuple[int, FloatArray]]) -> list[FloatArray]:
        """Return channels of launches with drives, each of shape (channels, blocks), sensors aside. [SI]

        Raises
        ------
        QuantityError
            If the car does not stay finite.
        """
        car = self.scene.runnable(values)
        even = replace(self.scene.surface, roughness=0.0)
        time, found = motions(car, self.drives(car, state, [u for _, u in rows]), even, self.length)
        if not all(np.all(np.isfinite(x)) for x in found.values()):
            raise QuantityError("the launch of this car does not stay finite", hint="check masses, rates and ratios")
        whole = np.stack([found[c] for c in CHANNELS], axis=1)
        return [self.launches[at].averaged(time, whole[n]) for n, (at, _) in enumerate(rows)]

    def seen(self, raw: FloatArray, sensors: FloatArray) -> FloatArray:
        """Return channels as the sensors show them, of their shape. [m, m/s² and m/s]"""
        shown = raw.copy()
        shown[_SPEED] -= (SPEED_LATE + SPEED_LATE_OFF * sensors[_LATE]) * raw[_ACCELERATION]
        if self.hits is not None:
            shown = shown + SUNK * self.hits.shift[:, : raw.shape[1]]
        return np.asarray(shown * np.exp(SENSOR_SCALE * sensors[: len(CHANNELS), None]))

    def predict(self, state: LearnState) -> list[FloatArray]:
        """Return what each launch's logger should show, shape (channels, blocks). [SI]"""
        raw = self.run(state, state.values, list(enumerate(state.drives)))
        return [self.seen(one, state.sensors) for one in raw]

    def jacobian(self, state: LearnState) -> tuple[list[FloatArray], list[FloatArray]]:
        """Return each launch's prediction and its derivatives by all unknowns, shape (channels, blocks, all). [SI]"""
        rows = list(enumerate(state.drives))
        raw = self.run(state, state.values, rows)
        base = [self.seen(one, state.sensors) for one in raw]
        out = [np.zeros((*one.shape, len(state.all))) for one in base]
        for i in range(len(state.values)):
            moved = state.values.copy()
            moved[i] += NUDGE
            for n, one in enumerate(self.run(state, moved, rows)):
                out[n][:, :, i] = (self.seen(one, state.sensors) - base[n]) / NUDGE
        for i in range(SENSORS):
            sensors = state.sensors.copy()
            sensors[i] += NUDGE
            for n, one in enumerate(raw):
                out[n][:, :, len(state.values) + i] = (self.seen(one, sensors) - base[n]) / NUDGE
        self._add_drives(state, base, out)
        return base, out

    def by_drives(self, state: LearnState) -> tuple[list[FloatArray], list[FloatArray]]:
        """Return the same with the derivatives by the drives alone; the others are 0. [SI]"""
        base = self.predict(state)
        out = [np.zeros((*one.shape, len(state.all))) for one in base]
        self._add_drives(state, base, out)
        return base, out

    def _add_drives(self, state: LearnState, base: list[FloatArray], out: list[FloatArray]) -> None:
        place, rows, columns = len(state.values) + SENSORS, [], []
        for n, drive in enumerate(state.drives):
            for i in range(len(drive)):
                rows.append((n, drive + NUDGE * (np.arange(len(drive)) == i)))
                columns.append(place + i)
            place += len(drive)
        for (n, _), column, one in zip(rows, columns, self.run(state, state.values, rows), strict=True):
            out[n][:, :, column] = (self.seen(one, state.sensors) - base[n]) / NUDGE

    def logged(self, n: int) -> FloatArray:
        """Return what was logged of a launch, channels one behind the other, shape (n,). [m, m/s² and m/s]"""
        return np.concatenate([c.values for c in self.launches[n].channels])

    def chosen(self, n: int, whole: FloatArray, names: tuple[str, ...] | None = None) -> FloatArray:
        """Return the logged channels, one behind the other, of what has all. [as that]"""
        picked = whole[[CHANNELS.index(name) for name in names or self.launches[n].names]]
        return np.asarray(picked.reshape(-1, *whole.shape[2:]))

    def whitened(
        self,
        state: LearnState,
        base: list[FloatArray],
        slopes: list[FloatArray] | None = None,
        roughness: float | None = None,
    ) -> tuple[FloatArray, FloatArray, float]:
        """Return residuals and their derivatives in standard deviations, and the logarithm of their determinant. [1]"""
        assert self.hits is not None
        residual, rows, determinant = [], [], 0.0
        for n, launch in enumerate(self.launches):
            spread = covariance(launch, base[n], self.hits, state.roughness if roughness is None else roughness)
            factor = np.linalg.cholesky(spread)
            off = self.logged(n) - self.chosen(n, base[n])
            residual.append(solve_triangular(factor, off, lower=True))
            if slopes is not None:
                rows.append(solve_triangular(factor, self.chosen(n, slopes[n]), lower=True))
            determinant += 2 * float(np.log(np.diag(factor)).sum())
        return np.concatenate(residual), np.concatenate(rows) if rows else np.zeros((0, 0)), determinant

    def cost(self, state: LearnState) -> float:
        """Return squares of residuals and of unknowns, in standard deviations. [1]"""
        residual, _, _ = self.whitened(state, self.predict(state))
        return float(residual @ residual + state.all @ state.all)

    def look_at_road(self, state: LearnState, roughness: float) -> None:
        """Run made roads of a roughness with the car as it is thought to be."""
        car = self.scene.runnable(state.values)
        drive = self.drives(car, state, state.drives[:1])[0]
        longest = max(self.launches, key=lambda one: one.blocks)
        self.hits = road_hits(car, drive, self.scene.surface, longest, roughness)
