"""``dynoan choose``: packs and clicks for wanted damping ratios."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dynoan.cli.call import DONE, NO, Call, cluster_option, command

if TYPE_CHECKING:
    from dynoan.analysis.choosing.aims import Group
    from dynoan.analysis.choosing.choose import Plan, Rules
    from dynoan.model.car import Car
    from dynoan.model.clickmap import ClickMap
    from dynoan.workbench import Workbench

EPILOG = """\b
Examples:
  dynoan choose kestrel
  dynoan choose kestrel --axle rear --compression-low 0.45 --rebound-low 0.7 --packs gravel,mixed
  dynoan choose kestrel --corner fl --inside --within 3
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
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
@cluster_option
def choose(call: Call, car: str, plot: Path | None, **asked: Any) -> int:
    """Rank packs and clicks for the damping ratios CAR wants, from its file or as typed.

    Every click of every pack is tried. The miss is the root mean square of how far the ratios are off, as a share of
    each; settings that keep every ratio within the tolerance come first, equal ones go to the setting whose ratios a
    click changes least, then to the nearest to what is on the car. Exit code 1 where nothing fits.
    """  # fmt: skip
    from dynoan.cli import choose_inputs as inputs

    bench = call.workbench()
    known = bench.library.car(car)
    limits = inputs.Limits(**{k: asked.pop(k) for k in ("packs", "once", "inside", "within", "tolerance", "count")})
    places = inputs.groups(bench, known, inputs.Wish(per_corner=not asked.pop("same"), **asked))
    rules = inputs.rules(limits)
    maps = list(bench.click_maps(inputs.packs(bench, limits)).values())
    ranked = rank(places, maps, rules, once=limits.once)
    return _finish(call, bench, known, (places, maps, rules, ranked), plot)


def rank(groups: tuple[Group, ...], maps: list[ClickMap], rules: Rules, *, once: bool) -> list[tuple[Plan, ...]]:
    """Return ranked plans: one list for all groups where packs are there only once, else one a group."""
    from dynoan.analysis.choosing.choose import plans

    if once:
        return [plans(groups, maps, rules)]
    return [plans([group], maps, rules) for group in groups]


def _finish(
    call: Call,
    bench: Workbench,
    car: Car,
    found: tuple[tuple[Group, ...], list[ClickMap], Rules, list[tuple[Plan, ...]]],
    plot: Path | None,
) -> int:
    from dynoan.cautions import CAUTIONS
    from dynoan.cli.choose_advice import advise
    from dynoan.cli.choose_tables import Shown, show

    groups, maps, rules, ranked = found
    shown = Shown(call, bench, car, rules)
    show(shown, ranked)
    advice = advise(shown, groups, maps, ranked)
    for line in advice:
        call.say(line)
    if plot is not None:
        from dynoan.show.plots.choose import picture

        call.note(f"picture: {picture(plot, shown.drawings(groups, ranked), call.shown_units)}")
    call.say()
    call.say(CAUTIONS)
    fits = all(plans[0].fits for plans in ranked)
    result = {
        "choices": shown.json(ranked),
        "tolerance": rules.tolerance,
        "fits": fits,
        "advice": advice,
        "cautions": CAUTIONS,
    }
    return call.result(result, DONE if fits else NO)
