"""``dynoan launch``: the car leaving the line, settings compared, and the clicks that do it best."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dynoan.cli.call import DONE, Call, command
from dynoan.errors import CallError, QuantityError

if TYPE_CHECKING:
    from dynoan.analysis.launch.compare import LaunchRun
    from dynoan.analysis.launch.drive import Scene
    from dynoan.analysis.launch.hinges import AxleDamping
    from dynoan.analysis.launch.model import Half
    from dynoan.cli.launch_inputs import Wish
    from dynoan.model.car import Car, Surface
    from dynoan.workbench import Workbench

EPILOG = """\b
Examples:
  dynoan launch kestrel --surface loose --plot launch.png
  dynoan launch kestrel --setting rear=gravel@lsc=4,lsr=6 --setting "front=mixed rear=mixed@lsc=10"
  dynoan launch kestrel --surface loose --best steadiest --axle rear
"""
OBJECTIVES = ("steadiest", "slowest-rise", "least-lift")
#: in the JSON every fifth of the kept times, which are 2 ms apart
THIN = 5


@dataclass(frozen=True)
class Case:
    """One setting on the car, ready to run."""

    label: str
    car: Car
    half: Half
    damping: tuple[AxleDamping, AxleDamping]


@command(epilog=EPILOG)
@click.argument("car")
@click.option(
    "--surface", "on", multiple=True, help="A surface of the car's file; may be repeated. Default: all of them."
)
@click.option("--setting", "settings", multiple=True, metavar="AXLE=PACK@CLICKS",
              help="One more setting to run, such as rear=gravel@lsc=6,lsr=8; may be repeated.")  # fmt: skip
@click.option("--accel", help='A steady acceleration, whatever the grip, such as "5 m/s2".')
@click.option("--torque", help='At the driven wheels together, limited by the grip, such as "2400 N m".')
@click.option("--trace", type=click.Path(path_type=Path, exists=True, dir_okay=False),
              help="A CSV with time and acceleration. Without drive options: all the grip there is.")  # fmt: skip
@click.option("--rise", help='Time over which the drive comes in, such as "0.15 s" (the default).')
@click.option("--time", "duration", default="3 s", show_default=True, help="How long to run.")
@click.option("--seed", type=int, help="Another made-up road of the same roughness.")
@click.option("--best", type=click.Choice(OBJECTIVES), help="Search all clicks of an axle for this.")
@click.option("--axle", type=click.Choice(["front", "rear"]), help="The axle --best turns. Default: the driven one.")
@click.option("--inside", is_flag=True, help="With --best: keep every adjuster between its tested clicks.")
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
def launch(
    call: Call, car: str, on: tuple[str, ...], settings: tuple[str, ...], best: str | None, axle: str | None,
    plot: Path | None, **scene: Any,
) -> int:  # fmt: skip
    """Predict how CAR leaves the line: nose rise, squat, tyre loads, and what the shocks do, on each surface.

    The settings of the car's file run first, then each --setting, all on the same drive and the same road. Clicks and
    packs a setting does not name stay as on the car. Every figure has the band that the damping curves' bands give it.
    """
    from dynoan.cli.launch_inputs import AS_IS, Asked, check_plot, parse_setting, set_on, surfaces

    check_plot(plot)
    bench = call.workbench()
    known = bench.library.car(car)
    asked = [Asked(AS_IS), *(parse_setting(text) for text in settings)]
    wish, grounds = _wish(scene), surfaces(known, on)
    if best is not None:
        from dynoan.cli.launch_best import Aim, search

        if len(grounds) > 1 or len(settings) > 1:
            what = "surface" if len(grounds) > 1 else "setting"
            raise CallError(f"--best takes one {what}; name one with --{what}")
        case = make_case(bench, set_on(known, asked[-1]), asked[-1].label)
        return search(call, bench, case, _scene(case, wish, grounds[0], scene), Aim(best, axle, scene["inside"], plot))
    if axle is not None or scene["inside"]:
        raise CallError("--axle and --inside go with --best; a --setting names its own axle, such as rear=gravel@lsc=6")
    cases = [make_case(bench, set_on(known, a), a.label) for a in asked]
    runs = [_run(call, case, _scene(case, wish, g, scene), len(grounds) > 1) for g in grounds for case in cases]
    return _finish(call, cases, runs, plot)


def _finish(call: Call, cases: list[Case], runs: list[LaunchRun], plot: Path | None) -> int:
    from dynoan.cli.launch_tables import assumptions, run_json, show_runs

    for text in dict.fromkeys(w for run in runs for w in run.warnings):
        call.warn(text)
    show_runs(call, runs)
    taken = assumptions(call, [case.half for case in cases])
    if plot is not None:
        from dynoan.show.plots.launch import picture

        call.note(f"picture: {picture(plot, runs, cases[0].half, call.shown_units)}")
    return call.result({"runs": [run_json(run, THIN) for run in runs], **taken}, DONE)


def _wish(scene: dict[str, Any]) -> Wish:
    from dynoan.cli.launch_inputs import Wish

    return Wish(scene["accel"], scene["torque"], scene["trace"], scene["rise"])


def make_case(bench: Workbench, car: Car, label: str) -> Case:
    """Return a car with its curves, as the compiled half-car takes it.

    Raises
    ------
    QuantityError
        If the car's file lacks a key that a launch needs.
    """
    from dynoan.analysis.launch.compare import car_damping
    from dynoan.analysis.launch.model import half_car

    half_car(car)  # missing keys are told before any curve is fitted
    curves = {name: bench.corner_curve(car, corner) for name, corner in car.corners.items()}
    return Case(label, car, half_car(car, curves), car_damping(car, curves))


def _scene(case: Case, wish: Wish, surface: Surface, given: dict[str, Any]) -> Scene:
    from dynoan.analysis.launch.drive import Scene
    from dynoan.analysis.road import SEED
    from dynoan.cli.launch_inputs import drive
    from dynoan.units import parse

    seed = SEED if given["seed"] is None else given["seed"]
    if seed < 0:
        raise QuantityError(f"--seed {seed}: write a whole number from 0")
    duration = parse(given["duration"], "time", where="--time")
    return Scene(drive(wish, case.half, case.car, surface), surface, duration, seed=seed)


def _run(call: Call, case: Case, scene: Scene, several: bool) -> LaunchRun:
    from dynoan.analysis.launch.compare import launch as run

    label = f"{case.label}, {scene.surface.name}" if several else case.label
    call.note(f"running {label}: {scene.drive.label}") if call.verbose else None
    return run(case.half, scene, case.damping, label)
