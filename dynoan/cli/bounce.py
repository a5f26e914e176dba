"""``dynoan bounce``: frequency and damping ratio measured on the car."""

from __future__ import annotations

from pathlib import Path

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command
from dynoan.cli.log_options import per_corner

EPILOG = """\b
Examples:
  dynoan bounce push.csv --car kestrel --corner fl --plot push.png
  dynoan bounce phone.csv --car kestrel --axle front
"""


@command(epilog=EPILOG)
@click.argument("log", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option("--car", help="Hold it against the prediction for what is on this car.")
@click.option("--corner", help="The corner that was pushed: fl, fr, rl or rr.")
@click.option("--axle", help="The axle that was pushed in its middle: front or rear.")
@click.option("--column", multiple=True, metavar="fl=COLUMN", help="Which column is which shock's travel.")
@click.option("--scale", multiple=True, metavar="[fl=]LENGTH per UNIT", help='Of travel, such as "25 mm per V".')
@click.option("--time", metavar="COLUMN", help="Which column is the time. Default: told by its name.")
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
def bounce(
    call: Call, log: Path, car: str | None, corner: str | None, axle: str | None, column: tuple[str, ...],
    scale: tuple[str, ...], time: str | None, plot: Path | None,
) -> int:  # fmt: skip
    """Measure how a pushed corner swings out: LOG is a CSV with time and shock travel, or with a phone's three axes.

    Push the corner or the axle down, let go, wait three seconds, three times or more. A phone can't hand its sensors to
    a page: any logging app will do that writes acceleration as CSV. Lay the phone on the body above the wheel, any way
    up, so that it cannot slide. The car stands on its own wheels, on level ground; never push a car on stands.
    """
    from dynoan.jobs.bounce import BounceQuestion, answer
    from dynoan.reading import read_log

    question = BounceQuestion.asked(
        read_log(log), car=car, corner=corner, axle=axle, column=per_corner(column, "corner"),
        scale=per_corner(scale, "scale"), time=time,
    )  # fmt: skip
    return call.show(answer(call.workbench() if car else None, question), plot)
