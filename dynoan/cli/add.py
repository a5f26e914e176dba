"""``dynoan add``: rig files into the library."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from dynoan.cli.call import Call
from dynoan.cli.command import command
from dynoan.cli.reading_options import reading_options

if TYPE_CHECKING:
    from dynoan.jobs.add import NewLibrary
    from dynoan.model.importing import ReadOptions
    from dynoan.workbench import Workbench


@command(epilog="Example:  dynoan add run1.csv --shock RL-02 --pack gravel --clicks lsc=6,lsr=8")
@click.argument("files", metavar="FILE...", nargs=-1, required=True, type=click.Path(path_type=Path))
@reading_options
@click.option("--workers", type=click.IntRange(1, 256), help="Processes to read with; all cores where that pays.")
@click.option("--cluster", metavar="ADDRESS", help="Read on a Dask cluster, such as tcp://10.0.0.5:8786.")
def add(
    call: Call, files: tuple[Path, ...], options: ReadOptions, workers: int | None, cluster: str | None
) -> int:  # fmt: skip
    """Keep the sweeps in rig FILEs in the library, with the files' own bytes.

    What a file states itself need not be repeated; what is given here wins. A file that is kept already adds nothing.
    With --library naming a new or an empty folder, that becomes a library.
    """
    from dynoan.jobs.add import AddQuestion, answer
    from dynoan.jobs.read.understanding import Sharing

    call.when_stopped = "what was added before stays, and the same command adds the rest"
    return call.show(answer(_place(call), AddQuestion(files, options, Sharing(workers, cluster))))


def _place(call: Call) -> Workbench | NewLibrary:
    """Open the library; where --library names a folder that is still to become one, say so."""
    from dynoan.jobs.add import NewLibrary
    from dynoan.library import marker

    if call.library is not None and not (call.library / marker.NAME).is_file() and marker.is_free(call.library):
        return NewLibrary(call.library, call.units, call.progress)
    return call.workbench()
