"""Columns that a file lists in its preamble, one a line, such as "Column 2: Force [N]"."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from importers.grid import CellGrid
from importers.header.column import describe_column
from importers.header.header import Header, NearLines
from importers.header.line_cells import padded
from importers.patterns import regex
from importers.words.keys import UNITS
from importers.words.spelling import plain, word_set
from importers.words.unit_text import is_unit

_LISTED = regex(
    r"(?i)^\W*(?:column|col\.?|channel|ch|chan|spalte|kanal|colonne"
    r"|canal|voie|columna|colonna|canale|field|feld)\s*#?(\d{1,2})\s*[:=).-]*\s*(.+)$"
)
#: a label that such a line explains
_LABEL = r"(?:column|col|channel|ch|chan|spalte|kanal|canal|voie|columna|colonna|canale|feld|sig|ai)\W*(\d{1,2})"
#: what begins with a label
_LABELLED = regex(r"(?i)\W*" + _LABEL + r"\b")
#: the line over a list of the columns
_SECTION = regex(
    r"(?i)\[\s*(?:channels?|columns?|signals?|variables?|fields?|kan[aä]le|spalten|canaux|voies|canales|canali"
    r"|colonnes)\s*\]"
)

#: over the names in a table of channels
_NAME_HEADS = word_set(
    "name, channel name, signal, signal name, description, label, bezeichnung, kanalname, messgrosse, nom, designation,"
    " nombre, nome, variable, quantity, grandeur, magnitud, grandezza, naam, navn, namn, sensor, channel, kanal"
)


class ListedChannels(NamedTuple):
    """Columns that a file lists in its preamble, one a line: "Column 2: Force [N]"."""

    names: Mapping[int, str]  #: by the number that stands there
    lines: frozenset[int]  #: in which lines they stand


def listed_channels(above: Sequence[str]) -> ListedChannels:
    """Return the columns that lines list; none where a single line does, or nothing known is listed."""
    found = _of_table(above) or _of_section(above) or _of_sections(above) or _of_lines(above)
    known = found is not None and any(describe_column(0, _with_brackets(name)).known for name in found.names.values())
    return found if found is not None and known and len(found.names) >= 2 else ListedChannels({}, frozenset())


def _of_table(above: Sequence[str]) -> ListedChannels | None:
    """Return the columns that stand a row each in a table of channels: "No,Name,Unit" over "1,Time,s"."""
    for mark in ";\t|,":
        if not any(mark in line for line in above):
            continue
        rows = [[c.strip().strip('"') for c in line.strip().split(mark)] for line in above]
        for at, cells in enumerate(rows):
            if len(cells) < 2:
                continue
            heads = [plain(c) for c in cells]
            name = next((k for k, head in enumerate(heads) if head in _NAME_HEADS), None)
            unit = next((k for k, head in enumerate(heads) if head in UNITS), None)
            if name is None or unit is None:
                continue
            stop = next((i for i in range(at + 1, len(rows)) if len(rows[i]) != len(cells)), len(rows))
            names = {k + 1: f"{row[name]};{row[unit]}" for k, row in enumerate(rows[at + 1 : stop])}
            return ListedChannels(names, frozenset(range(at, stop)))
    return None


def _of_section(above: Sequence[str]) -> ListedChannels | None:
    """Return the columns that stand a line each under "[Channels]", numbered or in their order."""
    start = next((i for i, line in enumerate(above) if _SECTION.fullmatch(line.strip())), None)
    if start is None:
        return None
    stop = next((i for i in range(start + 1, len(above)) if above[i].lstrip().startswith("[")), len(above))
    lines = [i for i in range(start + 1, stop) if above[i].strip()]
    numbered = [re.fullmatch(r"\D{0,12}?(\d{1,2})\s*[=:);,\t|]\s*(.+)", above[i].strip()) for i in lines]
    names = {int(m[1]): m[2] for m in numbered if m}
    if len(names) != len(lines):
        names = {k + 1: above[i].strip() for k, i in enumerate(lines)}
    return ListedChannels(names, frozenset((start, *lines)))


def _of_sections(above: Sequence[str]) -> ListedChannels | None:
    """Return the columns that stand in a section each: "[Channel 1]" over "Name=Time" and "Unit=s"."""
    names: dict[int, list[str]] = {}
    used, number = set(), None
    for i, line in enumerate(above):
        if line.lstrip().startswith("["):
            match = re.fullmatch(r"\[\s*" + _LABEL + r"\s*\]", line.strip().lower())
            number = int(match[1]) if match else None
        elif number is not None and (said := re.match(r"(?i)\s*(name|units?|einheit)\s*[=:]\s*(.+)", line)):
            names.setdefault(number, []).append(said[2].strip())
        if number is not None:
            used.add(i)
    return ListedChannels({k: ";".join(said) for k, said in names.items()}, frozenset(used)) if names else None


def _of_lines(above: Sequence[str]) -> ListedChannels | None:
    matches = {i: m for i, line in enumerate(above) if (m := _LISTED.match(line))}
    # "Ch0,Ch1,Ch2" is a line of labels, no label and its name.
    found = {i: m for i, m in matches.items() if not _LABELLED.match(m[2])}
    return ListedChannels({int(m[1]): m[2].strip().strip("\"'") for m in found.values()}, frozenset(found))


def lists_more(listed: ListedChannels, cells: Sequence[str], width: int) -> bool:
    """Whether a list names each column of a table, and more of them in known words than a line above it does."""
    first = min(listed.names, default=0)
    if first > 1 or {*listed.names} != {*range(first, first + width)}:
        return False
    columns = (describe_column(0, _with_brackets(name)) for name in listed.names.values())
    others = (describe_column(0, cell) for cell in cells if cell and not re.fullmatch(_LABEL, plain(cell)))
    measured, by_line = (sum(bool(c.channel or c.direction) for c in some) for some in (columns, others))
    return measured > by_line


def listed_header(above: Sequence[str], grid: CellGrid, near: NearLines, listed: ListedChannels) -> Header | None:
    """Return the header of a file that lists its columns: by their labels in a line of names, else by their place."""
    if not listed.names:
        return None
    used = frozenset[str]()
    for at in reversed([i for i in near.at if i not in listed.lines]):
        labels = {k: int(m[1]) for k, c in enumerate(near.cells[at]) if (m := re.fullmatch(_LABEL, plain(c)))}
        if len(labels) >= 2 and set(labels.values()) <= set(listed.names):
            cells = padded(near.cells[at], grid.width)
            names = [listed.names[labels[k]] if k in labels else cell for k, cell in enumerate(cells)]
            used = frozenset({above[at].strip()})
            break
    else:
        base = 0 if 0 in listed.names else 1
        names = [listed.names.get(k + base, "") for k in range(grid.width)]
    columns = tuple(describe_column(k, _with_brackets(name)) for k, name in enumerate(names))
    said = (line for i, line in enumerate(above) if i not in listed.lines and line.strip())
    return Header(columns, tuple(line for line in said if line.strip() not in used), used)


def _with_brackets(name: str) -> str:
    """Return a listed name with its unit in brackets where it stands behind a mark."""
    parts = [part.strip() for part in re.split(r"[;|\t,]", name) if part.strip()]
    return f"{parts[0]} [{parts[1]}]" if len(parts) >= 2 and is_unit(parts[1]) else name
