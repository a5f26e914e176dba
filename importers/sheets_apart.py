"""Reads a workbook by python-calamine in a process of its own, which a damaged file may end without ending ours.

Run by `excel` as a script: the file on standard input, one JSON object a sheet on standard output, "title" and "rows"
of texts; exit code 0 read, 3 damaged, 4 too many cells. The library takes memory without bound where the sectors of an
old workbook point in a circle, so that memory is limited where the system can do that.
"""

from __future__ import annotations

import io
import json
import sys
from datetime import date, datetime, time

try:
    import resource
except ImportError:  # a system without limits
    resource = None  # type: ignore[assignment]

READ, DAMAGED, TOO_MANY = 0, 3, 4
MOST_MEMORY = 2 << 30  #: [bytes]; our judgement
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


def _limit_memory() -> None:
    if resource is not None:
        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))


def main(most_cells: int) -> int:
    """Write the sheets of the workbook on standard input."""
    _limit_memory()
    import python_calamine

    cells = 0
    try:
        book = python_calamine.load_workbook(io.BytesIO(sys.stdin.buffer.read()))
        for title in book.sheet_names:
            rows = book.get_sheet_by_name(title).to_python(skip_empty_area=False)
            cells += sum(len(row) + 1 for row in rows)
            if cells > most_cells:
                return TOO_MANY
            sys.stdout.write(json.dumps({"title": title, "rows": [[cell_text(v) for v in row] for row in rows]}) + "\n")
    except Exception as error:  # the library raises whatever the damaged part provokes
        sys.stderr.write(type(error).__name__)
        return DAMAGED
    return READ


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1])))
