"""Which grid the lines of a body fit, judged on the body itself: a header may be set otherwise."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from importers.assumptions.grid import (
    BLANKS_TENTHS,
    CELLS_PER_NUMBER,
    DELIMITER_LINES,
    GRID_SAMPLE,
    GROUPED_DOUBT,
    LINES_PER_DELIMITER,
    MISSING_WORTH,
    ROW_NUMBERS,
    SHORT_HEAD,
)
from importers.grid.cell_grid import CellGrid
from importers.grid.cells import BLANKS, NUMBER, is_any_number, is_missing, split_cells
from importers.grid.marks import settle_marks
from importers.patterns import regex

DELIMITERS = (";", "\t", "|", ",", BLANKS)
#: a quoted cell with a delimiter in it
_QUOTED_MARK = regex(r'(?:^|[,;\t|])"[^"]*[,;\t|][^"]*"(?:[,;\t|]|$)')
#: a word for a row that sums up those above it
_SUMMED = regex(r"(?i)\b(?:mean|avg|average|mittel|mittelwert|moyenne|media|promedio|max|min|median)\b")
_NUMBER, _MISSING, _WORDS = 1, 0, -1  #: what a cell is, so that a column's sum tells which it mostly holds


class _Fit(NamedTuple):
    """How one line fits a pair of delimiter and decimal mark."""

    width: int
    score: float  #: share of its cells that are numbers
    kinds: list[int]  #: number, missing or words, by cell


class _Candidate(NamedTuple):
    """A grid and how well the lines fit it."""

    score: float
    grid: CellGrid

    @property
    def rank(self) -> tuple[float, int]:
        return self.score, self.grid.width


@lru_cache(maxsize=8)
def detect_grid(lines: tuple[str, ...], delimiter: str | None = None, decimal: str | None = None) -> CellGrid | None:
    """Return the grid that most lines of a body fit, or None where no table of numbers is in sight.

    Parameters
    ----------
    lines
        The head of the file.
    delimiter, decimal
        What the user states; it is not judged.
    """
    sample = [line for line in _body(lines) if line.strip()]
    quoted = any('"' in line for line in sample) or any(_QUOTED_MARK.search(line) for line in lines if '"' in line)
    best: _Candidate | None = None
    for mark in [delimiter] if delimiter else _present(sample, lines):
        rows = [split_cells(line, mark) for line in sample]
        for point in [decimal] if decimal else (".", ","):
            if point == mark and not quoted:
                continue
            judged = _judge(rows, mark, point, quoted=quoted)
            if judged is not None and (best is None or judged.rank > best.rank):
                best = judged
    if best is None:
        return None
    best = best._replace(grid=_with_summed_columns(best.grid, sample))
    grid = best.grid if all(best.grid.numeric) else _with_ended_columns(best.grid, sample, lines)
    return settle_marks(grid, sample, decimal_stated=decimal is not None)


def _with_ended_columns(grid: CellGrid, sample: Sequence[str], lines: Sequence[str]) -> CellGrid:
    """Return the grid with the columns numeric that are empty in the sample and hold numbers in earlier rows."""
    late = [cells for line in sample if len(cells := grid.cells(line)) == grid.width]
    ended = [k for k in range(grid.width) if all(is_missing(cells[k]) for cells in late)]
    if not ended or len(sample) == len(lines):
        return grid
    number = NUMBER[grid.decimal].fullmatch
    early = [cells for line in lines if grid.is_row(cells := grid.cells(line))]
    held = {
        k for k in ended if any(number(c[k]) for c in early) and all(number(c[k]) or is_missing(c[k]) for c in early)
    }
    return replace(grid, numeric=tuple(n or k in held for k, n in enumerate(grid.numeric)))


def _with_summed_columns(grid: CellGrid, sample: Sequence[str]) -> CellGrid:
    """Return the grid with a column of words where its numbers are followed again and again by one word for a sum.

    Such as cycles "1", "2", "3", "mean" at each speed; once, at a table's end, it is a line below the table.
    """
    if not any(map(_SUMMED.search, sample)):
        return grid
    words: Counter[tuple[int, str]] = Counter()
    for line in sample:
        cells = grid.cells(line)
        odd = [k for k, cell in enumerate(cells) if _SUMMED.fullmatch(cell)]
        if len(cells) == grid.width and len(odd) == 1 and grid.numeric[odd[0]]:
            words[odd[0], cells[odd[0]].lower()] += 1
    again = {k for (k, _), count in words.items() if count > 1}
    return replace(grid, numeric=tuple(n and k not in again for k, n in enumerate(grid.numeric))) if again else grid


def _body(lines: Sequence[str]) -> Sequence[str]:
    """Return whole lines late in the head: they are body in a long file; in a short one all lines may matter.

    Empty rows count for nothing: a workbook saved as text may have hundreds of them below its table.
    """
    said = [line for line in lines if any(map(str.isalnum, line))]
    return said if len(said) <= SHORT_HEAD else said[-GRID_SAMPLE:]


def _present(sample: Sequence[str], lines: Sequence[str]) -> list[str]:
    least = min(len(sample), DELIMITER_LINES)
    marks = [d for d in DELIMITERS if d == BLANKS or sum(d in line for line in sample) * LINES_PER_DELIMITER >= least]
    return [d for d in marks if d != BLANKS or not _tabs_alone(sample, lines)]


def _tabs_alone(sample: Sequence[str], lines: Sequence[str]) -> bool:
    """Whether tabs set cells apart, as many in all rows as in a line of names, with the same columns left blank.

    Blanks then stand within cells, and an empty column is a gap between two tables.
    """
    tabbed = [split_cells(line, "\t") for line in sample if line.count("\t") >= 2]
    width = Counter(map(len, tabbed)).most_common(1)[0][0] if tabbed else 0
    rows = [cells for cells in tabbed if len(cells) == width and any(map(is_any_number, cells))]
    blank = {k for k in range(width) if not any(cells[k] for cells in rows)}
    names = (split_cells(line, "\t") for line in lines if line.count("\t") == width - 1)
    return len(rows) > 1 and any(
        {k for k, cell in enumerate(cells) if not cell} == blank and not any(map(is_any_number, cells))
        for cells in names
    )


def _judge(rows: list[list[str]], mark: str, point: str, *, quoted: bool) -> _Candidate | None:
    """Return how well rows fit one pair of delimiter and decimal mark, with the grid they make."""
    number = NUMBER[point].fullmatch
    fits = [fit for cells in rows if (fit := _fit(cells, mark, number)) is not None]
    if not fits:
        return None
    by_width: Counter[int] = Counter()
    for fit in fits:
        by_width[fit.width] += round(1000 * fit.score)
    width, total = max(by_width.items(), key=lambda item: (item[1], item[0]))
    chosen = [fit.kinds for fit in fits if fit.width == width]
    numeric = tuple(_NUMBER in column and sum(column) >= 0 for column in zip(*chosen, strict=True))
    # Blanks may stand within cells, as marks that group digits; an explicit mark that fits as well is the delimiter.
    total = BLANKS_TENTHS * total // 10 if mark == BLANKS else total
    return _Candidate(round(total / 1000, 3), CellGrid(mark, point, width, numeric, quoted=quoted))


def _fit(cells: list[str], mark: str, number: Callable[[str], object]) -> _Fit | None:
    """Return how a line's cells fit; None where they are no row of any table."""
    if len(cells) < 2 and mark != BLANKS:
        return None
    kinds = [_NUMBER if number(cell) else _MISSING if is_missing(cell) else _WORDS for cell in cells]
    count, blank = kinds.count(_NUMBER), kinds.count(_MISSING)
    # "0,15 163,2" is two numbers with blanks between them rather than three, one of them grouped.
    doubtful = sum(" " in cell for cell in cells) if mark == "," else 0
    if count < ROW_NUMBERS or CELLS_PER_NUMBER * (count + blank) < len(cells):
        return None
    trailing = not cells[-1]
    score = (count - GROUPED_DOUBT * doubtful + MISSING_WORTH * (blank - trailing)) / (len(cells) - trailing)
    return _Fit(len(cells), score, kinds)
