"""Clicks that come nearest to the aims of a launch: the axles searched in turn until neither moves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

import numpy as np

from dynoan.analysis.launch.compare import NO_DIFFERENCE
from dynoan.analysis.launch.large.compare import launch_large
from dynoan.analysis.launch.large.search import ClickLab, Found, search
from dynoan.jobs.aim.asked import AimQuestion, LaunchAim
from dynoan.jobs.assumptions import A_CLICK, IN_HAND, LIMITS_FIRST, MOST_TRIES, MOST_TURNS
from dynoan.jobs.launch.answering import Watch
from dynoan.jobs.launch.best import clicked_of, pack_of, turned
from dynoan.jobs.launch.settings import LaunchCase, launch_case, surfaces_of
from dynoan.model.arrays import FloatArray, IntArray
from dynoan.model.car import Car

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass
class Aiming:
    """The search of one question: clicks of an axle that score best, the other axle as it stands."""

    bench: Workbench
    question: AimQuestion
    now: LaunchCase
    watch: Watch
    #: what of each limit the search takes, by the aim's words: less than 1 where its roads are kinder than the launch's
    share: dict[str, float] = field(default_factory=dict)
    kept: bool = False  #: whether the search counts the last clicks found as keeping every limit so taken

    def found(self, car: Car) -> tuple[Car, int, bool]:
        """Return what `both` does, by the launch that is shown.

        Where that launch misses a limit which the search, on roads of its own, saw kept, the search is made again with
        as much in hand; of all tries the one that comes nearest is returned.
        """
        tries, searched = [], 0
        for _ in range(MOST_TRIES):
            chosen, runs, settled = self.both(car)
            searched += runs
            values = self._launched(chosen)
            tries.append((self._missed(values), chosen, settled))
            over = {aim.text: values[aim.key] / (aim.limit or 1.0) for aim in self._limits() if aim.limit}
            short = {text: much for text, much in over.items() if much > 1.0}
            if not short or not self.kept:
                break
            self.share |= {text: self.share.get(text, 1.0) / much * (1 - IN_HAND) for text, much in short.items()}
        _, chosen, settled = min(tries, key=lambda one: one[0])
        return chosen, searched, settled

    def _launched(self, car: Car) -> Mapping[str, float]:
        case, asked = launch_case(self.bench, car, "chosen"), self.question.launch
        return launch_large(
            case.large, asked.run.scene(case, surfaces_of(car, asked.surfaces)[0]), case.damping
        ).metrics

    def _missed(self, values: Mapping[str, float]) -> float:
        missed = sum(float(aim.missed(np.array(values[aim.key]))) for aim in self._limits())
        return missed if missed == missed else np.inf  # a car that goes over has no figures

    def _limits(self, share: Mapping[str, float] | None = None) -> list[LaunchAim]:
        """Return the aims that are limits, each with so much of its limit."""
        return [
            replace(aim, limit=aim.limit * (share or {}).get(aim.text, 1.0))
            for aim in self.question.aims if aim.limit is not None
        ]  # fmt: skip

    def both(self, car: Car) -> tuple[Car, int, bool]:
        """Return the car with the clicks found, the axles in turn until neither moves; how many were run; if settled.

        An axle is searched anew only where the other one has moved since.
        """
        axles, searched = self.question.axles, 0
        for n in range(MOST_TURNS * len(axles)):
            before = car
            car, runs = self._axle(car, axles[n % len(axles)])
            searched += runs
            if len(axles) == 1 or (n > 0 and car == before):
                return car, searched, True
        return car, searched, False

    def _axle(self, car: Car, axle: str) -> tuple[Car, int]:
        asked, case = self.question.launch, launch_case(self.bench, car, "now")
        surface = surfaces_of(car, asked.surfaces)[0]
        clicked = replace(clicked_of(self.bench, car.axle(axle)), inside=self.question.inside)
        others = case.damping[1 if axle == "front" else 0]
        lab = ClickLab.of(case.large, asked.run.scene(case, surface), others, clicked, axle)
        of_drive_alone = [aim.key.startswith("level_") for aim in self.question.aims]
        rough, alone = not all(of_drive_alone), any(of_drive_alone)
        what = f"searching all clicks of the {axle} axle for the aims"
        self.watch(what, 0.0)
        home = clicked_of(self.bench, self.now.car.axle(axle)).now
        found = search(lab, lambda f, c: self._score(f, c, home, lab), rough=rough, alone=alone,
                       watch=lambda s: self.watch(what, s))  # fmt: skip
        row = self._nearest(found, self._away(found.clicks, home, lab))
        setting = dict(zip(clicked.adjusters, (int(c) for c in found.clicks[row]), strict=True))
        corner = car.axle(axle)[0]
        shock = self.bench.corner_shock(corner, pack_of(car, corner))
        return turned(car, axle, setting, shock), len(found.clicks)

    def _score(
        self, figures: Mapping[str, FloatArray], clicks: IntArray, home: Mapping[str, int], lab: ClickLab
    ) -> FloatArray:
        least = any(aim.limit is None for aim in self.question.aims)
        away = (A_CLICK if least else 1.0) * self._away(clicks, home, lab)
        return np.asarray(self._rank(figures) + away)

    def _rank(self, figures: Mapping[str, FloatArray]) -> FloatArray:
        """Return how far settings are from the aims, small is near: what keeps all limits before what does not."""
        missed = sum(
            (aim.missed(figures[aim.key]) for aim in self._limits(self.share)), np.zeros_like(figures["goes_over"])
        )
        total = LIMITS_FIRST * (LIMITS_FIRST * figures["goes_over"] + missed + (missed > 0))
        for aim in self.question.aims:
            if aim.limit is None:
                values = figures[aim.key]
                total = total + values / max(float(np.abs(values).max()), 1e-12)
        return np.asarray(total)

    @staticmethod
    def _away(clicks: IntArray, home: Mapping[str, int], lab: ClickLab) -> IntArray:
        """Return how many clicks settings lie from what is on the car. [clicks]"""
        if not home:
            return np.zeros(len(clicks), dtype=int)
        return np.asarray(np.abs(clicks - np.array([home[n] for n in lab.clicked.adjusters])).sum(axis=1))

    def _nearest(self, found: Found, away: IntArray) -> int:
        """Return the row nearest to the aims: of those that no aim tells apart the smallest turn."""
        figures, rank = found.figures, np.where(found.fine > 0, self._rank(found.figures), np.inf)
        best = int(np.argmin(rank))
        alike = np.isfinite(rank) & (figures["goes_over"] == figures["goes_over"][best])
        limits = {aim.text: aim for aim in self._limits(self.share)}
        for aim in self.question.aims:
            values = figures[aim.key]
            limit = limits[aim.text].limit if aim.text in limits else None
            most = values[best] + NO_DIFFERENCE * abs(values[best])
            alike &= values <= (limit if limit is not None and values[best] <= limit else most)
        self.kept = bool(rank[best] < LIMITS_FIRST)
        return int(np.lexsort((rank, np.where(alike, away, np.inf)))[0])
