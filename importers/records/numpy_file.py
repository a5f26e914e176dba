"""NumPy's .npy and .npz files: arrays by name, structures of columns, texts beside them."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping
from math import prod
from pathlib import PurePath
from typing import Any

import numpy as np

from dynoan.errors import ReadError
from importers.assumptions.records import MOST_NAMES, MOST_UNPACKED, MOST_VALUES
from importers.damage import damage_in_words
from importers.records.array_values import plain_values, with_named_matrices
from importers.records.nested_values import records_in
from importers.records.record import ColumnRecord, claims_more

_ZIPPED = b"PK"
_HEADERS = {(1, 0): np.lib.format.read_array_header_1_0, (2, 0): np.lib.format.read_array_header_2_0}


def numpy_records(data: bytes, name: str) -> list[ColumnRecord]:
    """Return the records in a file of arrays.

    Raises
    ------
    ReadError
        If it is damaged, or claims more than is read.
    """
    said: list[str] = []
    try:
        held = _archive(data, name, said) if data.startswith(_ZIPPED) else _one(data, name, said)
    except ReadError:
        raise
    except Exception as error:  # NumPy raises whatever the damaged part provokes
        fault = damage_in_words(error)
        raise ReadError(f"the NumPy file is damaged ({fault})", where=name, hint="save it again, or as CSV") from None
    found = records_in(with_named_matrices(plain_values(held)))
    return [record._replace(warnings=tuple(said)) for record in found]


def _one(data: bytes, name: str, said: list[str]) -> Mapping[str, Any]:
    """Return the array of an .npy, its columns where it is a structure of them."""
    found = _array(data, name, "the array", said)
    return {} if found is None else {PurePath(name).stem: found}


def _archive(data: bytes, name: str, said: list[str]) -> Mapping[str, Any]:
    """Return the arrays of an .npz by name."""
    held: dict[str, Any] = {}
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        members = [one for one in archive.infolist() if one.filename.endswith(".npy")]
        if len(members) > MOST_NAMES or sum(one.file_size for one in members) > MOST_UNPACKED:
            raise claims_more(name, "the NumPy file")
        for member in members:
            key = member.filename.removesuffix(".npy")
            with archive.open(member) as stream:
                found = _array(stream.read(member.file_size + 1), name, f"'{key[:40]}'", said)
            held |= {} if found is None else {key: found}
    return held


def _array(data: bytes, name: str, what: str, said: list[str]) -> Any:
    """Return an array; None of Python objects, which are never unpacked, and which `said` then tells.

    Raises
    ------
    ReadError, ValueError
        If it claims more than there is, or is damaged.
    """
    stream = io.BytesIO(data)
    version = np.lib.format.read_magic(stream)
    if version not in _HEADERS:
        raise ReadError(f"a NumPy file of version {version[0]}.{version[1]}", where=name, hint="save it as CSV")
    shape, _, dtype = _HEADERS[version](stream)
    if dtype.hasobject:
        said.append(f"{what} holds Python objects, which may be harmful: not read; save it as text or numbers")
        return None
    if prod(shape) > MOST_VALUES or prod(shape) * dtype.itemsize > len(data):
        raise claims_more(name, "the NumPy file")
    return np.lib.format.read_array(io.BytesIO(data), allow_pickle=False)
