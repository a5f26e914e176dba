"""What rows of channels say beside names and units: rates, scales and zeros, and what is left of them as lines."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from importers.header import HeaderColumn, describe_column
from importers.patterns import regex
from importers.tables.channel_keys import ChannelRow
from importers.words.channels import CHANNEL_LABELS
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

#: words of numbers that are not yet in their units
_RAW = regex(r"(?i)\b(?:raw|unscaled|counts?|adc|digits|bits|roh\w*|unskaliert\w*|brut\w*|crud[oa]s?|grezz\w+)\b")
_MEASURED = frozenset(("force", "displacement", "velocity"))
_NUMBER = regex(r"[-+−]?\d+(?:[.,]\d+)?(?:[eE][-+]?\d+)?")


class ChannelsSaid(NamedTuple):
    """What rows of channels say of a table's columns."""

    units: list[str]  #: those of numbers that are in them
    lines: list[str]
    warnings: list[str]


def said_of_channels(
    names: Sequence[str], cells: Mapping[str, Sequence[str]], rows: Sequence[ChannelRow], lines: Sequence[str]
) -> ChannelsSaid:
    """Return what rows of channels say beside names and units.

    Parameters
    ----------
    names
        The columns' names.
    cells
        The cells of units, rates, factors and zeros over the columns, by kind.
    rows
        The rows themselves.
    lines
        The file's first lines: whether its numbers are raw may stand in any.
    """
    columns = [describe_column(k, *pair) for k, pair in enumerate(zip(names, cells["units"], strict=True))]
    rate, odd = _rate(columns, cells, rows)
    told = (row for row in rows if not row.kind and plain(row.key) not in CHANNEL_LABELS)
    others = [f"Channel {plain(row.key)}: {' / '.join(filter(None, row.values))}" for row in told]
    scaled = _scales(columns, cells, any(_RAW.search(line) for line in lines))
    return ChannelsSaid(scaled.units, [*rate, *others, *scaled.lines], [*odd, *scaled.warnings])


def _rate(
    columns: Sequence[HeaderColumn], cells: Mapping[str, Sequence[str]], rows: Sequence[ChannelRow]
) -> tuple[list[str], list[str]]:
    """Return the line of the one rate of the channels measured, and the warning of other rates."""
    for kind, word in (("rate", "Sample rate"), ("interval", "Sample interval")):
        row = next((row for row in rows if row.kind == kind), None)
        if row is None:
            continue
        said = [(column, cell) for column, cell in zip(columns, cells[kind], strict=True) if _value(cell)]
        every = list(dict.fromkeys(cell for _, cell in said))
        mine = list(dict.fromkeys(cell for column, cell in said if column.channel in _MEASURED))
        beside = row.beside or next((word for word in row.key.split()[1:] if is_unit(word)), "")
        unit = f" {beside}" if beside else ""
        if len(every) == 1 or len(mine) == 1:
            taken = every[0] if len(every) == 1 else mine[0]
            rate = taken if any(map(str.isalpha, taken)) else taken + unit
            more = f"channels have rates of their own ({', '.join(every)}): {rate} was taken"
            return [f"{word}: {rate}"], [] if len(every) == 1 else [more]
        if every:
            told = f"channels have rates of their own ({', '.join(every)}): none was taken; --rate 'NUMBER Hz' gives it"
            return [f"Channel rates: {' / '.join(every)}"], [told]
    return [], []


def _scales(columns: Sequence[HeaderColumn], cells: Mapping[str, Sequence[str]], raw: bool) -> ChannelsSaid:
    """Return units without those of columns to be scaled, and a line of the scale for each; else a warning of them."""
    pairs = list(zip(columns, cells["factors"], cells["zeros"], strict=True))
    busy = [(c, f, z) for c, f, z in pairs if (_value(f) or 1.0) != 1.0 or (_value(z) or 0.0) != 0.0]
    units = list(cells["units"])
    if not busy:
        return ChannelsSaid(units, [], [])
    shown = ", ".join(f"'{c.shown}' {f or 1} and {z or 0}" for c, f, z in busy)
    if not raw or any(not c.channel or not c.unit for c, _, _ in busy):
        said = (
            f"rows of scale and offset above the numbers ({shown}) were not applied: of raw numbers, scale them first"
        )
        return ChannelsSaid(units, [], [said])
    lines = []
    for c, f, z in busy:
        factor, nothing = _value(f) or 1.0, _value(z) or 0.0
        lines.append(f"{c.channel}: {factor:.12g} {c.unit} per count, zero at {-nothing / factor:.12g} counts")
        units[c.index] = ""
    said = f"numbers that are raw were taken times their scale plus their offset ({shown}), as rows above them say"
    return ChannelsSaid(units, lines, [said])


def _value(cell: str) -> float | None:
    """Return the number that a cell begins with."""
    found = _NUMBER.match(cell)
    return float(found[0].replace(",", ".").replace("−", "-")) if found else None
