"""Which parts of a report begin a sheet of paper, and which go on below a short one."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from dynoan.show.pages.report.blocks import Block, Facts, Grid, OwnPlace, Picture, Section

ABOVE = 150.0  #: at most so much may stand above a part that goes on below it [mm]
SHEET = 235.0  #: of the 244 that Letter leaves between margins, what is counted on [mm]
#: as `report.css` prints them, from above [mm]
_HEADING, _LINE, _PICTURE, _FACTS, _CAPTION = 14.0, 4.5, 95.0, 13.0, 16.0
_ROW_LETTERS, _LINE_LETTERS, _ACROSS = (
    110,
    95,
    4,
)  #: letters of a table's row and of a sentence in a line; facts abreast


@dataclass(frozen=True)
class Placed:
    """A section with the number of the part that its sheet is numbered by."""

    section: Section
    number: int
    within: bool  #: whether it goes on below another


def placed(shown: Sequence[Section], last: str) -> tuple[tuple[Placed, ...], Placed]:
    """Return each section with its part, and what ends the report with its own.

    A section begins a sheet, so that the contents can name it, or goes on where those above it on a sheet are short:
    then it begins on the same one. What stands first shares its sheet with the contents and with nothing else.
    """
    out: list[Placed] = []
    above = math.inf
    for section in (*shown, Section("cautions", last)):
        within = above <= ABOVE and above + beginning(section) <= SHEET
        number = (out[-1].number if out else 0) + (not within)
        above = (above if within else 0.0) + height(section) if out else math.inf
        out.append(Placed(section, number, within))
    return tuple(out[:-1]), out[-1]


def height(section: Section) -> float:
    """Return how high a section is at most in print. [mm]"""
    return _HEADING + sum(map(_block, section.blocks))


def beginning(section: Section) -> float:
    """Return how much of a section stands together at its beginning in print: its heading is never alone. [mm]"""
    first = section.blocks[0] if section.blocks else None
    if isinstance(first, Grid):
        return _HEADING + _CAPTION + 8 * _LINE  # a table is not broken before its third row
    return _HEADING + (0.0 if first is None else _block(first))


def _block(block: Block) -> float:
    if isinstance(block, Picture):
        return _PICTURE
    if isinstance(block, Facts):
        return _FACTS * math.ceil(len(block.pairs) / _ACROSS)
    if isinstance(block, Grid):
        rows = sum(math.ceil(sum(len(cell) + 2 for cell in row) / _ROW_LETTERS) + 0.5 for row in block.rows)
        return _CAPTION + _LINE * (rows + 2 * math.ceil(len(block.note) / _LINE_LETTERS))
    texts = block.texts if isinstance(block, OwnPlace) else (block.text,)
    return sum(
        (_LINE * (math.ceil(len(text) / _LINE_LETTERS) + 1) for text in texts), _LINE * isinstance(block, OwnPlace)
    )


def heads(parts: Sequence[Placed]) -> list[str]:
    """Return by part what stands on its sheets, for the head of each."""
    out: dict[int, list[str]] = {}
    for one in parts:
        out.setdefault(one.number, []).append(one.section.title)
    return ["; ".join(titles) for titles in out.values()]
