"""What a workbook may cost: rows and cells counted before they are read, and reading bounded in time and memory."""

from __future__ import annotations

import io
import json
import sys
import zipfile
from collections.abc import Iterator
from importlib.util import find_spec
from typing import NamedTuple

from dynoan.errors import ReadError
from importers.assumptions.workbooks import (
    MOST_CELLS,
    SHEET_SECONDS,
    SHEET_SECONDS_PER_CELL,
    SHEET_SECONDS_PER_CELL_SLOW,
)
from importers.damage import damage_in_words
from importers.workbooks import own_process

_SHEETS = "xl/worksheets/"
_CHUNK = 1 << 20
_ROW, _CELLS = b"<row", (b"<c ", b"<c>", b"<c/")
_CPU_ENDED = (-24, -9)  #: exit codes of a process that took more time of the processor than it may (SIGXCPU, SIGKILL)
_BUSY = 20  #: so many times its computing may pass on a machine that has other things to do; our judgement [1]


class SheetCounts(NamedTuple):
    """The rows of a workbook's longest sheet, and the cells of all of them, as they are usually written."""

    rows: int
    cells: int


def unpacked_counts(data: bytes) -> SheetCounts:
    """Return how many rows and cells an .xlsx holds, by unpacking its sheets piece by piece."""
    longest, cells = 0, 0
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        for item in archive.infolist():
            if item.filename.startswith(_SHEETS):
                with archive.open(item) as part:
                    rows, more = _counts(iter(lambda part=part: part.read(_CHUNK), b""))  # type: ignore[misc]
                longest, cells = max(longest, rows), cells + more
    return SheetCounts(longest, cells)


def _counts(pieces: Iterator[bytes]) -> tuple[int, int]:
    rows, cells, end = 0, 0, b""
    for piece in pieces:  # a mark may begin in one piece and end in the next
        rows += (end + piece).count(_ROW)
        both = end[1:] + piece
        cells += sum(map(both.count, _CELLS))
        end = (end + piece)[1 - len(_ROW) :]
    return rows, cells


def read_apart(data: bytes, name: str, cells: int) -> Iterator[tuple[str, str, bool]]:
    """Yield title, text and whether it is hidden of a workbook's sheets as a process of its own reads them.

    Parameters
    ----------
    data, name
        The workbook, and its name as errors have it.
    cells
        How many it holds at most, which decides how long it may take.

    Raises
    ------
    ReadError
        If that process finds it damaged, runs out of what it may use, or ends.
    """
    import subprocess  # which a fresh process that reads no workbook is spared

    quick = find_spec("python_calamine") is not None
    seconds = int(SHEET_SECONDS + cells * (SHEET_SECONDS_PER_CELL if quick else SHEET_SECONDS_PER_CELL_SLOW))
    script = [sys.executable, "-I", own_process.__file__, str(MOST_CELLS), str(seconds)]
    try:
        done = subprocess.run(script, input=data, capture_output=True, timeout=_BUSY * seconds, check=False)
    except subprocess.TimeoutExpired:
        raise _refused(f"not read within {_BUSY * seconds} s", name, "save the sheets as CSV") from None
    if done.returncode == own_process.TOO_MANY:
        most = f"{MOST_CELLS // 1_000_000} million"
        raise _refused(f"more than {most} cells, empty ones included", name, "save the sheet with the table as CSV")
    if done.returncode == own_process.TOO_LARGE:
        most = f"{own_process.MOST_MEMORY >> 20} MB"
        raise _refused(f"reading it takes more than {most} of memory", name, "save the sheet with the table as CSV")
    if done.returncode == own_process.TOO_LONG:
        raise too_long(name)
    if done.returncode in _CPU_ENDED:
        raise _refused(f"not read within {seconds} s of computing", name, "save the sheets as CSV")
    if done.returncode != own_process.READ:
        said = done.stderr.decode(errors="replace")
        fault = damage_in_words(said) if done.returncode == own_process.DAMAGED else "it cannot be read"
        raise _refused(f"the workbook is damaged ({fault})", name, "open and save it again, or save it as CSV")
    for line in done.stdout.splitlines():
        sheet = json.loads(line)
        yield sheet["title"], sheet["text"], sheet["hidden"]


def too_long(name: str) -> ReadError:
    """Return the refusal of a sheet with more text than is read."""
    most = f"{own_process.MOST_TEXT // 1_000_000} MB"
    return _refused(f"a sheet of more than {most} of text", name, "save the sheet with the table as CSV")


def _refused(what: str, name: str, hint: str) -> ReadError:
    return ReadError(what, where=name, hint=hint)
