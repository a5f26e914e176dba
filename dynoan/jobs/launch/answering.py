"""The car leaving the line, settings compared on the same drive and the same road."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, ClassVar, Literal

from dynoan.analysis.launch.compare import NO_DIFFERENCE, LaunchRun, apart
from dynoan.analysis.launch.large.compare import launch_large
from dynoan.analysis.launch.model import HalfCar
from dynoan.analysis.launch.scene import Scene
from dynoan.cautions import CAUTIONS
from dynoan.jobs.answering import Answer
from dynoan.jobs.assumptions import SPUN_THROUGH
from dynoan.jobs.cars import said_of
from dynoan.jobs.launch.asked import LaunchQuestion
from dynoan.jobs.launch.differences import RunDifference, differences
from dynoan.jobs.launch.figures import FIGURES, deciding
from dynoan.jobs.launch.firsts import MeasureFirst, first_of
from dynoan.jobs.launch.granted import assumed, granted
from dynoan.jobs.launch.levers import Lever, levers_of
from dynoan.jobs.launch.measure_first import Shift, unsure_of, widened
from dynoan.jobs.launch.near_over import near_over
from dynoan.jobs.launch.not_in_file import ground_notes
from dynoan.jobs.launch.settings import LaunchCase, launch_case, surfaces_of
from dynoan.jobs.measures import as_dict
from dynoan.jobs.said_once import once
from dynoan.model.car import Car, Surface
from dynoan.model.shock import clicks_text

if TYPE_CHECKING:
    from dynoan.workbench.bench import Workbench

#: told what is being run, and the share of it that is done, 0 to 1
Watch = Callable[[str, float], None]
#: in the JSON every fifth of the kept times, which are 2 ms apart
THIN = 5


def unwatched(_what: str, _share: float) -> None:
    """Tell nobody."""


@dataclass(frozen=True)
class LaunchVerdict:
    """Which of the runs is best in one of the figures that decide."""

    key: str  #: of the figure
    words: str  #: its name where settings are judged
    best: str  #: label of the best run
    next: str  #: label of the second
    verdict: Literal["best", "cannot tell", "no difference"]  #: "cannot tell" where their bands overlap
    spun_through: bool = False  #: the driven wheels spin nearly all the while in all of them


@dataclass(frozen=True)
class CornerAsFiled:
    """What a corner's curves come from, as the car's file has it."""

    corner: str
    shock: str | None
    pack: str | None
    clicks: str
    shock_ratio: float  #: [1]


@dataclass(frozen=True)
class LaunchAnswer(Answer):
    """What `launch` found: a run for each surface and setting, in the order asked, the car as it is first."""

    job: ClassVar[str] = "launch"
    question: LaunchQuestion
    runs: tuple[LaunchRun, ...]
    half: HalfCar  #: of the car as it is: what the figures rest on
    assumptions: tuple[str, ...]  #: what was estimated or left out for want of a key, in words
    curves_from: tuple[CornerAsFiled, ...] = field(default=(), kw_only=True)
    #: what each uncertain value of the car does to the figures, by surface
    unsure: Mapping[str, tuple[Shift, ...]] = field(default_factory=dict, kw_only=True)
    #: what decides on surfaces where the driven wheels spin, for the car as it is
    levers: tuple[Lever, ...] = field(default=(), kw_only=True)

    @property
    def verdicts(self) -> tuple[LaunchVerdict, ...]:
        """What decides between the settings on each surface; empty where there is one setting alone."""
        return tuple(
            _verdict(runs, key, words)
            for runs in self.by_surface
            if len(runs) > 1
            for key, words in deciding([run.metrics for run in runs])
        )

    @property
    def by_surface(self) -> list[list[LaunchRun]]:
        """The runs of each surface."""
        surfaces = dict.fromkeys(run.surface for run in self.runs)
        return [[run for run in self.runs if run.surface == name] for name in surfaces]

    @property
    def differences(self) -> tuple[RunDifference, ...]:
        """What each setting changes of what the road decides, on the roads that all of them met."""
        return tuple(one for runs in self.by_surface for one in differences(runs))

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan launch --json`` prints it."""
        unsure = {name: [shift.to_dict() for shift in of] for name, of in self.unsure.items() if of}
        return {
            "runs": [_run_dict(run) for run in self.runs], "assumptions": self.assumptions, "unsure": unsure,
            "measure_first": [one.to_dict() for one in self.measure_first],
            "differences": [one.to_dict() for one in self.differences],
            "decides": [one.to_dict() for one in self.levers], "cautions": CAUTIONS,
        }  # fmt: skip

    @property
    def measure_first(self) -> tuple[MeasureFirst, ...]:
        """The uncertain value that moves the answer most, on each surface, in the figures that people decide by."""
        spin = {lever.surface for lever in self.levers}
        runs = {run.surface: run for run in reversed(self.runs)}  # the first of each surface stays
        return tuple(
            one for name, of in self.unsure.items() for one in first_of(name, of, runs[name].metrics, name in spin)
        )

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a run; the ends of a figure's band stand under its key with ``_low`` and ``_high``."""
        return [{"label": run.label} | _banded_figures(run) for run in self.runs]


def _verdict(runs: Sequence[LaunchRun], key: str, words: str) -> LaunchVerdict:
    first, second = sorted(runs, key=lambda r: (r.metrics[key] != r.metrics[key], r.metrics[key]))[:2]
    worst = max(r.metrics[key] for r in runs)
    verdict: Literal["best", "cannot tell", "no difference"] = "cannot tell"
    if not worst - first.metrics[key] > NO_DIFFERENCE * abs(worst):
        verdict = "no difference"
    elif second.metrics[key] - first.metrics[key] > NO_DIFFERENCE * abs(second.metrics[key]) and apart(
        first, second, key, paired=False
    ):
        verdict = "best"
    return LaunchVerdict(key, words, first.label, second.label, verdict, key == "wheelspin_s" and spun_through(runs))


def spun_through(runs: Sequence[LaunchRun]) -> bool:
    """Return whether the driven wheels spin nearly all the while in all runs."""
    return all(r.metrics["wheelspin_s"] > SPUN_THROUGH * float(r.trace["time_s"][-1]) for r in runs)


def _run_dict(run: LaunchRun) -> dict[str, Any]:
    trace, below, above = (
        {name: values[::THIN] for name, values in of.items()} for of in (run.trace, run.trace_low, run.trace_high)
    )
    ends = {f"{key}_{end}": of[key] for end, of in (("low", run.low), ("high", run.high)) for key in run.metrics}
    metrics = dict(run.metrics) | {"goes_over": run.metrics["goes_over_s"] == run.metrics["goes_over_s"]} | ends
    return {"label": run.label, "surface": run.surface, "setting": run.setting, "metrics": metrics,
            "low": dict(run.low), "high": dict(run.high), "trace": trace, "trace_low": below,
            "trace_high": above}  # fmt: skip


def _banded_figures(run: LaunchRun) -> dict[str, Any]:
    ends = (("", run.metrics), ("_low", run.low), ("_high", run.high))
    return {f"{key}{end}": value for end, of in ends for key, value in as_dict(FIGURES, of).items()}


def answer(bench: Workbench, question: LaunchQuestion, watch: Watch = unwatched) -> LaunchAnswer:
    """Return how a car leaves the line with each setting on each surface.

    Raises
    ------
    LookupFault
        If the library knows no such car or pack.
    QuantityError
        If the car's file lacks a key that a launch needs, or its values are no car's.
    CallError
        If the car has no such surface, or a drive by trace names no acceleration.
    """
    return answer_for(bench, bench.library.car(question.car), question, watch)


def answer_for(bench: Workbench, car: Car, question: LaunchQuestion, watch: Watch = unwatched) -> LaunchAnswer:
    """Return the same of a car that may stand in no file. Errors as of `answer`."""
    surfaces = surfaces_of(car, question.surfaces)
    cases = [launch_case(bench, setting.on(car), setting.label) for setting in question.settings]
    said = said_of(bench, car)
    runs, unsure = [], {}
    levers: list[Lever] = []
    for surface in surfaces:
        each = [unsure_of(case, question.run, surface, said) for case in cases]  # clicks change what a ± does
        unsure[surface.name] = each[0].all
        levers += levers_of(bench, cases[0], question.run, surface)
        runs += [
            widened(_run(case, question.run.scene(case, surface), len(surfaces) > 1, watch), of)
            for case, of in zip(cases, each, strict=True)
        ]
    return LaunchAnswer(
        question=question,
        runs=tuple(runs),
        half=cases[0].half,
        assumptions=granted(
            (*question.run.drive.taken(car), *_grounds(cases[0], question, surfaces), *assumed(cases)), unsure, runs
        ),
        warnings=(
            *dict.fromkeys([*said, *(text for case in cases for text in bench.untested(case.car))]),
            *warned(runs),
        ),
        curves_from=_curves_from(car),
        unsure=unsure,
        levers=tuple(levers),
    )


def _grounds(case: LaunchCase, question: LaunchQuestion, surfaces: Sequence[Surface]) -> tuple[str, ...]:
    return tuple(note for s in surfaces for note in ground_notes(case, question.run, s))


def _curves_from(car: Car) -> tuple[CornerAsFiled, ...]:
    return tuple(
        CornerAsFiled(c.name, c.shock, c.pack, clicks_text(c.clicks), c.shock_ratio) for c in car.corners.values()
    )


def _run(case: LaunchCase, scene: Scene, many: bool, watch: Watch) -> LaunchRun:
    label = f"{case.label}, {scene.surface.name}" if many else case.label
    watch(f"running {label}: {scene.drive.label}", 0.0)
    found = launch_large(case.large, scene, case.damping, label)
    said = (*found.warnings, *near_over(case, scene, found))
    return replace(found, setting=case.label, warnings=said)


def warned(runs: Sequence[LaunchRun]) -> tuple[str, ...]:
    """Return the warnings of all runs, each once."""
    return once(text for run in runs for text in run.warnings)
