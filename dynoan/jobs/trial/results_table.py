"""A table of results as timing screens, spreadsheets and the phone page write it: few rows, words beside the times."""

from __future__ import annotations

import csv
import re
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from dynoan.errors import QuantityError, ReadError
from dynoan.library.files import read_bounded
from dynoan.model.results import result_of

#: bytes of a table of results; judged: a season's runs are a thousandth of it
_MOST = 2_000_000
#: columns of such a table; judged: a timing screen shows a tenth of it
_MOST_COLUMNS = 200
_HEAD_END = 80  #: characters at the end of a column's name in which its unit stands; judged
_UNIT = re.compile(r"\s*[\[(]([^\])]*)[\])]\s*$")
_BOMS = ((b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"), (b"", "utf-8-sig"), (b"", "cp1252"))


@dataclass(frozen=True)
class ResultColumn:
    """One column, as it stands."""

    name: str  #: without its unit; empty where no line names the columns
    unit: str
    cells: tuple[str, ...]

    def read_as(self, unit: str) -> list[float | None]:
        """Return each cell as a result in a trial's unit, None where it is none. [SI, or the unit]"""
        return [_read(self.text(cell), unit) for cell in self.cells]

    def text(self, cell: str) -> str:
        """Return a cell as a person would type it: with the column's unit, unless it is a clock's time."""
        return f"{cell} {self.unit}" if self.unit and ":" not in cell else cell


def _read(text: str, unit: str) -> float | None:
    try:
        return result_of(text, unit)
    except QuantityError:
        return None


def result_columns(path: Path) -> tuple[ResultColumn, ...]:
    """Return the columns of a table of results.

    Raises
    ------
    ReadError
        If the file is no text, or holds no row with a number, or more columns than results have.
    LibraryError
        If it is missing, no plain file, or too large.
    """
    data = read_bounded(path, _MOST)
    if b"\0" in data[:1000] and not data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise ReadError("no text", where=path, hint="save the table as CSV")
    lines = [line for line in _decoded(data).splitlines() if line.strip(" \t;,") and not line.startswith("#")]
    try:
        rows = [[cell.strip() for cell in row] for row in csv.reader(lines, delimiter=_delimiter(lines))]
    except csv.Error as error:
        raise ReadError(f"no table of results ({error})", where=path) from None
    width = Counter(len(row) for row in rows if any(map(_number, row))).most_common(1)
    if not width:
        raise ReadError("no row of it holds a number", where=path, hint="wanted a column of results")
    if width[0][0] > _MOST_COLUMNS:
        raise ReadError(
            f"{width[0][0]} columns, more than the {_MOST_COLUMNS} that results have", where=path, hint="take a part"
        )
    rows = _evened(rows, width[0][0])
    width = Counter(len(row) for row in rows if any(map(_number, row))).most_common(1)
    first = next(n for n, row in enumerate(rows) if len(row) == width[0][0] and any(map(_number, row)))
    if _heads(rows[first], [row for row in rows[first + 1 :] if len(row) == width[0][0]]):
        first += 1
    body = [row for row in rows[first:] if len(row) == width[0][0]]
    head = rows[first - 1] if first and len(rows[first - 1]) == width[0][0] else [""] * width[0][0]
    return tuple(_column(name, [row[at] for row in body]) for at, name in enumerate(head))


def _evened(rows: list[list[str]], width: int) -> list[list[str]]:
    """Return rows that differ by a remark at their end as rows of one width: no run is lost for having none, or one."""
    first = next(n for n, row in enumerate(rows) if len(row) == width and any(map(_number, row)))
    whole = max((len(row) for row in rows[max(first - 1, 0) :]), default=width)
    beyond = [cell for row in rows[first:] for cell in row[width:]]
    if whole > width and any(map(_number, beyond)):
        return rows  # figures stand there, not remarks
    usual = [row for row in rows[first:] if len(row) == width]
    filled = [at for at in range(width) if all(row[at] for row in usual)]

    def a_run(row: list[str]) -> bool:
        """Whether it has all that every whole row has: a mean under the table has not."""
        return all(at < len(row) and row[at] for at in filled)

    return [row + [""] * (whole - len(row)) if n == first - 1 or a_run(row) else row for n, row in enumerate(rows)]


def _decoded(data: bytes) -> str:
    for mark, name in _BOMS:
        if data.startswith(mark):
            try:
                return data.decode(name)
            except UnicodeDecodeError:
                continue
    return data.decode("latin-1")


def _delimiter(lines: list[str]) -> str:
    """Return what sets cells apart: a comma only where nothing else does, since it may be a decimal one."""
    for mark in (";", "\t", "|"):
        if sum(mark in line for line in lines) > len(lines) / 2:
            return mark
    alone = all(re.fullmatch(r"[^,]*|[^,.]*\d,\d[^,.]*", line) for line in lines if re.search(r"\d", line))
    named = any("," in line for line in lines if not re.search(r"\d", line))
    return ";" if alone and not named else ","  # "4,83" alone is one number


def _heads(row: list[str], below: list[list[str]]) -> bool:
    """Return whether a row with a number in it names the columns, as "60 ft (s)" does: a word stands over numbers."""
    words = [at for at, cell in enumerate(row) if re.fullmatch(r"[^\W\d]{2}[^\d]*", cell)]
    return bool(below) and any(all(_number(r[at]) or re.fullmatch(r"[abAB]", r[at]) for r in below) for at in words)


def _number(cell: str) -> bool:
    return bool(re.fullmatch(r"[+-]?[\d:.,]*\d(\s*\D{1,6})?", cell))


def _column(head: str, cells: list[str]) -> ResultColumn:
    unit = _UNIT.search(head, max(0, len(head) - _HEAD_END))
    name = head[: unit.start()] if unit else head
    return ResultColumn(name.strip(), unit[1].strip() if unit else "", tuple(cells))
