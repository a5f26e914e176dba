"""Sweeps of the library as a table, as every command about them shows it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from dynoan.model.shock import clicks_text
from dynoan.show.text.blocks import Look, Table
from dynoan.units import degree_unit, degrees, shown

if TYPE_CHECKING:
    from dynoan.jobs.kept import SweepRecord

COLUMNS = ("id", "shock", "pack", "clicks", "date", "°", "layout", "samples", "from")
MORE = ("gas", "added", "SHA-256")


def records_table(records: Sequence[SweepRecord], look: Look) -> Table:
    """Return sweeps as a table, one line each."""
    heads = [degree_unit(look.units) if head == "°" else head for head in COLUMNS]
    columns = [*heads, *(MORE if look.more else ())]
    return Table(columns, [[*_row(r, look), *(_more(r, look) if look.more else ())] for r in records])


def _row(record: SweepRecord, look: Look) -> list[str]:
    warm = "" if record.temperature is None else degrees(record.temperature, look.units, unit=False)
    source = f"{record.source} ({record.part})" if record.part else record.source
    setting = [record.shock or "–", record.pack or "–", clicks_text(record.clicks) or "–"]
    return [record.id, *setting, (record.date or "–")[:16], warm, record.layout, str(record.samples), source]


def _more(record: SweepRecord, look: Look) -> list[str]:
    gas = "" if record.gas_pressure is None else shown("pressure", look.units).text(record.gas_pressure)
    return [gas, record.added, record.sha256[:12]]
