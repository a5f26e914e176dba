"""A small table with bare numbers across its top that can only be speeds, or with titles between its rows."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from importers.assumptions.tables import ACROSS_LEAST, SPEEDS_APART
from importers.assumptions.words import MOST_CLICKS
from importers.grid import is_any_number, split_cells
from importers.header import describe_column
from importers.patterns import regex
from importers.words.adjusters import adjuster_of
from importers.words.clicks import clicks_of
from importers.words.directions import direction_of
from importers.words.keys import ONE_KNOB
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

_BRACKETED = regex(r"[\[(].{0,99}?[\])]")
_SPEED = regex(r"(?:v @ )?\d+(?:[.,]\d+)?\s*(?P<unit>\D+)")


def with_speeds_marked(lines: Sequence[str], mark: str) -> Sequence[str]:
    """Return the lines with "v @ 50 mm/s" for each bare speed across a table's top, and that line below each title.

    Bare numbers are speeds where they rise beyond any clicks, the forces below them too, and the rows begin with
    clicks, words for a direction, or numbers as small as clicks. Their unit, or that of force, may stand in the corner.
    """
    out = list(lines)
    rows = [split_cells(line, mark) for line in lines]
    for at in range(len(rows)):
        last = rows[at][-1] if len(rows[at]) > ACROSS_LEAST else ""
        if last and not last[-1].isdigit() and is_unit(last, "velocity"):
            rows, out = _without_unit_behind(rows, out, at, mark)
    named = next((at for at, row in enumerate(rows) if len(row) > ACROSS_LEAST and _names_columns(row)), len(rows))
    for at in range(min(named, len(lines) - 2)):
        if len(rows[at]) > ACROSS_LEAST and (speeds := _speeds(rows, at, mark)):
            out[at] = mark.join(speeds)
    for at in range(len(out) - 2):
        cells = split_cells(out[at], mark)
        if len(cells) > ACROSS_LEAST and all(map(_is_speed, cells[1:])) and _is_title(rows[at + 1]):
            below = (other for k in range(at + 1, len(out)) for other in
                     ((out[k].strip(f"{mark} "), out[at]) if _is_title(rows[k]) else (out[k],)))  # fmt: skip
            return [*out[:at], *below]
    return out


def _names_columns(cells: Sequence[str]) -> bool:
    """Whether cells name a speed and forces: below them "C", as a row is called, heads no speeds."""
    if not all(any(map(str.isalpha, cell)) for cell in cells[1:]):
        return False
    columns = [describe_column(k, cell) for k, cell in enumerate(cells)]
    return any(c.channel == "velocity" for c in columns) and any(c.channel == "force" or c.direction for c in columns)


def _without_unit_behind(
    rows: list[list[str]], lines: list[str], at: int, mark: str
) -> tuple[list[list[str]], list[str]]:
    """Return rows and lines with the unit of speeds that stands behind them, "0.05;0.1;m/s", at each of them."""
    corner, *speeds, unit = rows[at]
    if not all(map(is_any_number, speeds)):
        return rows, lines
    width = len(rows[at])
    fuller = [row[:-1] if len(row) == width and not row[-1] else row for row in rows]
    fuller[at] = [corner, *(f"v @ {cell} {unit}" for cell in speeds)]
    changed = [mark.join(new) if new != old else line for new, old, line in zip(fuller, rows, lines, strict=True)]
    return fuller, changed


def rows_called_by_numbers(lines: Sequence[str], rewritten: Sequence[str]) -> str:
    """Return the warning of a table's rows that numbers alone call; empty where words, or nothing, did."""
    if any(plain(cell) == "run" for line in lines for cell in line.split("\t")):
        return ""
    found: list[str] = []
    at = -1
    for cells in (line.split("\t") for line in rewritten):
        if cells[-1].startswith("Force"):
            at = cells.index("Run") if "Run" in cells else -1
        elif 0 <= at < len(cells) - 1 and cells[at].isdecimal():
            found.append(cells[at])
    names = ", ".join(f"'{one}'" for one in dict.fromkeys(found))
    return (
        f"the rows are called {names}, and no line says of what these numbers are: taken as names of runs; where they"
        " are clicks, write them like 'C 4' and 'R 6'"
        if found
        else ""
    )


def _speeds(rows: Sequence[Sequence[str]], at: int, mark: str) -> list[str]:
    """Return a line of bare speeds with a mark and their units, the corner cell first; empty where it is none."""
    corner, *across = rows[at]
    if not all(map(is_any_number, across)):
        return []
    speeds = [_number(cell) for cell in across]
    far = speeds[0] > 0 and speeds[-1] > max(MOST_CLICKS, SPEEDS_APART * speeds[0])
    if not far or not all(a < b for a, b in pairwise(speeds)):
        return []
    below = [row for row in rows[at + 1 :] if not _is_title(row)]
    body = below[: next((k for k, row in enumerate(below) if not _is_row(row, len(rows[at]))), len(below))]
    unit, force = _corner(corner)
    if len(body) < 2 or unit is None or not all(map(_rises, body)):
        return []
    beside = f" {unit}" * bool(unit) + f" ({force})" * bool(force)
    return ["" if unit or force else corner, *(f"v @ {cell}{beside}" for cell in across)]


def _corner(cell: str) -> tuple[str | None, str]:
    """Return the unit of speeds and that of forces which a table's corner states, each empty where it states none.

    The first is None where the corner holds something else.
    """
    column = describe_column(0, cell)
    if is_unit(cell.strip("[]() "), "velocity"):
        return cell.strip("[]() "), ""
    if column.channel == "force":
        return "", column.unit
    clicks = not cell or plain(cell) in ONE_KNOB or adjuster_of(plain(cell)) is not None
    return ("" if clicks else None), ""


def _is_row(cells: Sequence[str], width: int) -> bool:
    """Whether cells are forces behind clicks, a word for a direction, or a number as small as clicks."""
    if len(cells) != width or not all(map(is_any_number, cells[1:])):
        return False
    first = cells[0]
    return (first.isdecimal() and int(first) <= MOST_CLICKS) or bool(clicks_of(first)) or _way(first) is not None


def _rises(cells: Sequence[str]) -> bool:
    forces = [abs(_number(cell)) for cell in cells[1:]]
    return forces[-1] > forces[0] and all(a <= b for a, b in pairwise(forces))


def _number(cell: str) -> float:
    """Return a number; not-a-number of one with marks that group its digits, which no such table holds."""
    try:
        return float(cell.replace("−", "-").replace(",", "."))
    except ValueError:
        return float("nan")


def _is_speed(cell: str) -> bool:
    match = _SPEED.fullmatch(cell)
    return cell.startswith("v @ ") or (match is not None and is_unit(match["unit"].strip(), "velocity"))


def _is_title(cells: Sequence[str]) -> bool:
    """Whether a line is one cell that names a direction."""
    said = [cell for cell in cells if cell]
    return len(said) == 1 and _way(said[0]) is not None and not any(c.isdigit() for c in said[0])


def _way(text: str) -> str | None:
    bare = plain(_BRACKETED.sub(" ", text))
    return direction_of(bare) or direction_of(" ".join(w for w in bare.split() if not w.isdigit()))
