"""MF4 and MDF files of measurement systems. Needs the optional extra `mdf` (asammdf)."""

from __future__ import annotations

import gc
import io
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import numpy as np

from dynoan.errors import ReadError
from importers.assumptions.records import MOST_VALUES
from importers.damage import damage_in_words
from importers.records.record import ColumnRecord, RecordColumn, claims_more


def mdf_records(data: bytes, name: str) -> list[ColumnRecord]:
    """Return one record a group of channels that share their time stamps.

    Raises
    ------
    ReadError
        If the file is damaged, or the extra is missing.
    """
    try:
        from asammdf import MDF
    except ImportError:
        raise ReadError(
            "an MF4 file needs the extra: pip install 'dynoan[mdf]'", where=name, hint="or save it as CSV"
        ) from None
    with _quiet():
        try:
            with MDF(io.BytesIO(data)) as file:
                if sum(group.channel_group.cycles_nr * len(group.channels) for group in file.groups) > MOST_VALUES:
                    raise claims_more(name, "the MF4 file")
                return [ColumnRecord(list(_columns(file, k))) for k in range(len(file.groups))]
        except ReadError:
            raise
        except Exception as error:  # asammdf raises whatever the damaged part provokes
            fault = damage_in_words(error)
        gc.collect()  # what is half made lies in a circle, and would speak as it goes
    raise ReadError(f"the MF4 file is damaged ({fault})", where=name, hint="export it as CSV")


@contextmanager
def _quiet() -> Iterator[None]:
    """Keep what a half-made file of the library says as it is thrown away from the screen."""
    hook, sys.unraisablehook = sys.unraisablehook, lambda _: None
    try:
        yield
    finally:
        sys.unraisablehook = hook


def _columns(file: Any, group: int) -> Iterator[RecordColumn]:
    master = file.masters_db.get(group)
    time = None
    for index in range(len(file.groups[group].channels)):
        if index == master:
            continue
        signal = file.get(group=group, index=index)
        if np.asarray(signal.samples).dtype.kind not in "iufb" or np.asarray(signal.samples).ndim != 1:
            continue
        if time is None:
            time = np.array(signal.timestamps, np.float64)
            yield RecordColumn("time", "s", time)
        yield RecordColumn(str(signal.name), str(signal.unit or ""), np.array(signal.samples, np.float64))
