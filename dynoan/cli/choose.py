"""``dynoan choose``: packs and clicks for wanted damping ratios."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from dynoan.cli.call import Call, cluster_option, command
from dynoan.cli.what import show_cases, what_option

EPILOG = """\b
Examples:
  dynoan choose kestrel
  dynoan choose kestrel --axle rear --compression-low 0.45 --rebound-low 0.7 --packs gravel,mixed
  dynoan choose kestrel --corner fl --inside --within 3
  dynoan choose kestrel --what 'front.spring=275 lb/in'
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
@click.option(
    "--low", help="The low velocity at the shock, in m/s or with a unit. Default: the targets' own, else 0.05 m/s."
)
@click.option("--high", help="The high velocity at the shock. Default: the targets' own, else 0.25 m/s.")
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
@what_option
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
@cluster_option
def choose(call: Call, car: str, plot: Path | None, same: bool, what: tuple[str, ...], **asked: Any) -> int:
    """Rank packs and clicks for the damping ratios CAR wants, from its file or as typed.

    Every click of every pack is tried. The miss is the root mean square of how far the ratios are off, as a share of
    each; settings that keep every ratio within the tolerance come first, equal ones go to the setting whose ratios a
    click changes least, then to the nearest to what is on the car. Exit code 1 where nothing fits.
    """  # fmt: skip
    from dynoan.jobs.choose import ChooseQuestion, Limits, answer

    bench = call.workbench()
    limits = Limits.asked(**{k: asked.pop(k) for k in ("packs", "once", "inside", "within", "tolerance", "count")})
    question = ChooseQuestion.asked(car, limits, per_corner=not same, **asked)
    if what:
        return show_cases(call, question, what, plot)
    return call.show(answer(bench, question), plot)
