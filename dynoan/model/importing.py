"""What an importer is: the contract of the entry-point group ``dynoan.importers``."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, Protocol, runtime_checkable

from dynoan.model.log import LogColumn
from dynoan.model.sweep import Sweep

DateOrder = Literal["day-first", "month-first"]  #: of days such as 05/02/2026
HEAD = 65536  #: how much of a file an importer is shown to recognise it [bytes]


@dataclass(frozen=True)
class LayoutCard:
    """A team's own description of a stubborn layout, from ``layouts/*.toml`` of the library."""

    name: str
    header: tuple[str, ...]  #: column names that the header must hold for this card to apply
    columns: Mapping[str, str] = field(default_factory=dict)  #: channel to column name
    units: Mapping[str, str] = field(default_factory=dict)  #: channel to unit
    positive: Literal["compression", "rebound"] | None = None
    skip: int | None = None  #: lines above the header
    delimiter: str | None = None
    decimal: Literal[".", ","] | None = None
    rate: float | None = None  #: [Hz]
    dates: DateOrder | None = None


@dataclass(frozen=True)
class ReadOptions:
    """What the user states; it wins over what the file says."""

    shock: str | None = None
    pack: str | None = None
    clicks: Mapping[str, int] = field(default_factory=dict)
    positive: Literal["compression", "rebound"] | None = None
    units: Mapping[str, str] = field(default_factory=dict)  #: channel to unit, such as force to "lbf"
    columns: Mapping[str, str] = field(default_factory=dict)  #: channel to column name
    column_units: Mapping[str, str] = field(default_factory=dict)  #: column, by name or number, to unit
    rate: float | None = None  #: [Hz]
    delimiter: str | None = None
    decimal: Literal[".", ","] | None = None
    dates: DateOrder | None = None  #: how days whose day and month could be swapped are meant
    layouts: tuple[LayoutCard, ...] = ()


@dataclass(frozen=True)
class Verdict:
    """Whether an importer takes a file, and why."""

    yes: bool
    reason: str


class Importer(Protocol):
    """One way of reading a rig's files."""

    name: str

    def recognises(self, head: bytes, name: str) -> Verdict:
        """Judge the first 64 KiB and the file name; never raise on foreign bytes."""
        ...

    def read(self, data: bytes, name: str, options: ReadOptions) -> tuple[Sweep, ...]:
        """Return the sweeps in a file, or raise `dynoan.errors.ReadError` with file, place and way out."""
        ...


@runtime_checkable
class LogImporter(Importer, Protocol):
    """An importer that reads what a logger on the car wrote, too."""

    def columns(self, data: bytes, name: str) -> tuple[LogColumn, ...]:
        """Return the columns of a log, or raise `dynoan.errors.ReadError` with file, place and way out."""
        ...


@runtime_checkable
class NamingImporter(Importer, Protocol):
    """An importer that tells the names of a file's columns as they stand, for a layout of one's own."""

    def column_names(self, data: bytes, name: str, options: ReadOptions) -> tuple[str, ...]:
        """Return the names, or raise `dynoan.errors.ReadError` with file, place and way out."""
        ...
