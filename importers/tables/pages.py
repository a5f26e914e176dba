"""A table that goes on below the head of another page, which says again what the first one did."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from importers.header import HeaderColumn
from importers.tables.odd_lines import BodyLines
from importers.words.spelling import plain, word_set

_PAGE = word_set("page, seite, blatt, pagina, sheet, strana, sida, side, sivu, strona, oldal, 页, 頁, ページ")
_LOOK = 400  #: of the rows before a page, in which the last one is looked for [bytes]


def said_before(line: str, earlier: Iterable[str]) -> bool:
    """Whether an earlier line is the same, or a page's that holds it but for its numbers, as "Page 1" does "Page 2"."""
    earlier = list(earlier)
    paged = bool({*plain(line).split()} & _PAGE)
    return same_before(line, earlier) or (paged and any(_without_numbers(line) in _without_numbers(e) for e in earlier))


def _without_numbers(line: str) -> str:
    return re.sub(r"\d+", "#", plain(line))


def same_before(line: str, earlier: Iterable[str]) -> bool:
    """Whether an earlier line is the same, numbers and all."""
    return plain(line) in map(plain, earlier)


def runs_on(before: bytes, lines: BodyLines, below: int) -> bool:
    """Whether time, or a table's speed, goes on from the last of some rows to the first row from a line on."""
    column = _running(lines.body.header.columns)
    if column is None:
        return False
    last = [lines.body.decoded(raw) for raw in before[-_LOOK:].splitlines()][-1:]
    following = (lines.text(k) for k in range(below, len(lines)))
    first = next((text for text in following if lines.body.grid.is_line_row(text)), None)
    numbers = [_number(lines.body.grid.cells(text), column, lines.body.grid.decimal) for text in (*last, first or "")]
    one, other = numbers if len(numbers) == 2 else (None, None)
    return one is not None and other is not None and abs(other) > abs(one) and one * other >= 0


def _running(columns: Sequence[HeaderColumn]) -> int | None:
    """Return the column of time, or that of the speeds of a table without travel; None of others."""
    held = {c.channel: c.index for c in reversed(columns)}
    if "time" in held:
        return held["time"]
    return held.get("velocity") if "displacement" not in held else None


def _number(cells: Sequence[str], column: int, decimal: str) -> float | None:
    try:
        return float(cells[column].replace(decimal, "."))
    except (IndexError, ValueError):
        return None
