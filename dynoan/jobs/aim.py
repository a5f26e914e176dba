"""Aims for a launch: what a person wants of nose, rear, front wheels and wheelspin, as limits or as the least there is.

In: texts such as "nose slower than 120 mm/s" or "least wheelspin". Out: clicks of both axles, searched in turn until
neither moves, beside what is on the car; what they cost in the other figures; whether it is worth the turn.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar

import numpy as np

from dynoan.analysis.launch.compare import NO_DIFFERENCE, LaunchRun, apart
from dynoan.analysis.launch.large.search import ClickLab, search
from dynoan.cautions import CAUTIONS
from dynoan.errors import CallError
from dynoan.jobs.answering import Answer, quantity
from dynoan.jobs.cars import said_of
from dynoan.jobs.launch import LaunchQuestion, Watch, unwatched
from dynoan.jobs.launch_best import clicked_of, pack_of, turned
from dynoan.jobs.launch_settings import LaunchCase, launch_case, surfaces_of
from dynoan.jobs.measure_first import unsure_run
from dynoan.jobs.said_once import once
from dynoan.jobs.what_compared import ComparedBlock, launch_block
from dynoan.library.car_edit import CornerSetting
from dynoan.model.arrays import FloatArray, IntArray
from dynoan.model.car import AXLES, Car
from dynoan.model.shock import clicks_text

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

#: what people call a figure: pattern, key, kind of quantity; the first that fits is meant
_NAMES: tuple[tuple[str, str, str], ...] = (
    (r"nose.*(slow|fast|speed|rate)|(slow|fast)\w* (nose|rise)", "level_nose_rise_rate_m_s", "velocity"),
    (r"front wheel", "front_wheel_height_m", "length"),
    (r"nose|front rise", "level_nose_rise_m", "length"),
    (r"rear.*lift|least lift", "level_rear_lift_m", "length"),
    (r"squat", "level_rear_squat_m", "length"),
    (r"spin", "wheelspin_s", "time"),
    (r"stead", "driven_load_rms_n", "force"),
    (r"load", "driven_load_least_n", "force"),
    (r"distance|far", "distance_m", "length"),
)
_BELOW = (
    r"\b(?:slower|lower|less|under|below|no (?:faster|higher|more|longer)|at most|shorter)(?:\s+than)?\s+"
    r"(?P<value>\d.*)$"
)
_LEAST = r"^\s*(?:least|lowest|slowest|steadiest|steady|shortest|as little|as slow)"
#: rounds over both axles at most (numerics): two or three are usual, and where they do not settle it is said
MOST_TURNS = 6
#: weight of a limit that is broken beside what is to be made least: limits come first (numerics)
FIRST = 1e6
#: of the range of a figure to be made least that one click of turn is worth; no source. It decides when clicks stay.
A_CLICK = 2e-4
#: figures that are high on the road alone
_ROUGH = ("driven_load_rms_n", "driven_load_least_n", "front_wheel_height_m", "wheelspin_s", "distance_m")


@dataclass(frozen=True)
class LaunchAim:
    """One aim: a figure to keep under a limit, or to make as small as can be."""

    text: str
    key: str  #: of the figure
    limit: float | None = None  #: SI; None for the least there is

    @classmethod
    def parsed(cls, text: str) -> LaunchAim:
        """Return an aim from words.

        Raises
        ------
        CallError
            If the words name no figure, or neither a limit nor "least".
        QuantityError
            If the limit is no such quantity.
        """
        low = text.strip().lower()
        found = next(((key, kind) for pattern, key, kind in _NAMES if re.search(pattern, low)), None)
        below = re.search(_BELOW, low)
        if found is None or not (below or re.search(_LEAST, low)):
            raise CallError(
                f"'{text}' is no aim",
                hint=(
                    "write one like 'nose slower than 120 mm/s', 'front wheels under 50 mm', 'rear squat under 20 "
                    "mm', 'least wheelspin', 'slowest nose' or 'steadiest'"
                ),
                part="aim",
            )
        return cls(text.strip(), found[0], quantity(below["value"], found[1], "aim") if below else None)

    def missed(self, values: FloatArray) -> FloatArray:
        """Return by what share of the limit values lie above it, 0 where they keep it; of their shape. [1]"""
        assert self.limit is not None
        return np.asarray(np.maximum(values / max(self.limit, 1e-9) - 1.0, 0.0))


@dataclass(frozen=True)
class AimQuestion:
    """Which launch, and what is wanted of it."""

    launch: LaunchQuestion
    aims: tuple[LaunchAim, ...]
    axles: tuple[str, ...] = AXLES  #: whose clicks may be turned
    inside: bool = False  #: keep every adjuster between its tested clicks

    @classmethod
    def asked(
        cls, car: str, aim: str | Sequence[str], *, axle: str | None = None, inside: bool = False, **launched: Any
    ) -> AimQuestion:
        """Return the question from values as people give them; `launched` as in `LaunchQuestion.asked`.

        Raises
        ------
        CallError, QuantityError
            As `LaunchAim.parsed` and `LaunchQuestion.asked`.
        """
        texts = [aim] if isinstance(aim, str) else list(aim)
        aims = tuple(LaunchAim.parsed(text) for text in texts)
        if not aims:
            raise CallError("name an aim", part="aim")
        return cls(LaunchQuestion.asked(car, **launched), aims, (axle,) if axle else AXLES, inside)


@dataclass(frozen=True)
class AimReached:
    """One aim, before and after."""

    aim: LaunchAim
    before: float  #: SI
    after: float
    kept: bool | None  #: whether a limit is kept; None for what is to be made least
    sure: bool  #: whether the change is beyond what curves and roads leave open


@dataclass(frozen=True)
class AimAnswer(Answer):
    """The clicks that come nearest to the aims, the launch with them, and what they cost."""

    job: ClassVar[str] = "aim"
    question: AimQuestion
    car: Car
    chosen: Car  #: with the clicks found
    surface: str
    runs: tuple[LaunchRun, LaunchRun]  #: as on the car, and with the clicks found
    reached: tuple[AimReached, ...]
    compared: ComparedBlock  #: all figures, what is on the car first
    searched: int  #: settings that were run

    @property
    def turned(self) -> dict[str, dict[str, int]]:
        """Clicks that change, by corner, as each corner's shock counts them."""
        out = {}
        for name, corner in self.chosen.corners.items():
            was = self.car.corners[name].clicks
            new = {n: c for n, c in corner.clicks.items() if was.get(n) != c}
            if new:
                out[name] = new
        return out

    @property
    def settings(self) -> dict[str, CornerSetting]:
        """What goes on each corner, as its shock counts."""
        return {n: CornerSetting(c.pack or "", c.clicks) for n, c in self.chosen.corners.items() if n in self.turned}

    @property
    def worth(self) -> bool:
        """Whether the turn is worth it: a limit is newly kept, or something moves beyond what is not known."""
        return bool(self.turned) and any(r.sure and _better(r) for r in self.reached)

    @property
    def goes_over(self) -> tuple[float | None, float | None]:
        """When the car goes over as it is, and with the clicks found; None where it does not. [s]"""
        found = [run.metrics["goes_over_s"] for run in self.runs]
        before, after = (None if s != s else float(s) for s in found)
        return before, after

    @property
    def no(self) -> bool:
        """Whether a limit is not kept."""
        return any(r.kept is False for r in self.reached)

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan choose --aim --json`` prints it."""
        return {
            "surface": self.surface, "worth_the_turn": self.worth, "searched": self.searched,
            "aims": [
                {"aim": r.aim.text, "figure": r.aim.key, "limit": r.aim.limit, "before": r.before, "after": r.after,
                 "kept": r.kept, "sure": r.sure} for r in self.reached
            ],
            "choices": [
                {"where": name, "pack": c.pack, "clicks": dict(c.clicks), "change": self.turned.get(name, {})}
                for name, c in self.chosen.corners.items()
            ],
            "compared": self.compared.to_dict(("as on the car", "chosen")), "cautions": CAUTIONS,
        }  # fmt: skip

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row an aim."""
        return [{"aim": r.aim.text, "limit": r.aim.limit, "before": r.before, "after": r.after, "kept": r.kept,
                 "sure": r.sure} for r in self.reached]  # fmt: skip


def _better(reached: AimReached) -> bool:
    if reached.aim.limit is not None and reached.before <= reached.aim.limit:
        return False
    return reached.after < reached.before * (1 - NO_DIFFERENCE)


def answer(bench: Workbench, question: AimQuestion, watch: Watch = unwatched) -> AimAnswer:
    """Return the clicks that come nearest to aims for a launch, left and right alike, and what they cost.

    Raises
    ------
    LookupFault
        If the library knows no such car or pack.
    QuantityError
        If the car's file lacks a key that a launch needs, or a pack.
    CallError
        If the car has several surfaces and none is named, or an axle's shocks have different adjusters.
    """
    asked = question.launch
    car = bench.library.car(asked.car)
    surfaces = surfaces_of(car, asked.surfaces)
    if len(surfaces) > 1:
        raise CallError("an aim is for one surface", need="one surface")
    now = launch_case(bench, car, "as on the car")
    job = _Aiming(bench, question, now, watch)
    chosen, searched, settled = job.both(car)
    best = launch_case(bench, chosen, "chosen")
    said = [] if settled else [
        f"front and rear still moved each other after {MOST_TURNS} rounds: the clicks are those of the last one"
    ]  # fmt: skip
    said += _tested_once(bench, car, question.axles)
    runs = tuple(unsure_run(c, asked.run, surfaces[0], said) for c in (now, best))
    reached = tuple(_reached(aim, runs[0], runs[1]) for aim in question.aims)
    return AimAnswer(
        question, car, chosen, surfaces[0].name, (runs[0], runs[1]), reached,
        launch_block(surfaces[0].name, runs, (True, False)), searched,
        warnings=once([*said_of(bench, car), *said, *(w for run in runs for w in run.warnings)]),
    )  # fmt: skip


def _tested_once(bench: Workbench, car: Car, axles: Sequence[str]) -> list[str]:
    """Return which axles have a pack that was tested at one setting alone, so that no click is known to do anything."""
    out = []
    for axle in axles:
        pack = car.axle(axle)[0].pack
        tested = {clicks_text(r.clicks) for r in bench.library.records() if r.pack == pack}
        if len(tested) == 1:
            out.append(f"{axle}: pack {pack} was tested at {tested.pop()} alone, so what its clicks do is not known; "
                       "test it at others (dynoan plan)")  # fmt: skip
    return out


def _reached(aim: LaunchAim, before: LaunchRun, after: LaunchRun) -> AimReached:
    values = before.metrics[aim.key], after.metrics[aim.key]
    kept = None if aim.limit is None else bool(values[1] <= aim.limit)
    return AimReached(aim, *values, kept, apart(before, after, aim.key, paired=False))


@dataclass
class _Aiming:
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
        total = FIRST * FIRST * figures["goes_over"]
        least = False
        for aim in self.question.aims:
            values = figures[aim.key]
            if aim.limit is not None:
                total = total + FIRST * aim.missed(values)
                continue
            least = True
            total = total + values / max(float(np.abs(values).max()), 1e-12)
        if home:
            away = np.abs(clicks - np.array([home[n] for n in lab.clicked.adjusters])).sum(axis=1)
            total = total + (A_CLICK if least else 1.0) * away
        return np.asarray(total)
