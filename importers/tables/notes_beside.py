"""Notes to the right of a small table: two columns of keys and values, mostly set apart by a blank one."""

from __future__ import annotations

from collections.abc import Sequence

from importers.assumptions.tables import TIDY_LINES
from importers.grid import split_cells
from importers.words.adjusters import adjuster_of
from importers.words.channels import SUMMARY
from importers.words.keys import KNOWN
from importers.words.spelling import plain

_ALL_KNOWN = 3  #: keys, at least, of notes without a gap
_MARKS = (";", "\t", "|", ",")


def with_notes_above(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with the notes beside a table in lines of their own above it; None where there are none."""
    for mark in _MARKS if len(lines) <= TIDY_LINES else ():
        rows = {at: split_cells(line, mark) for at, line in enumerate(lines) if mark in line}
        width = max((len(cells) for cells in rows.values()), default=0)
        wide = {at: cells for at, cells in rows.items() if len(cells) == width}
        if width < 5 or len(wide) < 2:
            continue
        notes = [(cells[width - 2], cells[width - 1]) for cells in wide.values() if cells[width - 2]]
        known = sum(plain(key) in KNOWN or adjuster_of(plain(key)) is not None or _sums_up(key) for key, _ in notes)
        if known < 2 or not all(value for _, value in notes):
            continue
        gap = not any(cells[width - 3] for cells in wide.values())
        if not gap and (known < len(notes) or known < _ALL_KNOWN or len({key for key, _ in notes}) < known):
            continue  # right beside the numbers they are notes where every one is a key of its own
        said = [f"{key}: {value}" for key, value in notes if not _sums_up(key)]
        kept = [mark.join(wide[at][: width - 2 - gap]) if at in wide else line for at, line in enumerate(lines)]
        return [*said, *kept]
    return None


def _sums_up(key: str) -> bool:
    """Whether a note is a figure of the rows, such as their average."""
    return plain(key).split()[:1] != [] and plain(key).split()[0] in SUMMARY
