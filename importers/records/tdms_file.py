"""TDMS files of data acquisition. Needs the optional extra `tdms` (npTDMS)."""

from __future__ import annotations

import io
import logging
from typing import Any

import numpy as np

from dynoan.errors import ReadError
from importers.assumptions.records import MOST_VALUES
from importers.damage import damage_in_words
from importers.records.nested_values import title_lines
from importers.records.record import ColumnRecord, RecordColumn, claims_more


def tdms_records(data: bytes, name: str) -> list[ColumnRecord]:
    """Return one record a group of channels.

    Raises
    ------
    ReadError
        If the file is damaged, or the extra is missing.
    """
    try:
        from nptdms import TdmsFile
    except ImportError:
        raise ReadError(
            "a TDMS file needs the extra: pip install 'dynoan[tdms]'", where=name, hint="or save it as CSV"
        ) from None
    for logger in [name for name in logging.root.manager.loggerDict if name.startswith("nptdms")]:
        logging.getLogger(logger).setLevel(logging.CRITICAL)
    try:
        with TdmsFile.open(io.BytesIO(data)) as file:
            if sum(len(channel) for group in file.groups() for channel in group.channels()) <= MOST_VALUES:
                _refuse_cut_off(file, name)
                _refuse_unlike(file, name)
                return [_record(group, file.properties) for group in file.groups()]
    except ReadError:
        raise
    except Exception as error:  # npTDMS raises whatever the damaged part provokes
        raise ReadError(
            f"the TDMS file is damaged ({damage_in_words(error)})", where=name, hint="export it as CSV"
        ) from None
    raise claims_more(name, "the TDMS file")


def _refuse_cut_off(file: Any, name: str) -> None:
    """Refuse a file whose last part is not whole and whose channels thereby end at different samples.

    Raises
    ------
    ReadError
        With what to do.
    """
    lengths = {len(channel) for group in file.groups() for channel in group.channels()}
    if file.file_status.incomplete_final_segment and len(lengths) > 1:
        raise ReadError(
            "the TDMS file ends before its channels do",
            where=name,
            hint="copy it from the logger again, or export it as CSV",
        )


def _refuse_unlike(file: Any, name: str) -> None:
    """Refuse a file in none of whose groups two channels have as many samples.

    Raises
    ------
    ReadError
        With the channels and how many each has.
    """
    groups = [[c for c in group.channels() if len(c) > 1] for group in file.groups()]
    lone = [group for group in groups if len(group) > 1 and len({len(c) for c in group}) == len(group)]
    if lone and not any(len({len(c) for c in group}) < len(group) for group in groups):
        said = ", ".join(f"'{c.name}' {len(c)}" for c in lone[0][:6])
        raise ReadError(f"no two channels have as many samples ({said})", where=name, hint="record them at one rate")


def _record(group: Any, properties: Any) -> ColumnRecord:
    channels = [c for c in group.channels() if len(c) > 1 and _is_numeric(c)]
    longest = max((len(c) for c in channels), default=0)
    kept = [c for c in channels if len(c) == longest]
    steps = {float(c.properties.get("wf_increment", 0) or 0) for c in kept} - {0.0}
    facts = (*properties.items(), *group.properties.items())
    lines = [f"{k}: {v}" for k, v in facts if isinstance(v, str | int | float)]
    lines += title_lines(group.name, "")
    if len(steps) == 1:
        lines.append(f"Sample interval: {steps.pop():.12g} s")
    return ColumnRecord([_column(c) for c in kept], tuple(lines))


def _is_numeric(channel: Any) -> bool:
    return np.asarray(channel[:1]).dtype.kind in "iufb"


#: properties that hold a channel's unit, as loggers write it
_UNITS = ("unit_string", "NI_UnitDescription", "Unit", "unit", "Units", "units")


def _column(channel: Any) -> RecordColumn:
    unit = next((str(v) for k in _UNITS if (v := channel.properties.get(k))), "")
    return RecordColumn(channel.name, unit, np.array(channel[:], np.float64))
