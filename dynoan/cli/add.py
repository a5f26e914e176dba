"""``dynoan add``: rig files into the library."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from dynoan.cli.call import DONE, WRONG, Call, command
from dynoan.cli.reading_options import reading_options
from dynoan.cli.sweeps import check_clicks, record_json, show_records
from dynoan.errors import DynoanError
from dynoan.model.shock import clicks_text

if TYPE_CHECKING:
    from dynoan.library import Added, Library, SweepRecord
    from dynoan.model.importing import ReadOptions
    from dynoan.model.sweep import Sweep

# Starting processes takes longer than reading less than this in one. [bytes]
WORTH_PROCESSES = 30_000_000


@dataclass(frozen=True)
class Understood:
    """A file's sweeps, or the one line that says why there are none."""

    sweeps: tuple[Sweep, ...] = ()
    error: str | None = None


@dataclass(frozen=True)
class KeptSweep:
    """A sweep as the library holds it, whether this call brought it in, and what a person should know of it."""

    path: str
    record: SweepRecord
    new: bool
    remarks: tuple[str, ...]


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
    library = _existing(call)
    if library is not None:
        options = replace(options, layouts=library.layouts())
    kept: list[KeptSweep] = []
    failed: list[dict[str, str]] = []
    with ExitStack() as stack:  # leaving it syncs the folder: nothing is reported as kept before
        if library is not None:
            stack.enter_context(library.batch())
        for path, found in _understood(call, files, options, _how(files, workers, cluster)):
            if found.error is None and library is None:
                library = stack.enter_context(_made(call))
            error = found.error or _keep(library, path, found.sweeps, kept)
            if error is not None:
                failed.append({"path": str(path), "error": error})
    return _finish(call, len(files), kept, failed)


def _existing(call: Call) -> Library | None:
    """Open the library; None where --library names a folder that is still to become one."""
    from dynoan.library import marker

    if call.library is not None and not (call.library / marker.NAME).is_file() and marker.is_free(call.library):
        return None
    return call.workbench().library


@contextmanager
def _made(call: Call) -> Iterator[Library]:
    """Make the library that --library names, now that there is something to keep in it, and add to it as one batch."""
    from dynoan.library import Library

    assert call.library is not None
    library = Library.open_or_create(call.library, units=call.shown_units)
    call.note(f"made a new library in {call.library}")
    with library.batch():
        yield library


def _how(files: Sequence[Path], workers: int | None, cluster: str | None) -> dict[str, Any]:
    """Return how to share the reading out: a cluster, processes, or neither where that takes longer."""
    if workers is None and cluster is None:
        size = sum(path.stat().st_size for path in files if path.is_file())
        workers = None if size > WORTH_PROCESSES and len(files) > 1 else 1
    return {"workers": workers, "cluster": cluster}


def _understood(
    call: Call, files: Sequence[Path], options: ReadOptions, how: dict[str, Any]
) -> Iterator[tuple[Path, Understood]]:  # fmt: skip
    """Yield what is in each file, in order, with progress where a person looks on."""
    from dynoan.batch import iterate
    from dynoan.cli.call import progress

    # A cluster's workers may not see this disk: they get the bytes.
    items = (_fetch(path) for path in files) if how["cluster"] else files
    results = iterate(partial(understand, options=options), items, **how)
    with progress(files, "reading", call) as paths:
        for path in paths:
            yield path, next(results)


def _fetch(path: Path) -> tuple[str, bytes] | Understood:
    from dynoan.library.files import read_bounded
    from dynoan.library.hdf5 import MAX_ORIGINAL

    try:
        return path.name, read_bounded(path, MAX_ORIGINAL)
    except DynoanError as error:
        return Understood(error=str(error))


def understand(item: Path | tuple[str, bytes] | Understood, options: ReadOptions) -> Understood:
    """Return the sweeps in a file, given by its path or as name and bytes, or why there are none. Runs in a worker."""
    from dynoan.reading import read_bytes

    fetched = _fetch(item) if isinstance(item, Path) else item
    if isinstance(fetched, Understood):
        return fetched
    name, data = fetched
    try:
        return Understood(read_bytes(data, name, options))
    except (DynoanError, MemoryError) as error:
        return Understood(error=str(error) or f"{name}: not enough memory to read it")
    except Exception as error:  # a fault in one importer must not keep the other files out
        return Understood(error=f"{name}: a fault of the program ({type(error).__name__}: {error})")


def _keep(library: Library | None, path: Path, sweeps: Sequence[Sweep], kept: list[KeptSweep]) -> str | None:
    """Keep the sweeps of one file; return the one line that says why not, if so."""
    from dynoan.library.files import read_bounded
    from dynoan.library.hdf5 import MAX_ORIGINAL

    assert library is not None
    try:
        original = read_bounded(path, MAX_ORIGINAL)
        for sweep in sweeps:
            check_clicks(library, sweep.shock, sweep.clicks, where=path.name)
        for sweep in sweeps:
            added = library.add(sweep, original)
            kept.append(KeptSweep(str(path), library.record(added.id), added.new, _remarks(library, sweep, added)))
    except DynoanError as error:
        return str(error)
    return None


def _remarks(library: Library, sweep: Sweep, added: Added) -> tuple[str, ...]:
    """Return what a person should know of a sweep just kept, or kept before."""
    edit = f"dynoan edit {added.id}"
    if not added.new:
        record = library.record(added.id)
        held = {"shock": record.shock, "pack": record.pack, "clicks": clicks_text(record.clicks)}
        given = {"shock": sweep.shock, "pack": sweep.pack, "clicks": clicks_text(sweep.clicks)}
        other = [k for k in held if given[k] and given[k] != held[k]]
        return tuple(
            f"{sweep.source.name}: kept before with {k} {held[k] or 'unknown'}, not {given[k]}; to correct it: "
            f"{edit} --{k} {given[k]}"
            for k in other
        )
    missing = [k for k, v in (("shock", sweep.shock), ("pack", sweep.pack), ("clicks", sweep.clicks)) if not v]
    said = tuple(f"{sweep.source.name}: {text}" for text in sweep.warnings)
    if not missing:
        return said
    options = " ".join(f"--{k} {'lsc=6,lsr=8' if k == 'clicks' else 'NAME'}" for k in missing)
    return (
        *said,
        f"{sweep.source.name}: kept without {' and '.join(missing)}; say it with: {edit} {options}",
    )


def _finish(call: Call, files: int, kept: Sequence[KeptSweep], failed: Sequence[dict[str, str]]) -> int:
    """Report what was kept and what was not; return the exit code."""
    from dynoan.library.names import printable

    for text in dict.fromkeys(text for sweep in kept for text in sweep.remarks):
        call.warn(printable(text))
    if kept:
        show_records(call, [sweep.record for sweep in kept])
    new = sum(sweep.new for sweep in kept)
    if kept and not new:
        call.note("kept before; nothing was added")
    elif kept:
        call.note(f"kept {new} new" + (f"; {len(kept) - new} kept before" if new < len(kept) else ""))
    for failure in failed:
        click.echo(f"dynoan: {printable(' '.join(failure['error'].split()))}", err=True)
    if failed and files > 1:
        call.note(f"{len(failed)} of {files} files were not kept")
    sweeps = [record_json(s.record) | {"path": s.path, "new": s.new, "warnings": s.remarks} for s in kept]
    return call.result({"sweeps": sweeps, "failed": failed}, WRONG if failed else DONE)
