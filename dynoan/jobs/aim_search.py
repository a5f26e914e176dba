"""Clicks that come nearest to the aims of a launch: the axles searched in turn until neither moves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from dynoan.analysis.launch.large.search import ClickLab, search
from dynoan.jobs.aim_asked import AimQuestion
from dynoan.jobs.assumptions import A_CLICK, LIMITS_FIRST, MOST_TURNS
from dynoan.jobs.launch import Watch
from dynoan.jobs.launch_best import clicked_of, pack_of, turned
from dynoan.jobs.launch_settings import LaunchCase, launch_case, surfaces_of
from dynoan.model.arrays import FloatArray, IntArray
from dynoan.model.car import Car

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

#: figures that are high on the road alone
_ROUGH = ("driven_load_rms_n", "driven_load_least_n", "front_wheel_height_m", "wheelspin_s", "distance_m")


@dataclass
class Aiming:
    """The search of one question: clicks of an axle that score best, the other axle as it stands."""

    bench: Workbench
    question: AimQuestion
    now: LaunchCase
    watch: Watch

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
        rough = any(aim.key in _ROUGH for aim in self.question.aims)
        what = f"searching all clicks of the {axle} axle for the aims"
        self.watch(what, 0.0)
        home = clicked_of(self.bench, self.now.car.axle(axle)).now
        found = search(lab, lambda f, c: self._score(f, c, home, lab), rough=rough, watch=lambda s: self.watch(what, s))
        setting = dict(zip(clicked.adjusters, (int(c) for c in found.clicks[found.best]), strict=True))
        corner = car.axle(axle)[0]
        shock = self.bench.corner_shock(corner, pack_of(car, corner))
        return turned(car, axle, setting, shock), len(found.clicks)

    def _score(
        self, figures: Mapping[str, FloatArray], clicks: IntArray, home: Mapping[str, int], lab: ClickLab
    ) -> FloatArray:
        total = LIMITS_FIRST * LIMITS_FIRST * figures["goes_over"]
        least = False
        for aim in self.question.aims:
            values = figures[aim.key]
            if aim.limit is not None:
                total = total + LIMITS_FIRST * aim.missed(values)
                continue
            least = True
            total = total + values / max(float(np.abs(values).max()), 1e-12)
        if home:
            away = np.abs(clicks - np.array([home[n] for n in lab.clicked.adjusters])).sum(axis=1)
            total = total + (A_CLICK if least else 1.0) * away
        return np.asarray(total)
