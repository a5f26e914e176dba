"""``dynoan launch``: the car leaving the line, settings compared, and the clicks that do it best."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dynoan.analysis.launch.objectives import OBJECTIVES
from dynoan.cli.call import Call
from dynoan.cli.command import command
from dynoan.cli.what import show_cases, what_option
from dynoan.errors import CallError

if TYPE_CHECKING:
    from dynoan.jobs.launch import Watch
    from dynoan.model.log import Log

EPILOG = """\b
Examples:
  dynoan launch kestrel --surface loose --plot launch.png
  dynoan launch kestrel --setting rear=gravel@lsc=4,lsr=6
  dynoan launch kestrel --setting "front=mixed rear=mixed@lsc=10"
  dynoan launch kestrel --what 'front.spring=275 lb/in'
  dynoan launch kestrel --what 'rear.antisquat=80 %'
  dynoan launch kestrel --holes --plot holes.png
  dynoan launch kestrel --surface sticky --held '900 N m'
  dynoan launch kestrel --surface loose --slip 0.15 --setting rear=@lsc=4
  dynoan launch kestrel --surface loose --best steadiest --axle rear
"""


@command(epilog=EPILOG)
@click.argument("car")
@click.option("--surface", multiple=True, help="A surface of the car's file; may be repeated. Default: all of them.")
@click.option("--setting", multiple=True, metavar="AXLE=PACK@CLICKS",
              help="One more setting to run, such as rear=gravel@lsc=6,lsr=8; may be repeated.")  # fmt: skip
@click.option("--accel", help='A steady acceleration, whatever the grip, such as "5 m/s2".')
@click.option("--torque", help='At the driven wheels together, limited by the grip, such as "2400 N m".')
@click.option("--trace", type=click.Path(path_type=Path, exists=True, dir_okay=False),
              help="A CSV with time and acceleration. Without drive options: all the grip there is.")  # fmt: skip
@click.option("--rise", help='Time over which the drive comes in, such as "0.15 s" or "0.2 ± 0.05 s"; without drive '
                             "options, to twice what the tyres hold at rest. Default: 0.15 s, and the bands hold "
                             "half to twice as long.")  # fmt: skip
@click.option("--held", help='Torque at the driven wheels that the brakes hold before the start, such as "900 N m".')
@click.option("--slip", help="The driver lifts: he holds this slip of the driven wheels, such as 0.15 or 15 %.")
@click.option("--time", default="3 s", show_default=True, help="How long to run.")
@click.option("--seed", type=int, help="Another made-up road of the same roughness.")
@click.option("--best", type=click.Choice(tuple(OBJECTIVES)), help="Search all clicks of an axle for this.")
@click.option("--axle", type=click.Choice(["front", "rear"]), help="The axle --best turns. Default: the driven one.")
@click.option("--inside", is_flag=True, help="With --best: keep every adjuster between its tested clicks.")
@click.option(
    "--holes", is_flag=True, help="Lay the holes of the driven axle's links side by side: anti-squat, launch."
)
@what_option
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
def launch(
    call: Call, car: str, best: str | None, axle: str | None, inside: bool, trace: Path | None, plot: Path | None,
    what: tuple[str, ...], holes: bool, **asked: Any,
) -> int:  # fmt: skip
    """Predict how CAR leaves the line: nose rise, squat, tyre loads, and what the shocks do, on each surface.

    The settings of the car's file run first, then each --setting, all on the same drive and the same road. Clicks and
    packs a setting does not name stay as on the car. Every figure has the band that the damping curves' bands give it.
    """
    from dynoan.jobs import launch as job
    from dynoan.jobs.launch.asked import LaunchQuestion

    if (best is not None) + bool(what) + holes > 1:
        raise CallError("--best, --what and --holes exclude one another", hint="give one")
    if best is None and (axle is not None or inside):
        raise CallError(
            "--axle and --inside go with --best", hint="a --setting names its own axle, such as rear=gravel@lsc=6"
        )
    bench = call.workbench()
    asked["trace"] = _log(trace)
    if best is not None:
        from dynoan.jobs.launch import best as launch_best

        search = launch_best.BestClicksQuestion.asked(car, best, axle=axle, inside=inside, **asked)
        return call.show(launch_best.answer(bench, search, _told(call)), plot)
    watch = _told(call) if call.verbose else job.unwatched
    question = LaunchQuestion.asked(car, **asked)
    if holes:
        from dynoan.jobs.launch import holes as bar_holes

        return call.show(bar_holes.answer(bench, bar_holes.HolesQuestion(question), watch), plot)
    if what:
        return show_cases(call, question, what, plot)
    return call.show(job.answer(bench, question, watch), plot)


def _log(path: Path | None) -> Log | None:
    from dynoan.reading import read_log

    return None if path is None else read_log(path)


def _told(call: Call) -> Watch:
    """Return what tells a person what is being run, and in a terminal how much of it is done."""

    def tell(what: str, share: float) -> None:
        if share == 0.0:
            call.note(f"{what} …" if what.startswith("searching") else what)
        elif not call.json and sys.stderr.isatty():
            click.echo(f"\r{share:4.0%}" + ("\r" if share == 1.0 else ""), nl=False, err=True)

    return tell
