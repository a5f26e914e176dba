"""What people read, as data: paragraphs and tables, before anything is printed or put on a page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dynoan.units import Shown


@dataclass(frozen=True)
class Paragraph:
    """Lines of text; they keep their line breaks."""

    text: str
    drawn: bool = False  #: a drawing made of characters: every blank counts
    typed: bool = False  #: command lines as they were typed, with what was answered
    measure: int | None = None  #: columns of prose to read: wrapped there even where nobody looks on
    own: bool = False  #: somebody's own words: no quantity in them is turned into other units
    hang: int = 0  #: by how many blanks lines that were wrapped are set in


@dataclass(frozen=True)
class Note:
    """A remark beside what was asked for, or what could not be done; in a terminal it goes to standard error."""

    text: str
    failed: bool = False


@dataclass(frozen=True)
class Table:
    """A table of text: heads, rows, and a title above."""

    columns: Sequence[str]
    rows: Sequence[Sequence[str]]
    title: str = ""
    alike: bool = (
        False  #: columns but the first are of one kind: where they do not all fit, some stand below the others
    )


Block = Paragraph | Table | Note
#: stand over columns whose names are too wide
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True)
class Look:
    """How a person wants to see an answer."""

    units: Shown = "metric"
    more: bool = False  #: with -v


def blank() -> Paragraph:
    """Return an empty line."""
    return Paragraph("")


def or_dash(value: float | None, form: str) -> str:
    """Return a number as text, a dash where it is not known."""
    return "–" if value is None else format(value, form)
