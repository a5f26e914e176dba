"""Reads a workbook in a process of its own, which a damaged or endless file may end without ending ours.

Run by `bounds` as a script with the cells that are read at most and the seconds of computing it may take: the file on
standard input, one JSON object a sheet on standard output: its "title", its "text" with tabs between cells, whether it
is "hidden". Exit code 0 read, 3 damaged, 4 too many cells, 5 too little memory, 6 too much text. Read by
python-calamine; without it a large .xlsx by openpyxl. Both can be led to take time or memory without bound, so that
both are limited where the system can do that.
"""

from __future__ import annotations

import io
import json
import sys
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime, time
from typing import Any

try:
    import resource
except ImportError:  # a system without limits
    resource = None  # type: ignore[assignment]

READ, DAMAGED, TOO_MANY, TOO_LARGE, TOO_LONG = 0, 3, 4, 5, 6
MOST_MEMORY = 2 << 30  #: [bytes]; our judgement
MOST_TEXT = 200_000_000  #: of one sheet [characters]: twenty million cells of ten; our judgement
_HEAD = 1 << 16  #: what tells an .xlsx stands in the first bytes
_WHOLE = 1e15  #: larger numbers without a fraction may be no whole ones


def cell_text(value: object) -> str:
    """Return a cell's value as text."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return str(value)
    if isinstance(value, float):
        return repr(int(value)) if value.is_integer() and abs(value) < _WHOLE else repr(value)
    if isinstance(value, datetime | date | time):
        return value.isoformat(" ") if isinstance(value, datetime) else value.isoformat()
    return " ".join(str(value).split())


class TooLongError(Exception):
    """More text than is read: many cells may share one long one."""


def sheet_text(rows: Iterable[Iterable[object]]) -> str:
    """Return a sheet as lines with tabs between cells; a row without anything in it is an empty line."""
    left, lines = MOST_TEXT, []
    for row in rows:
        cells = []
        for value in row:
            cells.append(cell_text(value))
            left -= len(cells[-1]) + 1
            if left < 0:
                raise TooLongError
        line = "\t".join(cells)
        lines.append(line.rstrip("\t") if not line.strip() else line)
    return "\n".join(lines)


def _limit(seconds: int) -> None:
    if resource is not None:
        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
        resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds + 1))


def _sheets(data: bytes) -> Iterator[tuple[str, Iterable[Sequence[Any]], bool]]:
    """Yield title, rows and whether it is hidden of each sheet that can hold a table; an .xlsx as openpyxl has it."""
    try:
        import python_calamine
    except ImportError:
        import openpyxl

        for sheet in openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=True).worksheets:
            sheet.reset_dimensions()  # what a sheet says of its size may be the largest there is, for a few cells
            yield sheet.title, sheet.iter_rows(values_only=True), sheet.sheet_state != "visible"
        return
    book = python_calamine.load_workbook(io.BytesIO(data))
    for about in book.sheets_metadata:
        if about.typ == python_calamine.SheetTypeEnum.WorkSheet:
            rows = book.get_sheet_by_name(about.name).to_python(skip_empty_area=False)
            hidden = about.visible != python_calamine.SheetVisibleEnum.Visible
            yield about.name, map(_with_time, rows) if b"xl/" in data[:_HEAD] else rows, hidden


def _with_time(row: Sequence[Any]) -> Sequence[Any]:
    """Return a row whose days are moments, so that midnight in a column of moments is one as well."""
    return [datetime.combine(v, time()) if type(v) is date else v for v in row]


class _TooManyError(Exception):
    """More cells than are read."""


def _counted(rows: Iterable[Sequence[Any]], left: list[int]) -> Iterator[Sequence[Any]]:
    for row in rows:
        left[0] -= len(row) + 1
        if left[0] < 0:
            raise _TooManyError
        yield row


def main(most_cells: int, seconds: int) -> int:
    """Write the sheets of the workbook on standard input."""
    _limit(seconds)
    left = [most_cells]
    try:
        for title, rows, hidden in _sheets(sys.stdin.buffer.read()):
            sheet = {"title": title, "text": sheet_text(_counted(rows, left)), "hidden": hidden}
            sys.stdout.write(json.dumps(sheet) + "\n")
    except _TooManyError:
        return TOO_MANY
    except MemoryError:
        return TOO_LARGE
    except TooLongError:
        return TOO_LONG
    except Exception as error:  # the libraries raise whatever the damaged part provokes
        sys.stderr.write(f"{type(error).__module__}.{type(error).__qualname__}")
        return DAMAGED
    return READ


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), int(sys.argv[2])))
