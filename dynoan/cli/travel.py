"""``dynoan travel``: which velocities logged travel shows, and how they fall on the curves."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command
from dynoan.cli.log_options import travel_options, travel_question

EPILOG = """\b
Examples:
  dynoan travel run3.csv --car kestrel --plot travel.png
  dynoan travel run3.csv --corner rl=POT_3 --scale "-25 mm per V"
  dynoan travel run3.csv --part launch=2.0..5.0
"""


@command(epilog=EPILOG)
@click.argument("log", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@click.option("--car", help="Lay the curves of what is on this car under the velocities.")
@travel_options
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
def travel(call: Call, log: Path, car: str | None, plot: Path | None, **told: Any) -> int:
    """Show which velocities logged shock travel holds: LOG is a CSV with time and the travel of one to four shocks.

    Time by velocity and direction, in the launch and the rest; with --car the time below and above each knee, the
    energy each range of speeds takes out, and how often the stroke ended.
    """
    from dynoan.jobs.travel import answer

    question = travel_question(log, told, car)
    return call.show(answer(call.workbench() if car else None, question), plot)
