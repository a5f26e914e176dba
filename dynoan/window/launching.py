"""The launch as the Car screen draws it: reckoned beside the requests, remembered while the library stays as it is."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from dynoan.jobs import launch
from dynoan.jobs.launch.asked import LaunchQuestion
from dynoan.jobs.launch.figures import FIGURES
from dynoan.library.car_changes import changed
from dynoan.model.car import ROAD_CLASSES
from dynoan.show.text.launch_levers import sentences
from dynoan.units import shown
from dynoan.window.how import LAUNCH

if TYPE_CHECKING:
    from dynoan.jobs.launch import LaunchAnswer
    from dynoan.model.car import Surface
    from dynoan.units import Shown
    from dynoan.window.desk import Desk
    from dynoan.window.working import Work

LEVEL = "level road"
MOST_LAUNCHES = 12  #: what is remembered of launches that were tried; each holds all its lines
THIN = 8  #: every how many kept times are drawn
#: the figures people look for first
FIRST = (
    "level_nose_rise_m", "nose_rise_m", "level_nose_rise_rate_m_s", "level_rear_squat_m", "rear_squat_m",
    "level_rear_lift_m", "front_wheel_height_m",
    "front_wheel_lift_s", "driven_load_least_n", "driven_load_rms_n", "distance_m",
)  # fmt: skip
#: of those: what the picture shows too, and differs from the level road's only where the road is rough
DRAWN = ("nose_rise_m", "rear_squat_m")
_LINES = ("front_rise_m", "rear_rise_m", "front_wheel_height_m")


def _key(car: str, changes: Mapping[str, str], surfaces: Sequence[str]) -> str:
    return f"launch {car} {list(surfaces)} {sorted(changes.items())}"


def launch_of(desk: Desk, car: str, changes: Mapping[str, str], surfaces: Sequence[str]) -> dict[str, Any] | None:
    """Return the launch of a car with keys changed, None where it was not reckoned."""
    with desk.bench():
        found: tuple[LaunchAnswer, Mapping[str, Surface]] | None = desk.remembered.get(_key(car, changes, surfaces))
    return None if found is None else drawn(*found, desk.units)


def begin_launch(desk: Desk, car: str, changes: Mapping[str, str], surfaces: Sequence[str]) -> Work:
    """Begin to reckon it on some surfaces of the car's file, unless that is under way."""
    key, asked = _key(car, changes, surfaces), LaunchQuestion.asked(car, surface=surfaces)
    stamp = desk.stamp()

    def run(work: Work) -> None:
        bench = desk.own_bench(work)
        made = changed(bench.library.car(car), changes) if changes else bench.library.car(car)
        found = launch.answer_for(bench, made, asked, work.watch)
        with desk.bench():
            if desk.stamp() == stamp:
                tried = [key for key in desk.remembered if key.startswith("launch ") and not key.endswith(" []")]
                for old in tried[: len(tried) + 1 - MOST_LAUNCHES]:
                    del desk.remembered[old]
                desk.remembered[key] = (found, made.surfaces)

    label = f"How {car} leaves the line"
    return desk.works.begin(f"{key} {stamp}", label, run, lane="launch")


def _known(value: float | None) -> bool:
    return value is not None and value == value


def road_words(surface: Surface | None) -> str:
    """Return the road of a surface in words, by the class of ISO 8608 it lies nearest to."""
    if surface is None or surface.roughness <= 0.0:
        return LEVEL
    letter = min(ROAD_CLASSES, key=lambda one: abs(math.log(ROAD_CLASSES[one] / surface.roughness)))
    known = math.isclose(ROAD_CLASSES[letter], surface.roughness, rel_tol=1e-3)
    return f"rough road {letter}" if known else f"rough road, near {letter}"


def drawn(found: LaunchAnswer, surfaces: Mapping[str, Surface], units: Shown) -> dict[str, Any]:
    """Return the runs of a launch as lines and figures with bands, in SI, with their words."""
    figures = {m.key: m for m in FIGURES}
    runs = []
    for run in found.runs:
        road = road_words(surfaces.get(run.surface))
        rows = [
            {"words": figures[key].words + (f", {road}" if key in DRAWN else ""), "how": LAUNCH.get(key, ""),
             "value": figures[key].display(units).text(run.metrics[key]),
             "low": figures[key].display(units).text(run.low[key], unit=False),
             "high": figures[key].display(units).text(run.high[key])}
            for key in FIRST if key in run.metrics and key in figures and (road != LEVEL or key not in DRAWN)
        ]  # fmt: skip
        lines, low, high = (
            {name: of[name][::THIN].tolist() for name in _LINES if name in of}
            for of in (run.trace, run.trace_low, run.trace_high)
        )
        time = run.trace["time_s"][::THIN].tolist()
        runs.append({"label": run.surface or run.label, "ground": f"over {road}",
                     "time_s": time, "lines": lines, "low": low, "high": high,
                     "figures": rows,
                     "over": _known(run.metrics.get("goes_over_s"))})  # fmt: skip
    length = shown("length", units)
    return {"runs": runs, "decides": list(sentences(found.levers, units)),
            "assumptions": list(found.assumptions), "warnings": list(found.warnings),
            "length": {"unit": length.unit, "factor": length.factor, "digits": length.digits}}  # fmt: skip
