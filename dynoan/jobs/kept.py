"""Sweeps as the library holds them: what every job about them lists, and what their clicks must be."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from dynoan.errors import CallError, QuantityError
from dynoan.library import SweepRecord
from dynoan.model.shock import clicks_text

if TYPE_CHECKING:
    from dynoan.library import Library

__all__ = ["RECORD_COLUMNS", "SweepRecord", "check_clicks", "record_dict", "record_row"]


RECORD_COLUMNS = (
    "id", "shock", "pack", "clicks", "layout", "date", "temperature_c", "gas_pressure_pa", "samples", "source", "part",
    "sha256", "added", "file",
)  # fmt: skip


def record_dict(record: SweepRecord) -> dict[str, Any]:
    """Return one sweep of the library as plain values, as JSON has it."""
    return {
        "id": record.id, "shock": record.shock, "pack": record.pack, "clicks": dict(record.clicks),
        "layout": record.layout, "date": record.date, "temperature_c": record.temperature,
        "gas_pressure_pa": record.gas_pressure, "samples": record.samples, "source": record.source,
        "part": record.part, "sha256": record.sha256, "added": record.added, "file": record.file,
    }  # fmt: skip


def record_row(record: SweepRecord) -> dict[str, Any]:
    """Return one sweep of the library as a row of a table: clicks as text such as "lsc=6,lsr=8"."""
    return record_dict(record) | {"clicks": clicks_text(record.clicks)}


def check_clicks(library: Library, shock: str | None, clicks: Mapping[str, int], *, where: str = "") -> None:
    """Refuse clicks that the shock does not have, where a file states which it has.

    Raises
    ------
    CallError
        If it has no such adjuster, or not so many clicks.
    QuantityError
        If the shock's file is wrong.
    """
    if not shock or not clicks or not library.has_shock_file(shock):
        return
    try:
        library.shock(shock).check(clicks)
    except (CallError, QuantityError) as error:
        raise error.again(where="" if error.where.startswith("shocks/") else where, kind=CallError) from None
