"""A number in brackets behind the number of each cell, "388 (6.3)": how far it scatters, or of how many it is."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from importers.assumptions.tables import TIDY_LINES
from importers.grid import is_any_number, is_missing, split_cells
from importers.patterns import regex
from importers.tables.noted_cells import NotesTaken, cells_shown

_MARKS = (";", "\t", "|", ",")
_NUMBER = r"\d[\d.,']*"
_FORM = regex(
    rf"(?P<number>[-+−]?{_NUMBER})\s*[\[(]\s*(?P<said>(?P<word>±|\+\s?/?\s?[-−]|n\s?=|s\s?=|sd\s?=?|σ\s?=?)?\s*{_NUMBER}"
    rf"(?:\s?(?:[-–…]|\.\.\.?|to|bis)\s?[-−]?{_NUMBER})?\s*(?P<unit>%|[^\W\d_][^\s\d()\[\]]{{0,5}})?)\s*[\])]",
    re.IGNORECASE,
)
_RANGE = regex(r"\d\s?(?:[-–…]|\.\.|to|bis)")
_LEAST_ROWS = 2  #: with such cells, two each at the least: fewer may be notes
_BLANKS = regex(r"(?<=\S) {2,}(?=\S)")


class _Row(NamedTuple):
    """A line of numbers some of which have another in brackets behind them."""

    cells: list[str]
    found: list[re.Match[str] | None]

    @property
    def numbers(self) -> list[str]:
        """The cells without what stands in brackets behind their numbers."""
        return [match["number"] if match else cell for cell, match in zip(self.cells, self.found, strict=True)]


def without_brackets(lines: Sequence[str]) -> NotesTaken | None:
    """Return the lines of a small table with the first number of each such cell alone, and what is to be said of it.

    Only where most cells of those columns have the form, and none there is anything else than a number.
    """
    if len(lines) > TIDY_LINES or not any("(" in line or "[" in line for line in lines):
        return None
    if not any(mark in line for line in lines for mark in _MARKS):
        lines = [_BLANKS.sub("\t", line.strip(" ")) for line in lines]
    for mark in _MARKS:
        rows = {at: row for at, line in enumerate(lines) if mark in line and (row := _row(split_cells(line, mark)))}
        with_brackets = {at: row for at, row in rows.items() if any(row.found)}
        columns = {k for row in with_brackets.values() for k, match in enumerate(row.found) if match}
        alone = sum(k < len(row.cells) and row.found[k] is None for row in rows.values() for k in columns)
        found = [match for row in with_brackets.values() for match in row.found if match]
        if len(with_brackets) >= _LEAST_ROWS and len(found) > max(alone, len(with_brackets) - 1):
            out = [mark.join(rows[at].numbers) if at in with_brackets else line for at, line in enumerate(lines)]
            return NotesTaken(out, _said(found))
    return None


def _row(cells: Sequence[str]) -> _Row | None:
    """Return a line's cells where they are two numbers or more, with or without brackets, behind a word at the most."""
    found = [_FORM.fullmatch(cell) for cell in cells]
    values = [match is not None or is_any_number(cell) for cell, match in zip(cells, found, strict=True)]
    others = [cell for cell, value in zip(cells[1:], values[1:], strict=True) if not value]
    return _Row([*cells], found) if sum(values) >= 2 and all(map(is_missing, others)) else None


def _said(found: Sequence[re.Match[str]]) -> str:
    """Return the warning that names such cells, what their brackets are taken for, and that they count for nothing."""
    kinds = {kind for match in found for kind in [_kind(match)]}
    counts = len({match["said"] for match in found}) == 1 and found[0]["said"].isdigit()
    kind = "how many measurements each is of" if counts else kinds.pop() if len(kinds) == 1 else ""
    smaller = all(map(_is_smaller, found))
    taken = kind or ("a scatter or a count" if smaller else "which the file does not name")
    shown = cells_shown([match[0] for match in found])
    return f"of {shown} the first number was taken; what stands in brackets, {taken}, was left aside"


def _kind(match: re.Match[str]) -> str:
    """Return what a cell's brackets say themselves that they hold; empty where they do not."""
    if (match["word"] or "").lower().startswith("n"):
        return "how many measurements each is of"
    if match["word"] or match["unit"] == "%":
        return "a scatter"
    if _RANGE.search(match["said"]):
        return "a range"
    return "in a unit of its own" if match["unit"] else ""


def _is_smaller(match: re.Match[str]) -> bool:
    """Whether the number in brackets has fewer digits than the one before it, or is less by its first ones."""
    one, other = (re.match(r"\D*(\d*)", match[part])[1].lstrip("0") for part in ("number", "said"))  # type: ignore[index]
    return (len(other), other) < (len(one), one)
