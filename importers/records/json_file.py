"""JSON: records of columns, rows by name, or channels with their units."""

from __future__ import annotations

import json

from dynoan.errors import ReadError, Spot
from importers.assumptions.records import LARGEST_JSON
from importers.records.nested_values import records_in
from importers.records.record import ColumnRecord

#: why a file is none, the narrower kind of fault first
_WHY: dict[type[Exception], str] = {
    UnicodeDecodeError: "its letters are not UTF-8, as JSON's are",
    RecursionError: "its brackets are nested too deeply",
    ValueError: "a number in it is too long",
}


def json_records(data: bytes, name: str) -> list[ColumnRecord]:
    """Return the records in a JSON file.

    Raises
    ------
    ReadError
        If it is no JSON, with the place.
    """
    if len(data) > LARGEST_JSON:
        size, most = len(data) // 1_000_000, LARGEST_JSON // 1_000_000
        raise ReadError(
            f"{size} MB of JSON, more than the {most} MB that are read", where=name, hint="export the run as CSV"
        )
    try:
        return records_in(json.loads(data))
    except json.JSONDecodeError as error:
        if error.msg == "Extra data" and (rows := _by_line(data)) is not None:
            return records_in(rows)
        raise ReadError(
            f"not JSON from column {error.colno} on ({error.msg})",
            where=Spot(name, line=error.lineno),
            hint="export the run again, or as CSV",
        ) from None
    except (UnicodeDecodeError, RecursionError, ValueError) as error:
        why = next(words for kind, words in _WHY.items() if isinstance(error, kind))
        raise ReadError(f"this JSON cannot be read: {why}", where=name, hint="export the run as CSV") from None


def _by_line(data: bytes) -> list[object] | None:
    """Return the values of a file that holds one a line; None where a line is none."""
    lines = [line for line in data.splitlines() if line.strip()]
    try:
        found: list[object] = json.loads(b"[" + b",".join(lines) + b"]")  # at once, which takes a third of the time
    except ValueError:
        return None
    return found if len(found) == len(lines) else None
