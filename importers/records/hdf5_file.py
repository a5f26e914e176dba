"""HDF5 files: datasets by name, structures of columns, attributes beside them; read by `hdf5_apart`."""

from __future__ import annotations

import io
import json
import subprocess
import sys
from collections.abc import Mapping
from typing import Any

import numpy as np

from dynoan.errors import ReadError
from importers.assumptions.records import MOST_NAMES, MOST_VALUES
from importers.damage import damage_in_words
from importers.records import hdf5_apart
from importers.records.array_values import plain_values, with_named_matrices
from importers.records.nested_values import records_in
from importers.records.record import ColumnRecord, claims_more
from importers.records.scalars import UNITS, unit_in

_PATIENCE = 20  #: for a file that the other process reads [s]; our judgement


def hdf5_records(data: bytes, name: str, what: str = "the HDF5 file") -> list[ColumnRecord]:
    """Return the records in an HDF5 file.

    Raises
    ------
    ReadError
        If it is damaged, or holds more than is read.
    """
    script = [sys.executable, "-I", hdf5_apart.__file__, str(MOST_VALUES), str(MOST_NAMES), str(_PATIENCE)]
    try:
        done = subprocess.run(script, input=data, capture_output=True, timeout=2 * _PATIENCE, check=False)
    except subprocess.TimeoutExpired:
        raise ReadError(f"not read within {2 * _PATIENCE} s", where=name, hint="save it as CSV") from None
    if done.returncode == hdf5_apart.TOO_MUCH:
        raise claims_more(name, what)
    if done.returncode != hdf5_apart.READ:
        said = done.stderr.decode(errors="replace")
        fault = damage_in_words(said) if done.returncode == hdf5_apart.DAMAGED else "it cannot be read"
        raise ReadError(f"{what} is damaged ({fault})", where=name, hint="save it again, or as CSV")
    head, _, packed = done.stdout.partition(b"\n")
    held = json.loads(head)
    with np.load(io.BytesIO(packed), allow_pickle=False) as arrays:
        tree = _plain(held["tree"], arrays)
    skipped = tuple(f"'{one[:60]}' holds references to other parts of the file: not read" for one in held["skipped"])
    return [record._replace(warnings=skipped) for record in records_in(with_named_matrices(tree))]


def _plain(node: Mapping[str, Any], arrays: Mapping[str, Any]) -> Any:
    """Return a group as a mapping of what lies below it and of its attributes; an array with what is said of it."""
    said = {key: value for key, value in node["attributes"].items() if not key.isupper() and key != "MATLAB_class"}
    if "array" in node:
        return plain_values(arrays[node["array"]])
    below = {key: _plain(one, arrays) for key, one in node["below"].items()}
    of_arrays = {key: one["attributes"] for key, one in node["below"].items() if "array" in one}
    units = {key: unit for key, held in of_arrays.items() if (unit := unit_in(held))}
    beside = {k: v for held in of_arrays.values() for k, v in held.items() if k not in UNITS and not k.isupper()}
    return {**beside, **said, **below, **({"units": units} if units and "units" not in below else {})}
