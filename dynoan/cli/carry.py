"""``dynoan carry``: the clicks that keep the damping ratios after a change to the car."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command
from dynoan.cli.speeds import HIGH, LOW, with_units
from dynoan.cli.what import show_cases, what_option
from dynoan.errors import CallError

EPILOG = """\b
Examples:
  dynoan carry kestrel kestrel-winter
  dynoan carry kestrel --what 'front.spring=275 lb/in'
  dynoan carry kestrel stiffer.toml --packs gravel,mixed --within 4
"""


@command(epilog=EPILOG)
@click.argument("car")
@click.argument("other", required=False, default="")
@what_option
@click.option("--low", help=LOW)
@click.option("--high", help=HIGH)
@click.option(
    "--per-corner", is_flag=True, help="Each corner its own clicks, even where left and right are set alike now."
)
@click.option(
    "--packs", metavar="A,B", help="Packs that may be used. Default: the one OTHER's file says is on the car."
)
@click.option("--inside", is_flag=True, help="Stay between the tested clicks of every adjuster.")
@click.option("--within", type=click.IntRange(0, 200), help="Stay within so many clicks of what OTHER's file says.")
@click.option("--tolerance", default="10 %", show_default=True, help="From how far off on a ratio counts as lost.")
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
def carry(call: Call, car: str, other: str, what: tuple[str, ...], plot: Path | None, **asked: Any) -> int:
    """Give the clicks on OTHER that keep the damping ratios CAR has now.

    OTHER is the car after the change: another spring, weight, motion ratio or shock, as a second car in the library or
    a car file. Both sides of an axle get the same clicks where they are set alike on CAR. Exit code 1 where a ratio
    cannot be kept.
    """  # fmt: skip
    from dynoan.jobs.carry import CarryQuestion, answer
    from dynoan.jobs.choose import Limits

    bench = call.workbench()
    asked |= {name: with_units(call, asked[name], name) for name in ("low", "high")}
    limits = Limits.asked(**{k: asked.pop(k) for k in ("packs", "inside", "within", "tolerance")}, count=1)
    question = CarryQuestion.asked(car, other, limits, **asked)
    if what:
        return show_cases(call, question, what, plot)
    if not other:
        raise CallError("name the car after the change, or give the change: --what 'front.spring=52 N/mm'")
    return call.show(answer(bench, question), plot)
