"""``dynoan predict``: the curve of a pack at any click, with its band and where it stands."""

from __future__ import annotations

from pathlib import Path

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command
from dynoan.cli.speeds import HELP, with_units

EPILOG = """\b
Examples:
  dynoan predict gravel --clicks lsc=6,lsr=8
  dynoan predict gravel --clicks lsc=6 --clicks lsc=9 --plot gravel.png
  dynoan predict gravel@lsc=6 --at "50 mm/s, 250 mm/s"
  dynoan predict gravel@lsc=6,lsr=8 --temperature "60 °C"
"""


@command(epilog=EPILOG, short_help="Give the curve at any click, tested or not.")
@click.argument("pack")
@click.option("--clicks", multiple=True, help="As the shock counts, such as lsc=6,lsr=8; may be given several times.")
@click.option("--shock", help="One of the shocks that carry the pack: its own force and its counting.")
@click.option("--at", metavar="SPEEDS", help=HELP)
@click.option("--temperature", help='Of the oil, such as "60 °C"; as tested without it.')
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
def predict(
    call: Call, pack: str, clicks: tuple[str, ...], shock: str | None, at: str | None, temperature: str | None,
    plot: Path | None,
) -> int:  # fmt: skip
    """Give the curve of PACK at any click, with its 95 % band and where it stands.

    Tested: a sweep of that setting is in the library. Between: it lies between tested clicks of every adjuster.
    Outside: it does not, and the band is wide. An adjuster left out sits where most tests sat. PACK may also be
    written with its clicks: gravel@lsc=6,lsr=8.
    """
    from dynoan.jobs.predict import PredictQuestion, answer

    question = PredictQuestion.asked(pack, clicks, shock=shock, at=with_units(call, at), temperature=temperature)
    return call.show(answer(call.workbench(), question), plot)
