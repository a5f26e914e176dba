"""Notes to the right or the left of a small table: two columns of keys and values, mostly set apart by a blank one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import repeat
from typing import NamedTuple

from importers.assumptions.tables import BOX_LINES, TIDY_LINES
from importers.grid import split_cells
from importers.header import describe_column
from importers.tables.grid_of_blocks import FORCES, MOTIONS
from importers.tables.keys_over_columns import is_key
from importers.words.adjusters import adjuster_of
from importers.words.channels import SUMMARY
from importers.words.keys import KNOWN
from importers.words.spelling import plain

_HEAD = 1 << 14  #: of a long file, in which notes are looked for [bytes]
_LOOK = 1 << 18  #: in which a long file has more lines than a small table [bytes]
_LEAST_WIDTH = 5  #: of a table with notes beside it [cells]
_ALL_KNOWN = 3  #: keys, at least, of notes without a gap
_LEAST_KNOWN = 2  #: keys of a form to the left of a table, and half of them; others may be of any kind
_MARKS = (";", "\t", "|", ",")


class _Beside(NamedTuple):
    """Notes beside a table, and the table without them."""

    said: list[str]
    kept: list[str]
    mark: str
    width: int  #: cells of the table's rows
    left: int = 0  #: cells to the left of them, of notes there


def with_notes_above(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with the notes beside a table in lines of their own above it; None where there are none."""
    found = _beside(lines) if len(lines) <= TIDY_LINES else None
    return None if found is None else [*found.said, *found.kept]


def with_box_above(data: bytes) -> bytes:
    """Return a long file's bytes with the notes beside its first rows above them; as they are where there are none."""
    head = data[:_HEAD].split(b"\n", BOX_LINES)[: BOX_LINES + 1]
    if len(head) <= BOX_LINES or b"\0" in data[:_HEAD] or not _is_long(data):
        return data
    end = sum(map(len, head[:BOX_LINES])) + BOX_LINES
    found = _beside(data[:end].decode("utf-8", errors="surrogateescape").splitlines())
    if found is None:
        return data
    mark = found.mark.encode()
    rest = [line.rstrip(b"\r").split(mark) for line in data[end:].split(b"\n")]
    first, stop = found.left, found.left + found.width
    if any(cell.strip() for cells in rest for cell in (*cells[:first], *cells[stop:])):
        return data
    above = "\n".join([*found.said, *found.kept, ""]).encode("utf-8", errors="surrogateescape")
    return above + b"\n".join(mark.join(cells[first:stop]) for cells in rest)


def _is_long(data: bytes) -> bool:
    """Whether a file has more lines than a small table; most show it in their head."""
    return any(data.count(b"\n", 0, look) > TIDY_LINES for look in (_HEAD, _LOOK))


def _beside(lines: Sequence[str]) -> _Beside | None:
    for mark in _MARKS:
        if max(map(str.count, lines, repeat(mark)), default=0) < _LEAST_WIDTH - 1:
            continue
        rows = {at: split_cells(line, mark) for at, line in enumerate(lines) if mark in line}
        width = max((_filled(cells) for cells in rows.values()), default=0)
        rows = {at: cells[:width] for at, cells in rows.items()}
        wide = {at: cells for at, cells in rows.items() if len(cells) == width}
        if width < _LEAST_WIDTH or len(wide) < 2:
            continue
        if (form := _to_the_left(lines, rows, mark)) is not None:
            return form
        notes = [(cells[width - 2], cells[width - 1]) for cells in wide.values() if cells[width - 2]]
        known = sum(plain(key) in KNOWN or adjuster_of(plain(key)) is not None or _sums_up(key) for key, _ in notes)
        if known < 2 or not all(value for _, value in notes):
            continue
        gap = not any(cells[width - 3] for cells in wide.values())
        if not gap and (known < len(notes) or known < _ALL_KNOWN or len({key for key, _ in notes}) < known):
            continue  # right beside the numbers they are notes where every one is a key of its own
        said = [f"{key}: {value}" for key, value in notes if not _sums_up(key)]
        kept = [mark.join(wide[at][: width - 2 - gap]) if at in wide else line for at, line in enumerate(lines)]
        return _Beside(said, kept, mark, width - 2 - gap)
    return None


def _to_the_left(lines: Sequence[str], rows: Mapping[int, Sequence[str]], mark: str) -> _Beside | None:
    """Return the form in the first two columns, a blank one between it and the table's names and rows; else None."""
    if any(cells[2] for cells in rows.values() if len(cells) > 2):
        return None
    table = {at: cells[3:] for at, cells in rows.items() if any(cells[3:])}
    columns = [describe_column(k, name) for k, name in enumerate(next(iter(table.values()), ()))]
    held = {c.channel or c.direction for c in columns}
    form = {at: cells for at, cells in rows.items() if at >= min(table, default=0) and any(cells[:2])}
    if not held & MOTIONS or not held & FORCES or len(form) < 2:
        return None
    known = sum(is_key(cells[0]) for cells in form.values())
    if known < _LEAST_KNOWN or 2 * known < len(form) or not all(cells[0] and cells[1] for cells in form.values()):
        return None
    said = [f"{cells[0]}: {cells[1]}" for cells in form.values()]
    kept = [mark.join(rows[at][3:]) if at in table else line for at, line in enumerate(lines)]
    kept = [line for at, line in enumerate(kept) if at in table or at not in form]
    return _Beside(said, kept, mark, len(columns), 3)


def _filled(cells: Sequence[str]) -> int:
    """Return how many cells there are up to the last that is not blank."""
    return next((k for k in range(len(cells), 0, -1) if cells[k - 1]), 0)


def _sums_up(key: str) -> bool:
    """Whether a note is a figure of the rows, such as their average."""
    return plain(key).split()[:1] != [] and plain(key).split()[0] in SUMMARY
