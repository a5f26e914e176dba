"""Aims for a launch: what a person wants of nose, rear, front wheels and wheelspin, as limits or as the least there is.

In: texts such as "nose slower than 120 mm/s" or "least wheelspin". Out: clicks of both axles, searched in turn until
neither moves, beside what is on the car; what they cost in the other figures; whether it is worth the turn.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.analysis.launch.compare import NO_DIFFERENCE, LaunchRun, apart
from dynoan.cautions import CAUTIONS
from dynoan.errors import CallError
from dynoan.jobs.aim.asked import AimQuestion, LaunchAim
from dynoan.jobs.aim.search import Aiming
from dynoan.jobs.answering import Answer
from dynoan.jobs.assumptions import MOST_TURNS
from dynoan.jobs.cars import said_of
from dynoan.jobs.compared_figures import ComparedBlock
from dynoan.jobs.launch.answering import Watch, unwatched
from dynoan.jobs.launch.measure_first import unsure_run
from dynoan.jobs.launch.settings import launch_case, surfaces_of
from dynoan.jobs.said_once import once
from dynoan.jobs.what_if.compared import launch_block
from dynoan.library.car_edit import CornerSetting
from dynoan.model.car import Car
from dynoan.model.shock import clicks_text

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


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
    standing: Mapping[str, str]  #: of the clicks found, by corner: "tested", "between" or "outside"

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
    def outside(self) -> tuple[str, ...]:
        """Corners whose clicks change to some outside what was tested."""
        return tuple(name for name in self.turned if self.standing[name] == "outside")

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
                {"where": name, "pack": c.pack, "clicks": dict(c.clicks), "change": self.turned.get(name, {}),
                 "standing": self.standing[name]}
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
    job = Aiming(bench, question, now, watch)
    chosen, searched, settled = job.found(car)
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
        {name: curve.standing for name, curve in best.curves.items()},
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
