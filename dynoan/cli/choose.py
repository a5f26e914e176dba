"""``dynoan choose``: packs and clicks for wanted damping ratios."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

import click

from dynoan.cli.call import Call
from dynoan.cli.command import cluster_option, command
from dynoan.cli.speeds import HIGH, LOW, with_units
from dynoan.cli.what import show_cases, what_option
from dynoan.errors import CallError
from dynoan.model.car import CORNER_NAMES

if TYPE_CHECKING:
    from dynoan.jobs.aim import AimAnswer
    from dynoan.jobs.choose import ChooseAnswer

EPILOG = """\b
Examples:
  dynoan choose kestrel
  dynoan choose kestrel --axle rear --compression-low 0.45 --rebound-low 0.7
  dynoan choose kestrel --packs gravel,mixed
  dynoan choose kestrel --corner fl --inside --within 3
  dynoan choose kestrel --what 'front.spring=275 lb/in'
  dynoan choose kestrel --surface sticky --aim 'nose slower than 130 mm/s'
  dynoan choose kestrel --like wet-sunday --per-corner --plot choose.png
"""


@command(epilog=EPILOG)
@click.argument("car")
@click.option("--axle", type=click.Choice(["front", "rear"]), help="One axle. Default: both.")
@click.option("--corner", type=click.Choice(["fl", "fr", "rl", "rr"]), help="One corner.")
@click.option(
    "--same/--per-corner",
    "same",
    default=True,
    help="Left equals right (the default), or each corner its own clicks "
    "in the same pack, to make up for uneven corner weights.",
)
@click.option("--compression-low", type=float, help="Wanted ratio in compression at the low velocity.")
@click.option("--compression-high", type=float, help="The same at the high velocity.")
@click.option("--rebound-low", type=float, help="Wanted ratio in rebound at the low velocity.")
@click.option(
    "--rebound-high", type=float, help="The same at the high velocity. Typed targets replace all of the car file's."
)
@click.option("--low", help=LOW)
@click.option("--high", help=HIGH)
@click.option(
    "--rebound-compression",
    type=click.FloatRange(0.1, 10),
    help="Rebound:compression, where only one of them has targets.",
)
@click.option(
    "--front-rear", type=click.FloatRange(0.1, 10), help="Front:rear, where only one axle has targets; 1 for equal."
)
@click.option(
    "--like", metavar="SETUP", help="Want what a recorded setup or another car file has, as a curve over velocity."
)
@click.option("--packs", metavar="A,B", help="The packs at hand. Default: all of the library.")
@click.option("--once", is_flag=True, help="Each pack is there only for one axle: choose for both axles together.")
@click.option("--inside", is_flag=True, help="Stay between the tested clicks of every adjuster.")
@click.option(
    "--within", type=click.IntRange(0, 200), help="Keep the pack and stay within so many clicks of what is on the car."
)
@click.option(
    "--tolerance", default="10 %", show_default=True, help="How far each ratio may be off, as a share of it, to fit."
)
@click.option("--count", type=click.IntRange(1, 100), default=10, show_default=True, help="How many to rank.")
@click.option("--aim", multiple=True, metavar="AIM",
              help="Clicks for a launch, not for ratios: 'nose slower than 120 mm/s', 'front wheels under 50 mm', "
              "'least wheelspin', 'steadiest' and the like; may be repeated.")  # fmt: skip
@click.option("--surface", help="With --aim the surface of the aims, where the car's file has several; else the one to "
              "propose targets for, in the place of the file's.")  # fmt: skip
@click.option("--torque", help="With --aim: torque at the driven wheels; else the engine of the car's file, "
              "or all the grip there is.")  # fmt: skip
@click.option("--slip", help="With --aim: the driver lifts and holds this slip of the driven wheels, such as 0.15.")
@click.option("--write", is_flag=True, help="Put the best packs and clicks into the car's file, after showing them; "
              "none where one lies outside what was tested.")  # fmt: skip
@click.option("--outside", is_flag=True, help="With --write: also where they lie outside what was tested.")
@what_option
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
@cluster_option
def choose(
    call: Call, car: str, plot: Path | None, same: bool, what: tuple[str, ...], write: bool, aim: tuple[str, ...],
    surface: str | None, torque: str | None, slip: str | None, outside: bool, **asked: Any,
) -> int:  # fmt: skip
    """Rank packs and clicks for the damping ratios CAR wants, from its file or as typed.

    Every click of every pack is tried. The miss is the root mean square of how far the ratios are off, as a share of
    each; settings that keep every ratio within the tolerance come first, equal ones go to the setting whose ratios a
    click changes least, then to the nearest to what is on the car. Exit code 1 where nothing fits.
    """  # fmt: skip
    from dynoan.jobs.choose import ChooseQuestion, Limits, answer

    bench = call.workbench()
    if outside and (asked["inside"] or not write):
        raise CallError("--outside goes with --write, and not with --inside")
    writing = Writing(car, write, outside)
    if aim:
        return _aimed(call, aim, {"surface": surface or (), "torque": torque, "slip": slip}, asked, plot, writing)
    if torque or slip:
        raise CallError(f"--{'torque' if torque else 'slip'} goes with --aim")
    asked["surface"] = surface
    asked |= {name: with_units(call, asked[name], name) for name in ("low", "high")}
    limits = Limits.asked(**{k: asked.pop(k) for k in ("packs", "once", "inside", "within", "tolerance", "count")})
    question = ChooseQuestion.asked(car, limits, per_corner=not same, **asked)
    if what:
        return show_cases(call, question, what, plot)
    return _shown(call, answer(bench, question), writing, plot)


class Writing(NamedTuple):
    """What is to be done to the car's file."""

    car: str
    asked: bool  #: whether anything is written at all
    outside: bool  #: whether also clicks outside what was tested


def _aimed(
    call: Call, aim: tuple[str, ...], launched: dict[str, Any], asked: dict[str, Any], plot: Path | None,
    writing: Writing,
) -> int:  # fmt: skip
    from dynoan.jobs.aim import answer
    from dynoan.jobs.aim.asked import AimQuestion

    question = AimQuestion.asked(writing.car, aim, axle=asked["axle"], inside=asked["inside"], **launched)

    def tell(what: str, share: float) -> None:
        if share == 0.0:
            call.note(f"{what} …")

    return _shown(call, answer(call.workbench(), question, tell), writing, plot)


def _shown(call: Call, found: ChooseAnswer | AimAnswer, writing: Writing, plot: Path | None) -> int:
    """Show an answer; put settings into the car's file and say which of its lines changed."""
    if not writing.asked or not found.settings:
        return call.show(found, plot)
    if found.outside and not writing.outside:
        code = call.show(found, plot, {"written": [], "outside": list(found.outside)})
        where = " and ".join(CORNER_NAMES[name] for name in found.outside)
        call.say(
            f"{writing.car}: nothing written: the clicks for {where} lie outside what was tested; --inside looks for "
            "the best on tested ground, --outside writes these all the same"
        )
        return code or 1
    changes = call.workbench().library.write_settings(writing.car, found.settings)
    code = call.show(found, plot, {"written": [{"table": c.table, "old": c.old, "new": c.new} for c in changes]})
    for change in changes:
        call.say(f"[{change.table}]  {change.old or '(nothing)'}  ->  {change.new}")
    call.say(
        f"{writing.car}: {len(changes)} line{'' if len(changes) == 1 else 's'} written"
        if changes
        else f"{writing.car}: nothing to write, it says so already"
    )
    return code
