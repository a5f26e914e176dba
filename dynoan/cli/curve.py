"""``dynoan curve``: fitted curves with knees, slopes, gas, friction and bands."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from dynoan.cli.call import Call
from dynoan.cli.command import cluster_option, command
from dynoan.cli.reading_options import reading_options
from dynoan.cli.speeds import HELP, with_units

if TYPE_CHECKING:
    from dynoan.model.importing import ReadOptions


@command(
    epilog="Example:  dynoan curve pack=gravel,lsc=6 --at '0.025 m/s,2 in/s' --plot gravel.png",
    short_help="Fit and show curves: knees, slopes, gas, friction, bands.",
)
@click.argument("what", metavar="WHAT...", nargs=-1, required=True)
@reading_options
@click.option("--at", metavar="SPEEDS", help=HELP)
@click.option("--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw to a PNG, SVG or PDF file.")
@cluster_option
def curve(call: Call, what: tuple[str, ...], options: ReadOptions, at: str | None, plot: Path | None) -> int:
    """Fit and show curves: knees, slopes, gas force, friction, and 95 % bands.

    WHAT is a rig's file, a sweep's id, or a setting: pack=gravel,lsc=6 or gravel@lsc=6,lsr=8 or shock=RL-02. Damping
    force alone is shown: what was found and taken out (gas, zero, friction, lag) is listed line by line.
    """
    from dynoan.jobs.curve import CurveQuestion, answer
    from dynoan.jobs.curve_table import asked_speeds
    from dynoan.model.sweep import units_of

    found = answer(call.workbench(needed=False), CurveQuestion(what, asked_speeds(with_units(call, at)), options))
    if at is None:  # bare numbers of it were taken in the units that are shown
        call.of_files = units_of([sweep for one in found.found for sweep in one.sweeps])
    return call.show(found, plot, {"plot": str(plot)} if plot else None)
