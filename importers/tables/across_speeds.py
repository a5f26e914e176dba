"""A small table with speeds across its top and settings, shocks or directions down its side, as one force a row."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from importers.assumptions.tables import ACROSS_LEAST, TIDY_LINES
from importers.assumptions.words import MOST_CLICKS
from importers.grid import is_any_number, is_missing, split_cells
from importers.header import describe_column
from importers.patterns import regex
from importers.tables.bare_speeds import with_speeds_marked
from importers.tables.row_labels import row_keys, with_ways_of_clicks
from importers.words.adjusters import CLICK_WORD
from importers.words.channels import CHANNEL_WORDS, REMARKS
from importers.words.clicks import clicks_of
from importers.words.directions import direction_among, direction_of
from importers.words.keys import ONE_KNOB
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

_MARKS = (";", "\t", "|", ",")
_NUMBER = regex(r"(?:(?<![^\s=@])[-−])?\d+(?:[.,]\d+)?")
#: a direction and a speed, in either order: "C50", "Reb 100", "100R"
_LETTERED = regex(r"[^\W\d_]+[\s_-]?\d+(?:[.,]\d+)?|\d+(?:[.,]\d+)?[\s_-]?[^\W\d_]+")
_POINTED = regex(r"-?\d+\.(?:\d{1,2}|\d{4,})")  #: three digits behind a point may be thousands
_FORCE_UNIT = regex(r"\s*[\[(][^\[\]()]*[\])]$|(?<=\d)\s+[^\W\d_]+$")
_MOST_BEYOND = 3  #: columns of other things behind those of forces
_DIGIT = regex(r"\d")
_OF_SPEED = regex(r"(?i)/|ps\b|per\b|秒|초")  #: what all units of speed have
_CLICKED = regex(rf"\b{CLICK_WORD}\b")
_BESIDE = frozenset(("at", "v", "bei", "a", "en", "bij", "ved", "vid", "force", "kraft", "f"))


class _Speed(NamedTuple):
    """A speed at the head of a column of forces."""

    number: str
    unit: str  #: of the speed; empty where the cell states none
    way: str  #: direction of the forces below; empty where the cell states none
    force_unit: str
    marked: bool  #: whether the cell says that its number is a speed


def with_speeds_down(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with each force of the table in a row of its own; None where no speeds stand across."""
    small = len(lines) <= TIDY_LINES
    words = [line for line in lines if _OF_SPEED.search(line) and not _DIGIT.search(line)] if small else []
    notes = [line for line in words if _speaks_of_speeds(line)]
    for mark in _MARKS if small else ():
        lines = with_speeds_marked(lines, mark)
        rows = [split_cells(line, mark) if mark in line else [] for line in lines]
        for at, cells in enumerate(rows[:-1]):
            if (
                len(cells) >= ACROSS_LEAST
                and len(rows[at + 1]) == len(cells)
                and (found := _down(lines, rows, at, notes))
            ):
                return found
    return None


def _down(lines: Sequence[str], rows: Sequence[Sequence[str]], at: int, notes: Sequence[str]) -> list[str] | None:
    """Return the lines with the table under one line as a row a force; None where that line holds no speeds.

    `notes` are the lines without numbers, above and below, that speak of speeds.
    """
    above = lines[:at]
    if (corner := _corner(rows[at][0])) is not None:
        lines = [*lines[:at], corner.speeds, *lines[at:]]
        rows = [*rows[:at], [], [corner.rows, *rows[at][1:]], *rows[at + 1 :]]
        at += 1
    if (with_units := _with_units_below(rows[at], rows[at + 1])) is not None:
        lines = [*lines[: at + 1], *lines[at + 2 :]]
        rows = [*rows[:at], with_units, *rows[at + 2 :]]
    # Looked for where it is wanted alone: for each line of a table through all lines above is the square of its length.
    if plain(rows[at][0]) in ONE_KNOB and (titled := _way_of_forces(above)):
        rows = [*rows[:at], [f"{titled} {rows[at][0]}", *rows[at][1:]], *rows[at + 1 :]]
    if plain(rows[at][-1]) in REMARKS:
        rows = [row[:-1] if len(row) == len(rows[at]) else row for row in rows]
    rows, beyond = _without_beyond(rows, at)
    speeds = _speeds(rows[at], [*notes, *lines[:at]])
    first = len(rows[at]) - len(speeds)
    stop = next((k for k in range(at + 1, len(rows)) if not _is_row(rows[k], first, len(rows[at]))), len(rows))
    if len(speeds) < ACROSS_LEAST - 1 or first < 1 or stop - at < 3:
        return None
    if first == 1 and describe_column(0, rows[at][0]).channel == "displacement":
        return None  # forces over travel: each row is no setting
    if any("@" in name and re.search(r"\d", name) for name in rows[at][:first]):
        return None  # forces at speeds in a direction of no known name
    body, sides = rows[at + 1 : stop], [{"Direction": speed.way} if speed.way else {} for speed in speeds]
    labels = [row[:first] for row in body]
    keys = row_keys(rows[at][:first], labels)
    keys = keys if any("Direction" in one for one in (*keys, *sides)) else with_ways_of_clicks(keys)
    if not any("Direction" in one for one in (*keys, *sides)) and (titled := _way_of_forces(above)):
        sides = [{"Direction": titled}] * len(speeds)
    names = list(dict.fromkeys(name for one in (*keys, *sides) for name in one))
    unit = _speed_unit(speeds, lines[:at], lines[stop:])
    stated = next((s.force_unit for s in speeds if s.force_unit), "") or _force_unit(labels)
    force_unit = f" [{stated}]" if stated else ""
    numbers = _numbers(speeds, [cell for row in body for cell in row[first:]])
    long = [
        "\t".join([*((key | side).get(name, "") for name in names), number, force])
        for key, row in zip(keys, body, strict=True)
        for number, side, force in zip(numbers, sides, row[first:], strict=True)
        if not is_missing(force)
    ]
    said = [name for name in (*rows[at][:first], *beyond) if name and name not in names]
    head = "\t".join([*names, f"Velocity{unit}" if unit else "speeds across the top", f"Force{force_unit}"])
    # Sections of a table stand below one another, each under its title; titles are words, no cells.
    return [*lines[:at], *said, head, *long, "", *(with_speeds_down(lines[stop:]) or lines[stop:])]


def _speed_unit(speeds: Sequence[_Speed], above: Sequence[str], below: Sequence[str]) -> str:
    """Return the unit of speeds in brackets: a speed's own, else the one that lines above state, or words below."""
    words = [line for line in below if not any(c.isdigit() for c in line)]
    said = _speed_units(above) or _speed_units(words)
    of_all = said[0] if len(said) == 1 and not any(s.unit for s in speeds) else ""
    return next((f" [{u}]" for u in (*(s.unit for s in speeds), of_all) if u), "")


def _numbers(speeds: Sequence[_Speed], forces: Sequence[str]) -> list[str]:
    """Return the numbers of speeds, their decimal mark as the forces have it."""
    pointed = _have_points(forces)
    return [s.number.replace(",", ".") if pointed else s.number for s in speeds]


def _have_points(cells: Sequence[str]) -> bool:
    """Whether the decimals of numbers stand behind points, as a sheet's do whatever the words of its heads write."""
    return any(_POINTED.fullmatch(cell) for cell in cells) and not any("," in cell for cell in cells)


def _without_beyond(rows: Sequence[Sequence[str]], at: int) -> tuple[Sequence[Sequence[str]], Sequence[str]]:
    """Return the rows without the columns beyond the speeds of their head, such as marks given, and these's names."""
    names = rows[at]
    if not names or "/s" not in "".join(names) or _speed(names[-1]) is not None:
        return rows, ()
    last = max((k for k, name in enumerate(names) if (speed := _speed(name)) and speed.marked), default=-1)
    if last < ACROSS_LEAST or len(names) - 1 - last > _MOST_BEYOND:
        return rows, ()
    return [row[: last + 1] if len(row) == len(names) else row for row in rows], names[last + 1 :]


def _with_units_below(names: Sequence[str], below: Sequence[str]) -> list[str] | None:
    """Return names of speeds with the units of force that stand below them in brackets; None where none do."""
    if len(below) != len(names):
        return None
    speeds = [_speed(name) is not None for name in names]
    units = [unit for unit, speed in zip(below, speeds, strict=True) if speed]
    if len(units) < ACROSS_LEAST - 1 or not all(is_unit(unit, "force") for unit in units):
        return None
    return [f"{name} ({unit})" if speed else name for name, unit, speed in zip(names, below, speeds, strict=True)]


class _Corner(NamedTuple):
    """What the first cell says of the rows and of the columns: "Clicks \\ speed [mm/s]"."""

    rows: str
    speeds: str


def _corner(cell: str) -> _Corner | None:
    """Return the two names in a table's corner, the second of them of speeds in a unit; None where it holds no two."""
    down, mark, across = (text.strip() for text in cell.partition("\\"))
    across = f"Speed [{across}]" if is_unit(across.strip("[]() "), "velocity") else across
    return _Corner(down, across) if mark and down and _speaks_of_speeds(across) else None


def _speeds(cells: Sequence[str], above: Sequence[str]) -> list[_Speed]:
    """Return the speeds at the end of a line, none where it ends in none; bare numbers only where a line says so."""
    found: list[_Speed] = []
    words = frozenset(
        word for cell in cells if _NUMBER.search(cell) and (word := re.split(r"[\s@]", cell)[0].lower()).isalpha()
    )
    for cell in reversed(cells):
        speed = _speed(cell, words)
        if speed is None:
            break
        found.insert(0, speed)
    # Beside a column of speeds "Rebound @ 4" is a click.
    beside = any(describe_column(0, cell).channel == "velocity" for cell in cells[: len(cells) - len(found)])
    if beside and not any(s.unit for s in found):
        return []
    told = all(s.marked for s in found) or _are_lettered(found, above) or _are_bare_speeds(found, len(cells), above)
    return found if told else []


def _are_lettered(found: Sequence[_Speed], above: Sequence[str]) -> bool:
    """Whether "C50", "C100", "R50", "R100" are directions and speeds.

    More than clicks go, parts of one, or with their unit in a line.
    """
    sides: dict[str, list[float]] = {}
    for speed in found:
        sides.setdefault(speed.way, []).append(float(speed.number.replace(",", ".")))
    if "" in sides or len(found) < ACROSS_LEAST or any(s.marked for s in found):
        return False
    rising = all(len(v) >= 2 and all(a < b for a, b in pairwise(v)) for v in sides.values())
    numbers = [number for side in sides.values() for number in side]
    no_clicks = max(numbers) > MOST_CLICKS or any(number % 1 for number in numbers)
    return rising and (no_clicks or bool(_speed_units(above)))


def _are_bare_speeds(found: Sequence[_Speed], width: int, above: Sequence[str]) -> bool:
    """Whether bare numbers are speeds: they rise, and a line above that heads no table speaks of speeds."""
    right_above = bool(above) and _speaks_of_speeds(above[-1])
    if len(found) < (ACROSS_LEAST if right_above else ACROSS_LEAST + 1) or any(s.marked for s in found):
        return False
    values = [float(s.number.replace(",", ".")) for s in found]
    heads = any(len(split_cells(line, mark)) == width for line in above for mark in _MARKS)
    return not heads and all(a < b for a, b in pairwise(values)) and any(map(_speaks_of_speeds, above))


@lru_cache(maxsize=1024)
def _speed(cell: str, beside: frozenset[str] = frozenset()) -> _Speed | None:
    """Return the speed that a cell states; among `beside`, the words of all cells, a letter may be a direction."""
    numbers = _NUMBER.findall(cell)
    if len(numbers) != 1:
        return None
    before, _, after = cell.partition(numbers[0])
    words = [w for w in re.split(r"[\s@=()\[\]:]+", f"{before} {after}") if w]
    unit = next((w for w in words if is_unit(w, "velocity")), "")
    force_unit = next((w for w in words if is_unit(w, "force") and len(words) > 1), "")
    rest = [w for w in map(plain, words) if w and w not in _BESIDE and w not in (plain(unit), plain(force_unit))]
    way = (direction_of(" ".join(rest)) or direction_among(" ".join(rest), beside)) if rest else ""
    if not unit and _CLICKED.search(plain(cell)):
        return None
    marked = bool(unit) or "@" in cell
    way = "bump" if marked and rest == ["b"] else way
    lettered = _LETTERED.fullmatch(_FORCE_UNIT.sub("", cell) if force_unit else cell)
    if way is None or (rest and not marked and not lettered):
        return None
    if clicks_of(cell) and not marked and not lettered:
        return None
    return _Speed(numbers[0].replace("−", "-"), unit, way, force_unit, marked)


def _speed_units(lines: Sequence[str]) -> list[str]:
    """Return the units of velocity that lines hold, each once."""
    words = (w for line in lines for w in re.split(r"[\s,;:()\[\]]+", line) if w)
    return list(dict.fromkeys(w for w in words if is_unit(w, "velocity")))


def _speaks_of_speeds(line: str) -> bool:
    """Whether a line names speeds and their unit."""
    words = plain(line).split()
    named = any(w in CHANNEL_WORDS["velocity"] or w.removesuffix("s") in CHANNEL_WORDS["velocity"] for w in words)
    return named and any(is_unit(w, "velocity") for w in re.split(r"[\s,;:()\[\]]+", line) if w)


def _force_unit(labels: Sequence[Sequence[str]]) -> str:
    """Return the one unit of force in brackets among the labels of the rows, as in "Comp (N)"; empty where none is."""
    found = {
        u for row in labels for cell in row for u in re.findall(r"[\[(]([^\])]+)[\])]", cell) if is_unit(u, "force")
    }
    return found.pop() if len(found) == 1 else ""


def _way_of_forces(above: Sequence[str]) -> str:
    """Return the direction that the line above names alone, or lines beside a word for force; empty where none."""
    title = plain(
        re.sub(r"[\[(].{0,99}?[\])]", " ", next((line for line in reversed(above) if line.strip()), ""))
    ).split()
    if title and len(title) <= 3 and direction_of(title[0]) and (way := direction_of(" ".join(title))):
        return way
    said = [words for line in above if CHANNEL_WORDS["force"] & set((words := plain(line)).split())]
    found = {way for words in said for word in words.split() if (way := direction_of(word))}
    return found.pop() if len(found) == 1 else _way_of_title(above)


def _way_of_title(above: Sequence[str]) -> str:
    """Return the direction that ends the title of a table, what stands in brackets aside; empty where none does.

    >>> _way_of_title(["Damper 5519 - rebound (compression 10 clicks)", "forces in N"]), _way_of_title(["Rebound 4"])
    ('rebound', '')
    """
    bare = (plain(re.sub(r"[\[(].{0,99}?[\])]", " ", line)) for line in above)
    found = {way for words in bare if words and (way := direction_of(words.split()[-1]))}
    return found.pop() if len(found) == 1 else ""


def _is_row(cells: Sequence[str], first: int, width: int) -> bool:
    """Whether cells are a row of forces behind words or numbers of a setting."""
    if len(cells) != width:
        return False
    forces = [c for c in cells[first:] if not is_missing(c)]
    return bool(forces) and all(map(is_any_number, forces))
