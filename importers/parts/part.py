"""What a part of a table is: the rows of one sweep, with what is known of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from dynoan.model.arrays import FloatArray, IntArray
from importers.header import HeaderColumn
from importers.stated import StatedFacts
from importers.tables import ParsedTable

_MOST_NAMES = 20  #: of columns that a refusal lists
_LONGEST = 80  #: of a name that it shows [characters]


def names_for_people(names: Sequence[str], quote: str = "'") -> str:
    """Return names in quotes, the first of many."""
    short = (name if len(name) <= _LONGEST else f"{name[: _LONGEST - 1]}…" for name in names[:_MOST_NAMES])
    shown = ", ".join(f"{quote}{name}{quote}" for name in short)
    return shown if len(names) <= _MOST_NAMES else f"{shown} and {len(names) - _MOST_NAMES} more"


@dataclass(frozen=True)
class ColumnRoles:
    """What the columns of a table are."""

    channels: Mapping[str, HeaderColumn] = field(default_factory=dict)
    forces: Mapping[str, HeaderColumn] = field(default_factory=dict)  #: by direction
    speeds: Mapping[str, HeaderColumn] = field(default_factory=dict)  #: velocities by direction
    wide: tuple[HeaderColumn, ...] = ()  #: force columns that state clicks
    keys: Mapping[str, HeaderColumn] = field(default_factory=dict)  #: shock, pack, run, cycle, direction, adjusters


@dataclass(frozen=True)
class SweepPart:
    """Rows of a table that are one sweep, with what is known of them."""

    table: ParsedTable
    roles: ColumnRoles
    facts: StatedFacts
    values: Mapping[int, FloatArray]  #: the rows of this part, by column index
    texts: Mapping[int, list[str]]
    name: str  #: of the file
    label: str = ""  #: which part of the file, in words
    alone: bool = False  #: whether no other part shares its arrays
    direction: str | None = None  #: which direction all rows are of, where a line above says so
    named_way: str | None = None  #: which direction the file's or the sheet's name says it is of
    agreed: int | None = None  #: the sign of force that other parts of the file show; 0 where they contradict
    said: Mapping[str, str] = field(default_factory=dict)  #: which direction the lines say is positive, by channel
    beside: str = ""  #: what its columns are called by, of several runs beside one another in one table
    of_runs: Mapping[str, str] = field(default_factory=dict)  #: what lines say of one run alone, by its name

    @property
    def rows(self) -> int:
        """Number of rows."""
        return len(next(iter(self.values.values()))) if self.values else 0

    @property
    def column_names(self) -> str:
        """The names of all columns for people, quoted; empty where none is named."""
        return names_for_people([c.text for c in self.table.columns if c.text])

    def labelled(self, label: str, facts: StatedFacts) -> SweepPart:
        """Return the part with more said of which it is."""
        return replace(self, facts=facts, label=", ".join(filter(None, (self.label, label))))

    def picked(self, rows: IntArray | slice, label: str, facts: StatedFacts) -> SweepPart:
        """Return some rows of the part as a part of their own."""
        pick: Sequence[int] = range(self.rows)[rows] if isinstance(rows, slice) else rows.tolist()
        values = {i: v[rows] for i, v in self.values.items()}
        texts = {i: [t[k] for k in pick] for i, t in self.texts.items()}
        return replace(self.labelled(label, facts), values=values, texts=texts)
