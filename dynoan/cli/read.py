"""``dynoan read``: what is in rig files and how it was understood, keeping nothing."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command
from dynoan.cli.reading_options import reading_options

if TYPE_CHECKING:
    from dynoan.model.importing import ReadOptions


@command(epilog="Example:  dynoan read FL-03_gravel_lsc6_lsr8.csv --plot fl03.png")
@click.argument("files", metavar="FILE...", nargs=-1, required=True, type=click.Path(path_type=Path))
@reading_options
@click.option(
    "--save-layout", metavar="NAME", help="Keep what you state as a layout of the library, for files with this header."
)
@click.option(
    "--plot", type=click.Path(path_type=Path, dir_okay=False), help="Draw force against velocity to a PNG or SVG file."
)
def read(call: Call, files: tuple[Path, ...], plot: Path | None, save_layout: str | None, options: ReadOptions) -> int:
    """Show what is in rig files and how it was understood, keeping nothing.

    Units, signs, columns and clicks are found in each file; every decision is shown with its evidence. What you state
    by an option wins over the file.
    """
    from dataclasses import replace

    from dynoan.jobs.read import ReadQuestion, answer
    from dynoan.model.sweep import units_of

    question = ReadQuestion(files, options, save_layout, tolerant=not call.debug)
    found = answer(call.workbench(needed=save_layout is not None), question)
    call.of_files = units_of(found.sweeps)
    if not call.json:
        found = replace(found, warnings=())  # each card tells its own
    if plot is None or not found.sweeps:
        return call.show(found)
    return call.show(found, plot, {"plot": str(plot)})
