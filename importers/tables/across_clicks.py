"""A small table with bare click numbers across its top, the adjuster in a line above, with its name at each number."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import takewhile
from typing import NamedTuple

from dynoan.model.warned import TakenForBoth
from importers.assumptions.parts import CLICKS_BELOW
from importers.assumptions.tables import ACROSS_LEAST, TIDY_LINES
from importers.grid import are_numbers, is_number, split_cells
from importers.header import describe_column
from importers.patterns import regex
from importers.words.adjusters import ADJUSTER, CLICK_WORD, CLICKS_ALONE, adjuster_of
from importers.words.channels import CHANNEL_WORDS
from importers.words.clicks import clicks_of
from importers.words.directions import direction_of
from importers.words.keys import ONE_KNOB
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

_MARKS = (";", "\t", "|", ",")
_WAYS = {"c": "compression", "r": "rebound"}
_CLICKS = regex(CLICKS_ALONE)
_BRACKETED = regex(r"[\[(]([^\[\]()]*)[\])]")
_PAIR = regex(r"\d{1,2}")
_PAIRS = regex(r"\d{1,2}(?:\s?/\s?\d{1,2})+")
_LEAST_GROUPS = 2  #: of columns under a number each
_BESIDE_CLICKS = (
    regex(rf"(?<![a-z])(?:{ADJUSTER.pattern})\s*{CLICK_WORD}(?![a-z])"),
    regex(rf"(?<![a-z]){CLICK_WORD}\s*(?:of\s*)?(?:{ADJUSTER.pattern})(?![a-z])"),
)


def with_clicks_named(lines: Sequence[str], whole: Sequence[str] = ()) -> list[str] | None:
    """Return lines, of `whole` ones, with names for the clicks across a table's top; None where none stand there."""
    for mark in _MARKS if len(lines) <= TIDY_LINES else ():
        for at, line in enumerate(lines[:-1]):
            cells = split_cells(line, mark) if mark in line else []
            found = (
                len(cells) >= ACROSS_LEAST
                and _are_clicks(cells)
                and are_numbers(split_cells(lines[at + 1], mark), len(cells))
            )
            if not found or _are_down(cells, lines[at + 1 :], mark):
                continue
            cells, titled = [*cells[:1], *map(_position, cells[1:])], _title(lines[:at], mark)
            adjusters = {name for other in lines[:at] for name in _adjusters(other)}
            way, unit = _way_above(lines[:at]), ""
            spoken = titled is not None and _speaks_of_clicks(line, titled, lines[:at])
            if not adjusters and titled is not None and (spoken or _other_way_has(cells, titled, whole or lines, mark)):
                # The one knob of the direction that the title over the table names.
                adjusters, way, unit = {titled.way[0]}, titled.way, titled.unit
            if len(adjusters) == 1:
                adjuster, rest = adjusters.pop(), lines[at + 1 :]
                head = _head(cells, adjuster, mark, way, unit)
                # A table of the other direction may stand below, under its title.
                more = with_clicks_named([*lines[:at], *rest], whole or lines) or [*lines[:at], *rest]
                return [*lines[:at], head, *more[at:]]
    return None


def with_pairs_named(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with "C=0 R=4" for each "0/4" behind "Clicks C/R" over a table's columns; None without such."""
    for mark in _MARKS if len(lines) <= TIDY_LINES else ():
        for at, line in enumerate(lines):
            cells = split_cells(line, mark) if mark in line and "/" in line else []
            if len(cells) < ACROSS_LEAST or not (names := _names_pairs(cells[0])):
                continue
            some = [c for c in cells[1:] if c]
            if len(some) >= 2 and all(len(_PAIR.findall(c)) == len(names) and _PAIRS.fullmatch(c) for c in some):
                named = ["", *(_pair(c, names) for c in cells[1:])]
                return [*lines[:at], mark.join(named), *lines[at + 1 :]]
    return None


def with_click_rows_joined(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with one line "C=4 R=6" over a table's columns for lines "C clicks,4,8" and "R clicks,6,6".

    None where no such lines, each of another adjuster, stand above a line of names; one alone only above a speed's.
    Where a sheet's cells were joined, a number holds for the columns up to the next one.
    """
    for mark in _MARKS if len(lines) <= TIDY_LINES else ():
        split = [split_cells(line, mark) if mark in line else [] for line in lines]
        width = max(map(len, split), default=0)
        rows = [_carried(cells, width) for cells in split]
        for at in (k for k in range(len(rows) - 2) if len(rows[k]) >= ACROSS_LEAST):
            stop = next((k for k in range(at, len(rows)) if not _are_positions(rows[k], len(rows[at]))), len(rows))
            adjusters = [_knob_of(cells[0]) for cells in rows[at:stop]]
            named = stop < len(rows) and len(rows[stop]) == len(rows[at]) and not is_number(rows[stop][-1], ".")
            alone = stop - at == 1 and not (named and describe_column(0, rows[stop][0]).channel == "velocity")
            if stop == at or alone or len({*adjusters}) < stop - at or not named:
                continue
            over = [
                " ".join(f"{str(key).upper()}={cells[k]}" for key, cells in zip(adjusters, rows[at:stop], strict=True))
                for k in range(1, len(rows[at]))
            ]
            return [*lines[:at], mark.join(["", *over]), *lines[stop:]]
    return None


def _carried(cells: list[str], width: int) -> list[str]:
    """Return the cells of an adjuster's line with each number in the empty ones behind it; those of another line.

    The last number's own cells may have been left out, as many as stand empty between the first two.
    """
    there = [at for at, cell in enumerate(cells) if cell and at]
    if len(there) < _LEAST_GROUPS or there[0] != 1 or _knob_of(cells[0]) is None:
        return cells
    if not all(_PAIR.fullmatch(cells[at]) for at in there):
        return cells
    lacking = width - len(cells)
    out = cells[:2]
    for cell in [*cells[2:], *[""] * (lacking if lacking < there[1] - there[0] else 0)]:
        out.append(cell or out[-1])
    return out


def knob_unnamed(lines: Sequence[str]) -> str:
    """Return the warning of a row "Clicks,0,8" over a table's columns that were taken as those of one knob."""
    names = (split_cells(line, mark)[0] for mark in _MARKS for line in lines if mark in line)
    knob = next((name for name in names if plain(name) in ONE_KNOB), "")
    return TakenForBoth.of(knob) if knob else ""


def _are_positions(cells: Sequence[str], width: int) -> bool:
    """Whether cells are the name of an adjuster and a click position for each column."""
    clicks = len(cells) == width >= ACROSS_LEAST and all(_PAIR.fullmatch(c) for c in cells[1:])
    return clicks and _knob_of(cells[0]) is not None


def _knob_of(cell: str) -> str | None:
    """Return the adjuster that a cell names; "cr" where it speaks of clicks and names no direction."""
    return adjuster_of(plain(cell)) or ("cr" if plain(cell) in ONE_KNOB else None)


def _names_pairs(cell: str) -> list[str]:
    """Return the adjusters of "Clicks C/R"; none of another text."""
    words = re.sub(rf"(?<![a-z]){CLICK_WORD}(?![a-z])", " ", plain(cell)).strip(" :")
    found = [adjuster_of(part.strip()) for part in words.split("/")]
    return [one for one in found if one] if len(found) >= 2 and None not in found else []


def _pair(cell: str, names: Sequence[str]) -> str:
    return " ".join(f"{name.upper()}={n}" for name, n in zip(names, _PAIR.findall(cell), strict=True)) if cell else ""


def _are_clicks(cells: Sequence[str]) -> bool:
    """Whether a line is a word for speed, or nothing, before whole numbers that rise or fall."""
    corner, *rest = cells[0], *map(_position, cells[1:])
    named = not corner or is_unit(corner, "velocity") or describe_column(0, corner).channel == "velocity"
    numbers = [int(c) for c in rest] if named and all(map(_is_position, rest)) else []
    return bool(numbers) and sorted(set(numbers)) in (numbers, numbers[::-1])


def _are_down(cells: Sequence[str], below: Sequence[str], mark: str) -> bool:
    """Whether the clicks are at the rows and speeds across, where the corner names both: "Clicks \\ in/s"."""
    rows = takewhile(lambda line: are_numbers(split_cells(line, mark), len(cells)), below)
    return _CLICKS.match(plain(cells[0])) is not None and all(_is_position(split_cells(row, mark)[0]) for row in rows)


class _Title(NamedTuple):
    """What a line with one cell says of the forces under it."""

    way: str
    unit: str
    clicks: bool  #: whether it speaks of clicks


def _title(above: Sequence[str], mark: str) -> _Title | None:
    """Return what the last line above says, where it is one cell that names one direction."""
    last = next((line for line in reversed(above) if line.strip(f"{mark} ")), "")
    text = last.strip(f"{mark} ")
    if not text or mark in text:
        return None
    unit = next((m[1] for m in _BRACKETED.finditer(text) if is_unit(m[1], "force")), "")
    words = [word for word in plain(_BRACKETED.sub(" ", text)).split() if word not in CHANNEL_WORDS["force"]]
    clicks = any(_CLICKS.fullmatch(word) for word in words)
    ways = {way for word in words if (way := direction_of(word))}
    return _Title(ways.pop(), unit, clicks) if len(ways) == 1 else None


def _speaks_of_clicks(line: str, titled: _Title, above: Sequence[str]) -> bool:
    """Whether the title over a table, its line of numbers or a line above that sets none speaks of clicks."""
    spoken = any(_CLICKS.search(plain(other)) and not clicks_of(other) for other in above)
    return spoken or titled.clicks or any(_CLICKS.fullmatch(word) for word in re.split(r"[^\w]+", plain(line)))


def _other_way_has(cells: Sequence[str], titled: _Title, lines: Sequence[str], mark: str) -> bool:
    """Whether the same numbers stand over a table of the other direction, under its title, and count no runs.

    Numbers that both directions were tested at are clicks of both knobs; 1, 2, 3 may be runs.
    """
    if [int(c) for c in cells[1:]] == list(range(1, len(cells))):
        return False
    same = (at for at, line in enumerate(lines) if [*map(_position, split_cells(line, mark))][1:] == cells[1:])
    titles = (_title(lines[:at], mark) for at in same)
    return any(other is not None and other.way != titled.way for other in titles)


def numbers_taken_as_clicks(lines: Sequence[str]) -> str:
    """Return the warning of numbers under both directions that were taken as clicks though no line speaks of such."""
    if any(re.search(rf"(?<![a-z]){CLICK_WORD}(?![a-z])", plain(line)) or clicks_of(line) for line in lines):
        return ""
    for mark in _MARKS:
        for at, line in enumerate(lines):
            cells = [*map(_position, split_cells(line, mark))] if mark in line else []
            titled = _title(lines[:at], mark) if len(cells) >= ACROSS_LEAST and _are_clicks(cells) else None
            if titled is not None and _other_way_has(cells, titled, lines, mark):
                names = ", ".join(f"'{c}'" for c in cells[1:])
                return f"{names} over compression and over rebound were taken as clicks, though no line says so"
    return ""


def _position(cell: str) -> str:
    """Return the number of "8 clicks", another cell as it is."""
    number, _, word = cell.strip().partition(" ")
    return number if word and _CLICKS.fullmatch(plain(word)) else cell.strip()


def _is_position(cell: str) -> bool:
    return _PAIR.fullmatch(cell) is not None and int(cell) < CLICKS_BELOW


def _adjusters(line: str) -> Iterator[str]:
    """Yield the adjusters that a line names beside a word for clicks."""
    for pattern in _BESIDE_CLICKS:
        for match in pattern.finditer(plain(line)):
            yield from (name for name, hit in match.groupdict().items() if hit)


def _way_above(above: Sequence[str]) -> str:
    """Return the direction that the last line above says its forces are of; empty where it says none."""
    title = next((plain(line) for line in reversed(above) if line.strip()), "")
    words = title.split()
    before = [k for k, word in enumerate(words) if word in CHANNEL_WORDS["force"]]
    return (direction_of(" ".join(words[: before[0]])) or "") if before else ""


def _head(cells: Sequence[str], adjuster: str, mark: str, way: str, unit: str = "") -> str:
    """Return the line of names: forces under an adjuster of one direction are of that, where no title says another."""
    way = way or ("" if adjuster == "cr" else _WAYS[adjuster[-1]])
    corner = f"Velocity [{cells[0]}]" if is_unit(cells[0], "velocity") else cells[0] or "speeds in the first column"
    of = f"{way} [{unit}]" if unit else way
    return mark.join([corner, *(f"{adjuster.upper()} {n} {of}".strip() for n in cells[1:])])
