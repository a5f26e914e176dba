"""How the cells of a table stand: delimiter, decimal mark, thousands marks, number of columns. Judged on the body."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from importers.grid.cells import BLANKS, NUMBER, PLAIN, is_missing, is_number, split

DELIMITERS = (";", "\t", "|", ",", BLANKS)
_SAMPLE = 40
_GROUP = re.compile(r"[-+−]?(\d{1,3})[.,]\d{3}")


@dataclass(frozen=True)
class Grid:
    """How the cells of a table stand."""

    delimiter: str
    decimal: str
    width: int
    numeric: tuple[bool, ...]  #: which columns hold numbers
    thousands: str = ""  #: marks that group digits
    quoted: bool = False  #: whether cells stand in quotes

    @property
    def words(self) -> str:
        """The grid for people."""
        names = {";": "semicolon", "\t": "tab", "|": "pipe", ",": "comma", BLANKS: "runs of blanks"}
        mark = "decimal comma" if self.decimal == "," else "decimal point"
        marks = f", thousands marked by '{self.thousands}'" if self.thousands else ""
        return f"{names.get(self.delimiter, repr(self.delimiter))} between cells, {mark}{marks}"

    def cells(self, line: str) -> list[str]:
        """Return the cells of a line, without empty ones beyond the width."""
        found = split(line, self.delimiter)
        while len(found) > self.width and not found[-1]:
            found.pop()
        return found

    def is_row(self, cells: Sequence[str]) -> bool:
        """Whether cells are a row of the table: numbers or missing values where numbers belong, at least one number."""
        if len(cells) < self.width:
            return False
        if len(cells) > self.width:
            return False
        some = False
        for cell, numeric in zip(cells, self.numeric, strict=True):
            if not numeric:
                continue
            if is_number(cell, self.decimal):
                some = True
            elif not is_missing(cell):
                return False
        return some


@lru_cache(maxsize=8)
def detect(lines: tuple[str, ...], delimiter: str | None = None, decimal: str | None = None) -> Grid | None:
    """Return the grid that most lines of a body fit, or None where no table of numbers is in sight."""
    sample = [line for line in _body(lines) if line.strip()]
    best: tuple[tuple[float, int], Grid] | None = None
    for mark in [delimiter] if delimiter else _present(sample):
        rows = [split(line, mark) for line in sample]
        quoted = any('"' in line for line in sample)
        for point in [decimal] if decimal else (".", ","):
            if point == mark and not quoted:
                continue
            judged = _judge(rows, mark, point, quoted)
            if judged is not None and (best is None or judged[0] > best[0]):
                best = judged
    return None if best is None else _settle(best[1], sample, free=decimal is None)


def _body(lines: Sequence[str]) -> Sequence[str]:
    """Return whole lines late in the head: they are body in a long file; in a short one all lines may matter."""
    return lines if len(lines) <= 120 else lines[-_SAMPLE:]


def _present(sample: Sequence[str]) -> list[str]:
    return [d for d in DELIMITERS if d == BLANKS or sum(d in line for line in sample) * 10 >= min(len(sample), 20)]


def _judge(rows: list[list[str]], mark: str, point: str, quoted: bool) -> tuple[tuple[float, int], Grid] | None:
    """Return how well rows fit one pair of delimiter and decimal mark, with the grid they make."""
    pattern = NUMBER[point]
    fits: list[tuple[int, float, list[int]]] = []
    for cells in rows:
        if len(cells) < 2 and mark != BLANKS:
            continue
        flags = [1 if pattern.fullmatch(cell) else 0 if is_missing(cell) else -1 for cell in cells]
        count, blank = flags.count(1), flags.count(0)
        if count >= 2 and 3 * (count + blank) >= len(cells):
            size = len(cells) - (not cells[-1])
            fits.append((len(cells), (count + 0.7 * (blank - (not cells[-1]))) / size, flags))
    if not fits:
        return None
    by_width: Counter[int] = Counter()
    for width, score, _ in fits:
        by_width[width] += round(1000 * score)
    width, total = max(by_width.items(), key=lambda item: (item[1], item[0]))
    chosen = [flags for w, _, flags in fits if w == width]
    numeric = tuple(1 in column and sum(column) >= 0 for column in zip(*chosen, strict=True))
    # Blanks may stand within cells, as marks that group digits; an explicit mark that fits as well is the delimiter.
    total = 9 * total // 10 if mark == BLANKS else total
    return (round(total / 1000, 3), width), Grid(mark, point, width, numeric, quoted=quoted)


def _settle(grid: Grid, sample: Sequence[str], *, free: bool) -> Grid:
    """Settle which mark is the decimal one where both fit, and which marks group digits."""
    rows = [cells for cells in (grid.cells(line) for line in sample) if grid.is_row(cells)]
    columns = [[row[i] for row in rows] for i in range(grid.width) if grid.numeric[i]] if rows else []
    decimal = grid.decimal
    if free:
        decimal = _decimal(columns, grid)
    grouped = [cell for column in columns for cell in column
               if PLAIN[decimal].fullmatch(cell) is None and NUMBER[decimal].fullmatch(cell)]  # fmt: skip
    marks = {c for cell in grouped for c in cell if c in ",.'’ \u00a0\u202f" and c != decimal}
    return Grid(grid.delimiter, decimal, grid.width, grid.numeric, "".join(sorted(marks)), grid.quoted)


def _decimal(columns: list[list[str]], grid: Grid) -> str:
    """Return the decimal mark; where all marks could group digits, integers beside them tell.

    "640, 910, 1.150, 1.420" can only be thousands: a writer of three decimals writes them everywhere.
    """
    other = "," if grid.decimal == "." else "."
    cells = [cell for column in columns for cell in column if "." in cell or "," in cell]
    if not cells or any(not (_GROUP.fullmatch(cell) and is_number(cell, other)) for cell in cells):
        return grid.decimal
    mark = next(c for c in cells[0] if c in ".,")
    if any(mark not in cell for cell in cells) or any(re.match(r"[-+−]?0", cell) for cell in cells):
        return mark if all(mark in cell for cell in cells) else grid.decimal
    grouped = any(_grouped(column, mark) for column in columns)
    return ("," if mark == "." else ".") if grouped else mark


def _grouped(column: list[str], mark: str) -> bool:
    whole = [abs(int(c.replace("−", "-"))) for c in column if re.fullmatch(r"[-+−]?\d{1,6}", c)]
    marked = sum(mark in cell for cell in column)
    return bool(marked and whole and max(whole) >= 100 and max(whole) < 1000 and 10 * len(whole) >= len(column))
