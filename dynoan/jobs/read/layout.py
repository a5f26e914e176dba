"""A layout card from the options that made a file readable, so that the next file of that rig needs none."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

import tomli_w

from dynoan.errors import CallError, ReadError
from dynoan.model.importing import LayoutCard, ReadOptions
from dynoan.reading import column_names, read

if TYPE_CHECKING:
    from dynoan.model.sweep import Layout, Sweep
    from dynoan.workbench import Workbench

_HEAD = "# Used for files whose header holds all these names. Written by dynoan from the options that read {file}.\n"


def save_layout(bench: Workbench, name: str, path: Path, options: ReadOptions) -> Path:
    """Keep the options that made a file readable as a layout of the library; return the layout's file.

    Raises
    ------
    CallError
        If no option is stated that a layout could hold, or the file is not read alike by the layout alone.
    LibraryError
        If a layout of that name is there, or no library is at hand.
    ReadError
        If the file cannot be read, or names no columns by which a layout could know it.
    """
    card = _card(name, path, options)
    _refuse_other_reading(card, path, options)
    return bench.library.save_layout(name, _HEAD.format(file=path.name) + tomli_w.dumps(_as_toml(card)))


def _card(name: str, path: Path, options: ReadOptions) -> LayoutCard:
    if options.column_units:
        raise CallError(
            "a layout holds units by channel",
            where=path.name,
            hint="state each by its channel, as force=N, and the column of that channel",
            part="save_layout",
        )
    card = LayoutCard(
        name, tuple(dict.fromkeys(column_names(path, options))), dict(options.columns), dict(options.units),
        options.positive, delimiter=options.delimiter, decimal=options.decimal, rate=options.rate,
        dates=options.dates,
    )  # fmt: skip
    if card == LayoutCard(name, card.header):
        raise CallError("nothing is stated that a layout could hold", where=path.name, part="save_layout")
    if len(card.header) < 2:
        raise ReadError(
            "no line names its columns, so a layout could not know such a file",
            where=path.name,
            hint="put a line of names above the numbers",
        )
    return card


def _refuse_other_reading(card: LayoutCard, path: Path, options: ReadOptions) -> None:
    """Refuse a card by which the file is not read as the options read it."""
    alone = ReadOptions(shock=options.shock, pack=options.pack, clicks=options.clicks, layouts=(card,))
    told, by_card = read(path, replace(options, layouts=())), read(path, alone)
    if list(map(_seen, told)) != list(map(_seen, by_card)) or any(s.source.importer != card.name for s in by_card):
        raise CallError(
            "its names stand in more than one line, so a layout would not know such a file",
            where=path.name,
            part="save_layout",
        )


class ReadAs(NamedTuple):
    """How a sweep was understood, whoever stated it."""

    layout: Layout
    samples: int
    rate: float | None  #: [Hz]
    columns: dict[str, tuple[str, str, int]]  #: column, unit and sign by channel


def _seen(sweep: Sweep) -> ReadAs:
    """Return how a sweep was understood, whoever stated it."""
    columns = {channel: (d.column, d.unit, d.sign) for channel, d in sweep.decisions.items()}
    return ReadAs(sweep.layout, sweep.samples, sweep.rate, columns)


def _as_toml(card: LayoutCard) -> dict[str, Any]:
    """Return a card in the keys of its file; what it does not state is left out."""
    stated = {
        "header": list(card.header), "positive": card.positive, "delimiter": card.delimiter, "decimal": card.decimal,
        "dates": card.dates,
        "rate": None if card.rate is None else f"{card.rate:.12g} Hz", "columns": card.columns, "units": card.units,
    }  # fmt: skip
    return {key: dict(value) if isinstance(value, dict) else value for key, value in stated.items() if value}
