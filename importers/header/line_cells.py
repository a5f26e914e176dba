"""The cells of a header's line, which may be set otherwise than the rows below."""

from __future__ import annotations

import re

from importers.grid import BLANKS, CellGrid, split_cells
from importers.header.comments import uncomment
from importers.patterns import regex
from importers.words.channels import REMARKS
from importers.words.spelling import plain, word_set
from importers.words.unit_text import kinds_of

#: names of a column of words that few rows fill
_EVENTS = word_set(
    "event, events, mark, marker, marks, flag, flags, trigger, status, state, ereignis, marke, evento, evenement"
)
_ASIDE = REMARKS | _EVENTS
#: what calls a line one of names: "# columns: time_s pos_mm force_N"
_LABEL = regex(
    r"(?i)^(?:columns?|cols?|fields?|channels?|header|spalten|kan[aä]le|colonnes|columnas|colonne)\s*[:=]\s*"
)
_BRACKETS = regex(r"[\[({].+[\])}]")
_MARKS = (";", "\t", "|", ",")


def header_cells(line: str, grid: CellGrid, first_row: str) -> list[str]:
    """Return a header line's cells; none where it has more than the rows have.

    Parameters
    ----------
    line
        The line as it stood.
    grid
        How the cells of the rows stand.
    first_row
        The first row: where cells are set apart by blanks, names stand over their columns.
    """
    bare = _LABEL.sub("", uncomment(line))
    if grid.delimiter == BLANKS:
        return _blank_cells(bare, line, grid, first_row)
    cells = _trimmed(split_cells(bare, grid.delimiter), grid.width)
    if 2 <= len(cells) <= grid.width:
        return cells
    for other in _MARKS:
        cells = _trimmed(split_cells(bare, other), grid.width)
        if other != grid.delimiter and len(cells) == grid.width and len(cells) > 1:
            return cells
    whole = [c.strip() for c in re.split(re.escape(grid.delimiter) + r"(?![^(\[]{0,99}[)\]])", bare)]
    if len(whole) == grid.width:
        return whole  # marks within brackets set nothing apart: "Velocity (mm/s, + out)"
    return [] if len(cells) > grid.width else split_cells(bare, grid.delimiter)


def _trimmed(cells: list[str], width: int) -> list[str]:
    """Return cells without those beyond the width that name no column; a unit there, "(lbf)", is the last one's."""
    if len(cells) == width + 1 and width > 1 and cells[-2] and kinds_of(cells[-1].strip("[](){}")):
        last = f"{cells[-2]} ({cells[-1].strip('[](){}')})"
        return [*cells[:-2], last if not _BRACKETS.search(cells[-2]) else cells[-2]]
    while len(cells) > 1 and len(cells) > width and (not cells[-1] or plain(cells[-1]) in _ASIDE):
        cells.pop()
    return cells


def _blank_cells(bare: str, line: str, grid: CellGrid, first_row: str) -> list[str]:
    for other in (";", "|", ","):
        cells = [c for c in split_cells(bare, other) if c]
        if len(cells) == grid.width and len(cells) > 1:
            return cells
    for pattern in (r"\t+|\s{2,}", r"\s+(?![\s\[({<])", r"\s+"):
        cells = [" ".join(c.split()) for c in re.split(pattern, bare.strip()) if c]
        cells = _trimmed(cells, grid.width) if len(cells) == grid.width + 1 else cells
        if len(cells) == grid.width:
            return cells
    cells = [c.strip() for c in re.findall(r"[^\])}>]+[\[({<][^\])}>]*[\])}>]", bare)]
    return cells if len(cells) == grid.width else _by_position(line, first_row, grid.width)


def _by_position(line: str, first_row: str, width: int) -> list[str]:
    """Return the words of a header line, each put to the column of the body that it stands over."""
    centres = [(m.start() + m.end()) / 2 for m in re.finditer(r"\S+", first_row)]
    if len(centres) != width:
        return []
    cells = [""] * width
    for word in re.finditer(r"\S+", line):
        centre = (word.start() + word.end()) / 2
        at = min(range(width), key=lambda k: abs(centres[k] - centre))
        cells[at] = f"{cells[at]} {word[0]}".strip()
    return cells


def padded(cells: list[str], width: int) -> list[str]:
    """Return cells as many as the rows have."""
    return (cells + [""] * width)[:width]
