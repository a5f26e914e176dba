"""Notes to the right of a small table: two columns of keys and values, mostly set apart by a blank one."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from importers.assumptions.tables import BOX_LINES, TIDY_LINES
from importers.grid import split_cells
from importers.words.adjusters import adjuster_of
from importers.words.channels import SUMMARY
from importers.words.keys import KNOWN
from importers.words.spelling import plain

_HEAD = 1 << 14  #: of a long file, in which notes are looked for [bytes]
_LOOK = 1 << 18  #: in which a long file has more lines than a small table [bytes]
_LEAST_WIDTH = 5  #: of a table with notes beside it [cells]
_ALL_KNOWN = 3  #: keys, at least, of notes without a gap
_MARKS = (";", "\t", "|", ",")


class _Beside(NamedTuple):
    """Notes beside a table, and the table without them."""

    said: list[str]
    kept: list[str]
    mark: str
    width: int  #: cells of the table's rows


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
    if any(cell.strip() for cells in rest for cell in cells[found.width :]):
        return data
    above = "\n".join([*found.said, *found.kept, ""]).encode("utf-8", errors="surrogateescape")
    return above + b"\n".join(mark.join(cells[: found.width]) for cells in rest)


def _is_long(data: bytes) -> bool:
    """Whether a file has more lines than a small table; most show it in their head."""
    return any(data.count(b"\n", 0, look) > TIDY_LINES for look in (_HEAD, _LOOK))


def _beside(lines: Sequence[str]) -> _Beside | None:
    for mark in _MARKS:
        if max((line.count(mark) for line in lines), default=0) < _LEAST_WIDTH - 1:
            continue
        rows = {at: split_cells(line, mark) for at, line in enumerate(lines) if mark in line}
        width = max((len(cells) for cells in rows.values()), default=0)
        wide = {at: cells for at, cells in rows.items() if len(cells) == width}
        if width < _LEAST_WIDTH or len(wide) < 2:
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
        return _Beside(said, kept, mark, width - 2 - gap)
    return None


def _sums_up(key: str) -> bool:
    """Whether a note is a figure of the rows, such as their average."""
    return plain(key).split()[:1] != [] and plain(key).split()[0] in SUMMARY
