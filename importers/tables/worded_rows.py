"""Rows in which words or marks of people set numbers apart: "25 mm/s: comp 142 N, reb 348 N", "25: 142/348"."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

from dynoan.model.importing import HEAD
from importers.assumptions.tables import TIDY_LINES, UNIT_CELL_LINES, WORDED_ROWS
from importers.grid import split_cells
from importers.header import describe_column
from importers.patterns import regex
from importers.words.directions import direction_among
from importers.words.unit_text import is_unit

_NUMBER = r"(?<![\w.,])[-+−]?\d+(?:[.,]\d+)*(?:[eE][-+]?\d+)?"
_NUMBERS = regex(_NUMBER)
_UNITS = (regex(r"\s?([^\W\d_]+\s?/\s?[^\W\d_]+)(?![\w/])"), regex(r"\s?([^\W\d_]+)(?!\w)"))
#: what stands before a message in the record of a chat
_STAMP = regex(
    r"\W?(?P<day>\d{1,4}[./-]\d{1,2}[./-]\d{2,4}),? \d{1,2}:\d{2}(?::\d{2})?(?: ?[AaPp]\.?[Mm]\.?)?\]?(?: -)?"
    r" [^:\d]{1,40}: "
)
_BOTH = {"compression", "rebound"}
_KINDS = ("velocity", "force", "length", "time")
#: what sets words and numbers apart
_BETWEEN = " \t:=,;/|>@&()-–"
_USUAL = frozenset((",", ";", "\t", "|", ""))


def with_words_as_names(lines: Sequence[str]) -> list[str] | None:
    """Return the lines of a small table with the words between its numbers as a line of names, its cells by tabs.

    None where cells stand as they usually do, or where the words name no force beside a motion.
    """
    if len(lines) > TIDY_LINES:
        return None
    lines = _without_stamps(lines)
    shapes = {at: shape for at, line in enumerate(lines) if (shape := _shape(line))}
    kinds = Counter(shapes.values()).most_common(1)
    if not kinds or kinds[0][1] < WORDED_ROWS or _is_usual(shape := kinds[0][0]):
        return None
    rows = [at for at, one in shapes.items() if one == shape]
    if _named_above(lines, rows[0]):
        return None
    found = _names(_parts(lines[rows[0]]), lines, rows)
    if found is None:
        return None
    names, head = found
    table = {at: "\t".join(_NUMBERS.findall(lines[at])) for at in rows}
    out = [table.get(at, line) for at, line in enumerate(lines) if at != head]
    above = rows[0] - (head is not None and head < rows[0])
    return [*out[:above], "", "\t".join(names), *out[above:]]  # a line of prose above names nothing


def _named_above(lines: Sequence[str], row: int) -> bool:
    """Whether the line above a row names a motion and a force over cells as many as the row's: its words are cells."""
    for mark in (";", "\t", "|", ","):
        names = split_cells(lines[row - 1], mark) if row else []
        if len(names) < 3 or len(names) != len(split_cells(lines[row], mark)):
            continue
        columns = [describe_column(k, name) for k, name in enumerate(names)]
        held = {c.channel for c in columns} | {"force" for c in columns if c.direction}
        if "force" in held and held & {"velocity", "displacement"}:
            return True
    return False


def with_words_above(data: bytes) -> bytes:
    """Return a long file's bytes with the words that stand before each number of its rows in one line above them."""
    stop = max(data.rfind(b"\n", 0, HEAD), 0)
    last = data[data.rfind(b"\n", 0, stop) + 1 : stop].decode("latin-1")
    if not _has_words(last) or len(lines := data[:stop].decode("latin-1").split("\n")) <= TIDY_LINES:
        return data
    kinds = {_shape(line) for line in lines[-UNIT_CELL_LINES:]}
    shape = kinds.pop()
    if kinds or _is_usual(shape) or (found := _names(_parts(lines[-1]), lines, [])) is None:
        return data
    first = next(at for at, line in enumerate(lines) if _shape(line) == shape)
    at = sum(len(line) + 1 for line in lines[:first])
    body = data[at:].decode("latin-1").split("\n")
    rows = ["\t".join(_NUMBERS.findall(line)) if _shape(line) == shape else line for line in body]
    return data[:at] + "\n".join(["\t".join(found[0]), *rows]).encode("latin-1")


def _without_stamps(lines: Sequence[str]) -> Sequence[str]:
    """Return the messages of a chat's record without when and by whom each was sent, under the day of the first."""
    found = [(line, _STAMP.match(line)) for line in lines if line.strip()]
    stamped = [match for _, match in found if match]
    if len(stamped) < WORDED_ROWS or not found[0][1]:
        return lines
    return [f"Date: {stamped[0]['day']}", *(line[match.end() :] if match else line for line, match in found)]


def _has_words(line: str) -> bool:
    return sum(c.isalpha() for c in line) >= 2 and any(c in line for c in ":=")


def _parts(line: str) -> tuple[str, ...]:
    """Return what stands before, between and behind a line's numbers; empty of fewer than two numbers."""
    parts = _NUMBERS.split(line.strip())
    return tuple(" ".join(part.split()) for part in parts) if len(parts) > 2 else ()


def _shape(line: str) -> tuple[str, ...]:
    """Return the parts of a line as all lines of its kind have them."""
    return tuple(part.lower() for part in _parts(line))


def _is_usual(shape: Sequence[str]) -> bool:
    return set(shape[1:]) <= _USUAL and not any(c.isalpha() for c in shape[0]) if shape else True


def _names(shape: Sequence[str], lines: Sequence[str], rows: Sequence[int]) -> tuple[list[str], int | None] | None:
    """Return the names of the numbers in rows of a shape, and the line that gives them where it is one of its own."""
    units, words = zip(*map(_unit_and_word, shape[1:]), strict=True)
    labels = list(words) if words[-1] else [shape[0].strip(_BETWEEN), *words[:-1]]
    head = None
    if not any(any(c.isalpha() for c in label) for label in labels):
        over = _over(shape, units, lines, rows)
        pair = _forces_apart(shape, units) if over is None else None
        if over is None and pair is None and (len(labels) > 2 or not all(units)):
            return None  # of two forces without a word nobody knows which is which
        labels, head = over if over is not None else (_in_order(lines, rows) if pair else labels, None)
        units = pair or units
    named = [_name(label, unit) for label, unit in zip(labels, units, strict=True)]
    ways = {describe_column(k, name).direction for k, name in enumerate(named)}
    if not named[0] and {"compression", "rebound"} <= ways:
        named[0] = "Speed"
    columns = [describe_column(k, name) for k, name in enumerate(named)]
    motion = any(c.channel in ("velocity", "displacement") for c in columns)
    force = any(c.channel == "force" or c.direction for c in columns)
    return (named, head) if motion and force else None


def _name(label: str, unit: str) -> str:
    """Return a column's name of a label, which may be a unit alone, and a unit; either may be empty."""
    if label and unit:
        return f"{label} [{unit}]"
    known = describe_column(0, label)
    alone = label if _is_unit(label) and known.channel is None and known.direction is None else ""
    return f"[{alone or unit}]" if alone or unit else label


def _is_unit(text: str) -> bool:
    return any(is_unit(text, kind) for kind in _KINDS)


def _unit_and_word(part: str) -> tuple[str, str]:
    """Return the unit that what follows a number begins with, if it does, and the word of the next number."""
    for pattern in _UNITS:
        match = pattern.match(part)
        if match and _is_unit(match[1]):
            if part[match.end() :] == "=":
                return "", match[1]  # "ms=0 mm=1.2" names what follows
            return match[1], part[match.end() :].strip(_BETWEEN)
    return "", part.strip(_BETWEEN)


def _forces_apart(shape: Sequence[str], units: Sequence[str]) -> tuple[str, ...] | None:
    """Return the units of "25 mm/s = 142 / 348 N", a speed and two forces; None of any other shape."""
    speed, *forces = units
    if len(units) != 3 or not is_unit(speed, "velocity") or shape[2].removeprefix(forces[0]).strip() not in ("/", "|"):
        return None
    unit = forces[1]
    return (speed, unit, unit) if (not unit or is_unit(unit, "force")) and forces[0] in ("", unit) else None


def _in_order(lines: Sequence[str], rows: Sequence[int]) -> list[str]:
    """Return names for a speed and two forces: the directions as one line has them, "Druck/Zug", else their places."""
    pairs = {found for at, line in enumerate(lines) if at not in rows for found in _directions_in(line)}
    return ["Speed", *pairs.pop()] if len(pairs) == 1 else ["Speed", "first", "second"]


def _directions_in(line: str) -> list[tuple[str, str]]:
    """Return the pairs of both directions that a stroke sets apart in a line: "comp / reb"."""
    found = re.findall(r"([^\W\d_]+)\s?[/|]\s?([^\W\d_]+)(?![\w/|])", line)
    return [(a, b) for a, b in found if {direction_among(a, {a, b}), direction_among(b, {a, b})} == _BOTH]


def _over(
    shape: Sequence[str], units: Sequence[str], lines: Sequence[str], rows: Sequence[int]
) -> tuple[list[str], int] | None:
    """Return the names in a line whose words stand apart as the numbers of the rows do, and which line it is."""
    marks = [part.removeprefix(unit).strip() for part, unit in zip(shape[1:-1], units, strict=False)]
    if not all(marks) or set(marks) <= _USUAL:
        return None
    for at, line in enumerate(lines):
        cells, rest = [], line.strip()
        rest = rest[1:-1] if rest.startswith("(") and rest.endswith(")") else rest
        for mark in marks:
            # "mm/s / N" is set apart by the stroke between blanks.
            cell, found, rest = next(
                (cut for cut in (rest.partition(f" {mark} "), rest.partition(mark)) if cut[1]), ("", "", "")
            )
            cells += [cell.strip()] if found else []
        cells.append(rest.strip())
        known = sum(describe_column(0, cell).known for cell in cells if cell)
        if at not in rows and len(cells) == len(marks) + 1 and known >= 2:
            return cells, at
    return None
