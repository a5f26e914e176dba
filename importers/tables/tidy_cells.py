"""Small tables written for people: rules, bars, units and errors in the cells, as a plain table of the same numbers."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

from importers.assumptions.tables import ACROSS_LEAST, TIDY_LINES, WIDEST_TABLE
from importers.grid import BLANKS, split_cells
from importers.header import describe_column
from importers.patterns import regex
from importers.tables.cell_units import NUMBER_AND_UNIT, units_behind
from importers.words.unit_text import clean_unit, is_unit

_RULE = regex(r"[\s|+:=_-]*[-=_]{3}[\s|+:=_-]*")
_BAR = regex(r"\s*\|.*\|\s*")
_PLUS_MINUS = r"(?<=\d)\s*(?:±|\+/-|\+-|&plusmn;)\s*"
_ERROR = regex(_PLUS_MINUS + r"\d[\d.,]*\s?%?")
_ERROR_IN_COMMAS = regex(_PLUS_MINUS + r"\d[\d.]*\s?%?")  #: between cells set apart by commas
_STARRED = regex(r"(?<=\d)\s?(?:\*{1,3}|†|‡|¹|²|³)(?=\s*(?:[;\t|,]|$))")
_SPELLED_NUMBERS = (  # whole cells: "397-" of office systems, "- 397" of spreadsheets, "~397" of people
    (regex(r"(?<![^;\t|,])(\s*)(\d[\d.,' ]*?)\s?[-−](?=\s*(?:[;\t|,]|$))"), r"\1-\2"),
    (regex(r"(?<![^;\t|,])(\s*)[-−] +(?=\d[\d.,' ]*(?:[;\t|,]|$))"), r"\1-"),
    (
        regex(r"(?<![^;\t|,])(\s*)(?:~|≈|≃|ca\.?|approx\.?)\s*(?=[-+−]?\d[\d.,' ]*(?:[;\t|,]|$))", re.IGNORECASE),
        r"\1",
    ),
    # "(348)" of accountants
    (regex(r"(?<![^;\t|,])(\s*)\((\d[\d.,' ]*)\)(?=\s*(?:[;\t|,]|$))"), r"\1-\2"),
    (regex(r'(?<![^;\t|,])(\s*)"\((\d[\d.,\' ]*)\)"(?=\s*(?:[;\t|,]|$))'), r'\1"-\2"'),
)
_MARKED = regex(r"[-+−]?\d[\d.,]*\s?(?:\*{1,3}|†|‡)|(?:~|≈|≃|ca\.?|approx\.?)\s*[-+−]?\d[\d.,]*", re.IGNORECASE)
_BRACKETED_ROW = regex(r"\s*\"?[-+−(]*\d")  #: a line whose brackets may be signs; names of columns begin with words
_REMARK = regex(r"(?<=[\d.])\s+(?:#(?!N/?A|DIV|REF|VALUE|NUM|NAME|NULL|WERT|NV|#)|//|!).*$")
_MARKS = (";", "\t", "|", ",")


def tidied(lines: Sequence[str]) -> list[str] | None:
    """Return the lines of a small table as a plain table; None where nothing is to be tidied."""
    if len(lines) > TIDY_LINES:
        return None
    out = [_tidy(line) for line in lines]
    out = _without_units(out) or out
    out = _without_known_units(out)
    return out if out != list(lines) else None


def marks_left_out(lines: Sequence[str]) -> list[str]:
    """Return the cells of a small table whose mark for people, "456*" or "~456", is left out when it is tidied."""
    if len(lines) > TIDY_LINES:
        return []
    rows = [(line, next((mark for mark in _MARKS if mark in line), "")) for line in lines if _BRACKETED_ROW.match(line)]
    return [cell for line, mark in rows if mark for cell in split_cells(line, mark) if _MARKED.fullmatch(cell)]


def errors_left_out(lines: Sequence[str]) -> list[str]:
    """Return the cells of a small table whose "± 12" behind a number is left out when it is tidied."""
    rows = [line for line in lines if _ERROR.search(line)] if len(lines) <= TIDY_LINES else []
    cells = (cell for line in rows for cell in split_cells(line, next((m for m in _MARKS if m in line), BLANKS)))
    return [cell for cell in cells if cell[:1].isdigit() and _ERROR.search(cell)]


def _tidy(line: str) -> str:
    """Return a line without bars at its ends, rules, and what stands behind its numbers."""
    if not any(c.isdigit() for c in line):
        return "" if _RULE.fullmatch(line) else _bare(line)
    if _ERROR.search(line):
        commas = not any(mark in line for mark in _MARKS[:3])
        line = (_ERROR_IN_COMMAS if commas else _ERROR).sub("", line)
    if any(mark in line for mark in _MARKS):
        for spelled, plain_one in _SPELLED_NUMBERS if _BRACKETED_ROW.match(line) else _SPELLED_NUMBERS[:3]:
            line = spelled.sub(plain_one, line)
    if line.lstrip("|; \t")[:1].isdigit() or line.lstrip("|; \t")[:1] in "+-−":
        line = _REMARK.sub("", _STARRED.sub("", line))
    return _bare(line)


def _bare(line: str) -> str:
    return line.strip().strip("|").strip() if _BAR.fullmatch(line) and line.count("|") >= 3 else line


def _without_units(lines: Sequence[str]) -> list[str] | None:
    """Return rows whose cells are numbers with a unit as numbers, under a line of the units; None where none are."""
    if not any(mark in line for line in lines for mark in _MARKS):
        lines = [re.sub(r"(?<=\S) {2,}(?=\S)", "\t", line.strip(" ")) for line in lines]
    for mark in _MARKS:
        rows = {i: split_cells(line, mark) for i, line in enumerate(lines) if mark in line}
        with_units = {i: units_behind(cells) for i, cells in rows.items()}
        some = {i: units for i, units in with_units.items() if any(units) and not _are_speeds(rows[i], units)}
        if len(some) < (2 if all(sum(map(bool, units)) >= 2 for units in some.values()) else 3):
            continue
        kinds = Counter(tuple(map(clean_unit, units)) for units in some.values())
        if len(kinds) != 1:
            return None  # two units in one column: no one of them is the column's
        first = min(some)
        units = mark.join(some[first])
        return [*lines[:first], units, *(_numbers(lines[i], mark) if i in some else lines[i]
                                         for i in range(first, len(lines)))]  # fmt: skip
    return None


def _without_known_units(lines: Sequence[str]) -> list[str]:
    """Return lines without the unit behind a number in a cell where the column's name states that very unit."""
    for mark in _MARKS:
        rows = [split_cells(line, mark) if mark in line else [] for line in lines]
        at = next((k for k, cells in enumerate(rows) if _named_units(cells)), None)
        if at is None:
            continue
        units = _named_units(rows[at])
        return [mark.join(_bare_cells(cells, units)) if k > at and _has_unit(cells, units) else line
                for k, (line, cells) in enumerate(zip(lines, rows, strict=True))]  # fmt: skip
    return list(lines)


def _named_units(cells: Sequence[str]) -> list[str]:
    """Return the units of a line that names a motion and a force, a cell each; nothing of another line."""
    columns = [describe_column(k, cell) for k, cell in enumerate(cells)] if 1 < len(cells) <= WIDEST_TABLE else []
    held = {c.channel or c.direction for c in columns}
    named = held & {"velocity", "displacement"} and held & {"force", "compression", "rebound"}
    return [clean_unit(c.unit) if c.unit else "" for c in columns] if named else []


def _has_unit(cells: Sequence[str], units: Sequence[str]) -> bool:
    return len(cells) == len(units) and list(cells) != _bare_cells(cells, units)


def _bare_cells(cells: Sequence[str], units: Sequence[str]) -> list[str]:
    found = [NUMBER_AND_UNIT.fullmatch(cell) for cell in cells]
    pairs = zip(cells, found, units, strict=False)
    return [m[1] if m and unit and clean_unit(m[2]) == unit else cell for cell, m, unit in pairs]


def _are_speeds(cells: Sequence[str], units: Sequence[str]) -> bool:
    """Whether cells are speeds across a table's top, a word or nothing before them."""
    return (
        len(units) >= ACROSS_LEAST
        and not units[0]
        and not cells[0][:1].isdigit()
        and all(is_unit(unit, "velocity") for unit in units[1:])
    )


def _numbers(line: str, mark: str) -> str:
    cells = ((m[1] if (m := NUMBER_AND_UNIT.fullmatch(c)) else c) for c in split_cells(line, mark))
    return mark.join(cells)
