"""Clicks of one axle searched at large angles: every one where they are few, else from coarse to fine.

A first lattice over all clicks is run coarsely, then the neighbourhood of the leading settings in ever smaller steps,
until no neighbour of the best is better; what leads is run again finely. All settings meet the same roads, several of
them, so that none leads by its luck on one. `tests/benchmarks/bench_aims.py` holds it against every setting.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np

from dynoan.analysis.launch.assumptions import FINE, MOST_SETTINGS
from dynoan.analysis.launch.clicked import Clicked
from dynoan.analysis.launch.hinges import NOMINAL, AxleDamping, Hinges
from dynoan.analysis.launch.large import layout as at
from dynoan.analysis.launch.large.coarse import coarse_steps
from dynoan.analysis.launch.large.model import LargeCar
from dynoan.analysis.launch.large.rows import STEP, run
from dynoan.analysis.launch.scene import Scene, level
from dynoan.analysis.launch.sides import Sides
from dynoan.errors import CallError
from dynoan.model.arrays import FloatArray, IntArray
from dynoan.model.curve import DIRECTIONS, Direction

#: clicks of an adjuster in the first lattice; judged
LATTICE = 6
#: leading settings whose neighbourhood is looked at in each round; judged
LEADING = 6
#: rounds of the finest step at most (numerics)
MOST_ROUNDS = 12
#: leading settings run again with the fine step and all roads
AGAIN = 48
#: roads each setting meets in a search, and in its coarse part; others than those a verdict is given on
ROADS, COARSE_ROADS = 6, 2
#: the roads of a search begin so many seeds after the one asked for
APART = 1000

#: figures taken from the run on the road, and from the drive alone as `level_` and the name
_ROUGH = {
    "driven_load_rms_n": at.LOAD_SQUARES, "driven_load_least_n": at.LOAD_LEAST, "front_wheel_height_m": at.FRONT_HEIGHT,
    "wheelspin_s": at.SPUN, "front_wheel_lift_s": at.LIFTED, "distance_m": at.DISTANCE, "speed_end_m_s": at.SPEED,
    "nose_rise_m": at.NOSE_RISE, "nose_rise_rate_m_s": at.NOSE_RATE, "rear_squat_m": at.TAIL_SQUAT,
    "rear_lift_m": at.TAIL_LIFT, "pitch_peak_rad": at.PITCH_PEAK,
}  # fmt: skip
_LEVEL = {
    "level_nose_rise_m": at.NOSE_RISE, "level_nose_rise_rate_m_s": at.NOSE_RATE, "level_rear_squat_m": at.TAIL_SQUAT,
    "level_rear_lift_m": at.TAIL_LIFT, "level_pitch_peak_rad": at.PITCH_PEAK,
}  # fmt: skip
#: every figure a search reckons: an objective or an aim asks for one of these
RECKONED = frozenset((*_ROUGH, *_LEVEL, "level_body_lift_m"))

Figures = dict[str, FloatArray]
Score = Callable[[Mapping[str, FloatArray], IntArray], FloatArray]  #: of figures and clicks, small is good, (m,)
#: figure worst of the roads, not the mean
_WORST = {"front_wheel_height_m", "nose_rise_m", "nose_rise_rate_m_s", "rear_squat_m", "rear_lift_m", "pitch_peak_rad"}


@dataclass(frozen=True)
class ClickLab:
    """One axle's clicks on one car, drive and surface: runs any of them."""

    car: LargeCar
    scene: Scene
    others: AxleDamping  #: of the other axle, which stays
    clicked: Clicked
    axle: str
    tables: Mapping[Direction, Hinges]  #: hinge sums of every click, see `Clicked.damping`

    @classmethod
    def of(cls, car: LargeCar, scene: Scene, others: AxleDamping, clicked: Clicked, axle: str) -> ClickLab:
        """Return the lab of an axle.

        Raises
        ------
        CallError
            If the shocks have different adjusters, or there are too many settings or one alone.
        """
        if any(m.adjusters != clicked.maps[0].adjusters for m in clicked.maps):
            raise CallError("the shocks of this axle have different adjusters", hint="the search turns both alike")
        count = int(np.prod([len(span) for span in clicked.spans]))
        if not clicked.adjusters or not 1 < count <= MOST_SETTINGS:
            raise CallError(
                f"pack {clicked.maps[0].pack} has {count} settings to search", hint=f"wanted 2 to {MOST_SETTINGS}"
            )
        return cls(car, scene, others, clicked, axle, {d: clicked.damping(d) for d in DIRECTIONS})

    def run(self, clicks: IntArray, *, fine: bool, rough: bool = True, alone: bool = True) -> Figures:
        """Return the figures of settings, each of shape (m,); those of the road are means or the worst of several.

        Parameters
        ----------
        clicks
            From closed, shape (m, adjusters).
        fine
            Whether with the fine step and all roads.
        rough, alone
            Whether the road is run, and whether the drive alone; the figures of what is not run are NaN.

        Raises
        ------
        ValueError
            If neither is to be run.
        """
        if not (rough or alone):
            raise ValueError("a launch runs on the road, or alone, or both")
        damping = self._sides(clicks)
        steps = np.full(len(clicks), STEP) if fine else coarse_steps(self.car, self.scene, damping)
        roads = (ROADS if fine else COARSE_ROADS) if self.scene.surface.roughness else 1
        out: Figures = dict.fromkeys((*_LEVEL, *_ROUGH), np.full(len(clicks), np.nan))
        over = np.zeros(len(clicks))
        # As long as the launch that is shown: a nose held by closed clicks goes on rising to its end.
        if alone:
            found = self._run(damping, [level(self.scene)], steps)[:, 0]
            out |= {name: found[:, where].copy() for name, where in _LEVEL.items()}
            over = np.isfinite(found[:, at.OVER]).astype(float)
        if rough:
            scenes = [replace(self.scene, seed=self.scene.seed + APART + n) for n in range(roads)]
            each = self._run(damping, scenes, steps)
            out |= {
                n: (each[:, :, w].max(axis=1) if n in _WORST else each[:, :, w].mean(axis=1)) for n, w in _ROUGH.items()
            }
            over = np.maximum(over, np.isfinite(each[:, :, at.OVER]).any(axis=1).astype(float))
        lift = np.maximum(np.maximum(out["level_nose_rise_m"], out["level_rear_lift_m"]), 0.0)
        return out | {"goes_over": over, "level_body_lift_m": lift}

    def _run(self, damping: Sides, scenes: Sequence[Scene], steps: FloatArray) -> FloatArray:
        """Return the figures of settings on scenes, each setting in its step, shape (m, scenes, FIGURES)."""
        out = np.empty((len(steps), len(scenes), at.FIGURES))
        for step in np.unique(steps):
            rows = np.flatnonzero(steps == step)
            pairs = [(i, n) for i in range(len(rows)) for n in range(len(scenes))]
            found = run(self.car, damping.take(rows), scenes, pairs, keep=False, step=float(step))
            out[rows] = found.figures.reshape(len(rows), len(scenes), at.FIGURES)
        return out

    def _sides(self, clicks: IntArray) -> Sides:
        turned = [self.tables[d].take(self.clicked.rows(d, clicks)) for d in DIRECTIONS]
        still = [self.others.hinges(d).take(np.full(len(clicks), NOMINAL)) for d in DIRECTIONS]
        return Sides(*turned, *still) if self.axle == "front" else Sides(*still, *turned)


@dataclass(frozen=True)
class Found:
    """Settings that were run; row i of `clicks` belongs to element i of each figure."""

    clicks: IntArray  #: from closed, shape (m, adjusters)
    figures: Figures
    fine: FloatArray  #: 1 where the figures come from the fine step and all roads, shape (m,)
    best: int
    now: int | None  #: what is on the car, where it is one of these
    possible: int  #: how many settings there are


def search(
    lab: ClickLab, score: Score, *, rough: bool = True, alone: bool = True,
    watch: Callable[[float], None] = lambda _: None,
) -> Found:  # fmt: skip
    """Return the settings that were run and the best of them by a score.

    Parameters
    ----------
    lab
        The axle.
    score
        Small is good. It must not jump about from click to click: the search walks downhill from the best of a lattice.
    rough, alone
        Whether the score needs figures of the road, and of the drive alone (`level_` and so on); what it does not need
        is NaN in the settings that were run coarsely.
    watch
        Told the share done, 0 to 1.
    """
    spans = lab.clicked.spans
    possible = int(np.prod([len(s) for s in spans]))
    now = [lab.clicked.now[n] for n in lab.clicked.adjusters] if _stated(lab) else None
    if possible <= FINE:
        clicks = np.array(list(product(*spans)), dtype=int)
        figures = lab.run(clicks, fine=True, rough=rough, alone=alone)
        watch(1.0)
        best = int(np.argmin(score(figures, clicks)))
        return Found(clicks, figures, np.ones(len(clicks)), best, lab.clicked.row_now(clicks), possible)
    book = _Book(lab, rough, alone)
    book.add(product(*(sorted({s[round(x)] for x in np.linspace(0, len(s) - 1, LATTICE)}) for s in spans)))
    book.add([tuple(now)] if now is not None else [])
    watch(0.5)
    step = max(1, round(max(len(s) for s in spans) / LATTICE / 2))
    for _ in range(MOST_ROUNDS):
        before = book.leading(score, LEADING)
        book.add(n for one in before for n in _neighbours(one, step, spans))
        if step > 1:
            step = max(1, step // 2)
        elif book.leading(score, 1) == before[:1]:
            break
    watch(0.8)
    book.refine(score, now)
    watch(1.0)
    return book.found(score, now, possible)


def _stated(lab: ClickLab) -> bool:
    return all(n in lab.clicked.now for n in lab.clicked.adjusters)


def _neighbours(one: tuple[int, ...], step: int, spans: Sequence[range]) -> list[tuple[int, ...]]:
    ways = [sorted({min(max(c + d, s[0]), s[-1]) for d in (-step, 0, step)}) for c, s in zip(one, spans, strict=True)]
    return list(product(*ways))


class _Book:
    """What was run so far, each setting once."""

    def __init__(self, lab: ClickLab, rough: bool, alone: bool) -> None:
        self.lab, self.rough, self.alone = lab, rough, alone
        self.rows: dict[tuple[int, ...], int] = {}
        self.figures: Figures = {}
        self.fine: FloatArray = np.zeros(0)

    def add(self, settings: object) -> None:
        new = [s for s in dict.fromkeys(settings) if s not in self.rows]  # type: ignore[call-overload]
        if not new:
            return
        found = self.lab.run(np.array(new, dtype=int), fine=False, rough=self.rough, alone=self.alone)
        self.rows |= {s: len(self.rows) + i for i, s in enumerate(new)}
        self.figures = {k: np.concatenate([self.figures.get(k, np.zeros(0)), v]) for k, v in found.items()}
        self.fine = np.concatenate([self.fine, np.zeros(len(new))])

    @property
    def clicks(self) -> IntArray:
        return np.array(list(self.rows), dtype=int)

    def leading(self, score: Score, count: int) -> list[tuple[int, ...]]:
        order = np.argsort(score(self.figures, self.clicks), kind="stable")[:count]
        return [tuple(int(c) for c in self.clicks[i]) for i in order]

    def refine(self, score: Score, now: Sequence[int] | None) -> None:
        again = [self.rows[s] for s in self.leading(score, AGAIN)]
        if now is not None:
            again = list(dict.fromkeys([*again, self.rows[tuple(now)]]))
        for name, values in self.lab.run(self.clicks[again], fine=True, rough=self.rough).items():
            self.figures[name][again] = values
        self.fine[again] = 1.0

    def found(self, score: Score, now: Sequence[int] | None, possible: int) -> Found:
        marks = np.where(self.fine > 0, score(self.figures, self.clicks), np.inf)
        at_now = self.rows[tuple(now)] if now is not None else None
        return Found(self.clicks, self.figures, self.fine, int(np.argmin(marks)), at_now, possible)
