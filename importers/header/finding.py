"""Which of the lines above a table's rows name its columns, state their units, group them; what is left is preamble."""

from __future__ import annotations

import re
from collections.abc import Sequence, Set
from dataclasses import replace

from importers.assumptions.header import HEADER_REACH, MEASURE_WORTH, NAME_WORTH, NAMES_REACH, UNITS_REACH
from importers.grid import BLANKS, CellGrid, is_number, split_cells
from importers.header.column import describe_column
from importers.header.groups import group_line, grouped_columns, is_setting, under_groups
from importers.header.header import Header, NearLines
from importers.header.line_cells import header_cells, padded
from importers.header.listed import listed_channels, listed_header, lists_more
from importers.header.settings_table import settings_tables
from importers.patterns import regex
from importers.words.adjusters import CLICK_WORD, HIGH, LOW
from importers.words.clicks import clicks_of
from importers.words.directions import direction_of
from importers.words.spelling import plain
from importers.words.unit_text import is_unit, kinds_of

#: what stands in a line of units and is no unit of a channel
_BESIDE_UNITS = frozenset(("rpm", "hz", "1", "%", "v", "n/a", "text", "#", "g"))
#: what counts the rows beside columns that are called by their units alone
_COUNTERS = frozenset(("sample", "samples", "sample no", "index", "idx", "no", "nr", "point", "row", "line", "scan"))

_MOTIONS = frozenset(("velocity", "displacement", "time"))
_LONGEST_AMOUNT = 80  #: [characters]
_SENTENCE = 6  #: words that it has at the least
_RELATED = regex(
    r"(?i)(\S{1,8}?)(?:\s*[,&]\s*|\s+(?:vs?\.?|versus|against|over|by|and|gegen|[uü]ber|und|contre|et|contra|y|e)\s+)(\S{1,8})"
)
_NUMBER = regex(r"\d+(?:[.,]\d+)?")
#: one amount behind its name: "SHAFT TEMP: 88 F"
_AMOUNT = regex(
    r"\W*(?P<key>[^\W\d_][^:=,;|\d]{0,40}?)\s*[:=][\s,;|]*[-+]?\d+(?:[.,]\d+)?[\s,;|]*(?P<unit>[^\d:=,;|]{1,8}?)[\s,;|]*"
)
#: a click position as a column's name: "8 clicks"
_CLICK = regex(rf"\d{{1,2}}\s*{CLICK_WORD}")
_POSITION = regex(r"\d{1,2}")
_POSITIONS_LEAST = 2  #: under each direction, for bare numbers to be click positions


def find_header(above: Sequence[str], grid: CellGrid, first_row: str = "") -> Header:
    """Return the header in the lines above a body; `found` is False where no line names a column."""
    aside = {i for table in settings_tables(above) for i in range(table.names_at, table.values_at + 1)}
    blanks = grid.delimiter == BLANKS
    said = {
        i
        for i, line in enumerate(above)
        if (blanks and (_states_setting(line) or _relates_units(line))) or _is_sentence(line)
    }
    at = [i for i in range(len(above)) if above[i].strip() and i not in aside | said][-HEADER_REACH:]
    near = NearLines(at, {i: header_cells(above[i], grid, first_row) for i in at})
    units_at = next((i for i in reversed(at) if _is_units(near.cells[i])), None)
    listed = listed_channels(above)
    names_at = _clicks_below(near, _names_line(near, above, grid.width, {units_at, *listed.lines}))
    if (
        names_at is None
        or _heads_units(near, names_at, units_at)
        or lists_more(listed, near.cells[names_at], grid.width)
    ):
        return listed_header(above, grid, near, listed) or _nameless(above, grid, near, units_at)
    if units_at is not None and abs(at.index(units_at) - at.index(names_at)) > UNITS_REACH:
        units_at = None
    group_at = group_line(near, names_at)
    way_at = next((i for i in at if i > names_at and i != units_at and _only_directions(near.cells[i])), None)
    speed_at = next((i for i in at if i == names_at + 1 and _only_speeds(near.cells[i])), None)
    names = _names(near, names_at, group_at, way_at, grid.width)
    if speed_at is not None:
        names = _with_below(names, padded(near.cells[speed_at], grid.width))
    second_at = None if {group_at, way_at, units_at, speed_at} != {None} else _second_row(near, names_at, grid.width)
    if second_at is not None:
        names = _over_one_another(near, names_at, second_at)
    units, over = (padded(near.cells[i], grid.width) if i is not None else [""] * grid.width
                   for i in (units_at, group_at))  # fmt: skip
    used = {i for i in (names_at, second_at, units_at, group_at, way_at, speed_at) if i is not None}
    return Header(
        columns=grouped_columns(names, units, over),
        preamble=tuple(line for i, line in enumerate(above) if i not in used and line.strip()),
        lines=frozenset(above[i].strip() for i in used),
        units_row=units_at is not None,
        cells=max(len(near.cells[i]) for i in (names_at, way_at) if i is not None),
    )


def _is_sentence(line: str) -> bool:
    """Whether a line is a sentence of words, which names no columns: it ends with a full stop behind a longer word."""
    ended = line.strip()
    return ended.endswith(".") and len(line.split()) >= _SENTENCE and re.search(r"[^\W\d_]{4,}\.$", ended) is not None


def _states_amount(line: str) -> bool:
    """Whether a line is one name of words with one amount in a unit, which names no columns: "SHAFT TEMP: 88 F"."""
    found = _AMOUNT.fullmatch(line.strip()) if len(line) <= _LONGEST_AMOUNT else None
    return found is not None and is_unit(found["unit"])


def _relates_units(line: str) -> bool:
    """Whether a line is the units of two channels and a word between, "in/sec vs lbs": no names, nor a unit each."""
    found = _RELATED.fullmatch(line.strip())
    return found is not None and kinds_of(found[1]) != kinds_of(found[2]) and all(map(kinds_of, found.groups()))


def _states_setting(line: str) -> bool:
    """Whether a line of words set apart by blanks is clicks, each adjuster's once, and names no motion."""
    clicks = clicks_of(line)
    once = len(clicks) == len(_NUMBER.findall(line)) and (len(clicks) > 1 or ":" in line)
    return bool(clicks) and once and not any(describe_column(0, w).channel in _MOTIONS for w in line.split())


def _names(near: NearLines, names_at: int, group_at: int | None, way_at: int | None, width: int) -> list[str]:
    """Return the columns' names, each with its group above and its direction below."""
    names = padded(near.cells[names_at], width)
    if group_at is not None:
        names = under_groups(padded(near.cells[group_at], width), names)
    if way_at is not None:
        names = _with_below(names, padded(near.cells[way_at], width))
    return names


def _with_below(names: Sequence[str], below: Sequence[str]) -> list[str]:
    """Return names with the direction or speed below each; a name stands over those up to the next name."""
    out, over = [], ""
    for name, word in zip(names, below, strict=True):
        over = name or over
        out.append(f"{over} {word}" if word else name)
    return out


def _second_row(near: NearLines, names_at: int, width: int) -> int | None:
    """Return the line next to the names that says more together with them: names in two rows."""
    at = near.at.index(names_at)
    for other in near.at[max(at - 1, 0) : at] + near.at[at + 1 : at + 2]:
        cells = near.cells[other]
        if abs(other - names_at) != 1 or not len(cells) == len(near.cells[names_at]) == width or ":" in "".join(cells):
            continue
        if is_setting(cells, near.cells[names_at]):
            continue
        if _worth(_over_one_another(near, names_at, other)) > _worth(near.cells[names_at]):
            return other
    return None


def _over_one_another(near: NearLines, first: int, second: int) -> list[str]:
    """Return the names that two lines make, the upper one's words first."""
    upper, lower = near.cells[min(first, second)], near.cells[max(first, second)]
    return [f"{a} {b}".strip() for a, b in zip(upper, lower, strict=True)]


def _worth(names: Sequence[str]) -> tuple[int, int]:
    """Return how many different quantities with their units names give, and how few of them by the unit alone."""
    columns = [describe_column(0, name) for name in names]
    measured = {(c.channel, c.direction) for c in columns if c.channel and c.unit}
    return len(measured), -sum(c.by_unit for c in columns)


def _names_line(near: NearLines, above: Sequence[str], width: int, aside: Set[int | None]) -> int | None:
    """Return the line that names most columns, of those not aside; of equals the lowest."""
    scores = {
        i: _name_score(near.cells[i]) * min(1.0, len(near.cells[i]) / max(width, 1))
        for i in near.at
        if i not in aside and not _only_units(near.cells[i])
    }
    for i in sorted(scores, key=lambda i: (scores[i], i), reverse=True):
        if scores[i] <= 0:
            return None
        if not _states_amount(above[i]):
            return i
    return None


def _clicks_below(near: NearLines, names_at: int | None) -> int | None:
    """Return the line of click positions alone next below a line of names, which then groups them; else that line.

    Bare numbers are positions where each of the directions above stands over several of them.
    """
    below = next((i for i in near.at if names_at is not None and i > names_at), None)
    if below is None or names_at is None:
        return names_at
    clicks = [c for c in map(plain, near.cells[below]) if c]
    if len(clicks) >= 2 and all(map(_CLICK.fullmatch, clicks)):
        return below
    return below if _are_positions(near.cells[below], near.cells[names_at]) else names_at


def _are_positions(cells: Sequence[str], over: Sequence[str]) -> bool:
    """Whether cells are a name of speeds and, under two directions, as many whole numbers each as its columns."""
    ways = [(k, direction_of(plain(cell))) for k, cell in enumerate(over) if cell]
    numbers = [cell for cell in cells[1:] if cell]
    if len(ways) != 2 or {way for _, way in ways} != {"compression", "rebound"} or len(numbers) < 2 * _POSITIONS_LEAST:
        return False
    (first, _), (second, _) = ways
    spread = first == 1 and second - first >= _POSITIONS_LEAST and len(cells) - second >= _POSITIONS_LEAST
    return spread and len(numbers) == len(cells) - 1 and all(map(_POSITION.fullmatch, numbers))


def _name_score(cells: list[str]) -> float:
    if len([c for c in cells if c]) < 2:
        return 0.0
    columns = [describe_column(0, cell) for cell in cells if cell]
    measures = sum(c.channel is not None and not c.by_unit for c in columns)
    known = sum(c.known or _CLICK.fullmatch(plain(c.text)) is not None for c in columns)
    if known < 1 or (known < 2 and not measures):
        return 0.0
    return (known + MEASURE_WORTH * measures) / max(len(cells), 1) + NAME_WORTH * known


def _is_units(cells: list[str]) -> bool:
    some = [c for c in cells if c.strip("-–[]() ")]
    counted = [c for c in some if plain(c) not in _COUNTERS]
    if len(counted) < len(some) and len({kinds_of(c) for c in counted}) < 2:
        return False
    return len(counted) >= 1 and len(cells) >= 2 and all(is_unit(c) or plain(c) in _BESIDE_UNITS for c in counted)


def _only_units(cells: list[str]) -> bool:
    """Whether a line is units and nothing that could name a column, such as "s;mm;N"."""
    kinds = [kinds_of(c) for c in cells if c]
    return len(kinds) >= 3 and all(kinds) and len(set(kinds)) >= 2


def _heads_units(near: NearLines, names_at: int, units_at: int | None) -> bool:
    """Whether a line of directions stands over a fuller line of units, as the names of groups do."""
    if units_at is None or units_at < names_at or not _only_directions(near.cells[names_at]):
        return False
    return sum(map(bool, near.cells[names_at])) < sum(map(bool, near.cells[units_at]))


def _only_directions(cells: list[str]) -> bool:
    some = [c for c in cells if c]
    return len(some) >= 2 and all(direction_of(plain(c)) for c in some)


def _only_speeds(cells: Sequence[str]) -> bool:
    """Whether a line's few cells are all low or high speed, below the directions that they are adjusters of."""
    some = [plain(c) for c in cells if c]
    return len(some) >= 2 and all(re.fullmatch(rf"{LOW}|{HIGH}", c) for c in some)


def _nameless(above: Sequence[str], grid: CellGrid, near: NearLines, units_at: int | None) -> Header:
    lines = tuple(line for i, line in enumerate(above) if line.strip() and i != units_at)
    if units_at is None:
        at = near.at[-1] if near.at and _could_name(near.cells[near.at[-1]], grid) else None
        names = near.cells[at] if at is not None else [""] * grid.width
        columns = tuple(describe_column(k, name) for k, name in enumerate(names))
        own = frozenset() if at is None else frozenset({above[at].strip()})
        return Header(columns, tuple(line for line in lines if line.strip() not in own), own, found=False)
    cells = padded(near.cells[units_at], grid.width)
    group_at = group_line(near, units_at)
    if group_at is None:
        columns = tuple(
            describe_column(k, c) if plain(c) in _COUNTERS else replace(describe_column(k, "", c), text=c)
            for k, c in enumerate(cells)
        )
        return Header(columns, lines, frozenset({above[units_at].strip()}), units_row=True)
    over = padded(near.cells[group_at], grid.width)
    names = under_groups(over, [f"[{c}]" if c else "" for c in cells])
    columns = grouped_columns(names, [""] * grid.width, over)
    used = frozenset(above[i].strip() for i in (units_at, group_at))
    return Header(columns, tuple(line for line in lines if line.strip() not in used), used, units_row=True)


def _could_name(cells: Sequence[str], grid: CellGrid) -> bool:
    """Whether the cells above the rows could be names of columns, though none is known."""
    return len(cells) == grid.width == len(set(cells)) and all(c and not is_number(c, grid.decimal) for c in cells)


def names_columns(lines: Sequence[str]) -> bool:
    """Whether a line of a file without rows names columns."""
    return any(
        sum(describe_column(0, c).channel is not None for c in split_cells(line, mark)) >= 2
        for line in lines[:NAMES_REACH]
        for mark in ";\t|,"
    )
