"""Values of files of arrays, MATLAB's, NumPy's and HDF5's, as plain ones: lists, texts, columns of named matrices."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

import numpy as np

from importers.header import describe_column
from importers.records.scalars import UNITS
from importers.words.unit_text import is_unit

#: fields of a value that MATLAB keeps in a form of its own, which is not made public: its strings, tables, days
OPAQUE = ("s0", "s1", "s2", "arr")


def plain_values(value: Any) -> Any:
    """Return values with lists for cells, for structure arrays and for words, and numbers for arrays of one."""
    if isinstance(value, Mapping):
        return {str(k): plain_values(v) for k, v in value.items()}
    if isinstance(value, np.ndarray):
        return _of_array(value)
    if isinstance(value, bytes):
        return value.decode("utf-8", errors="replace")
    value = value.item() if isinstance(value, np.generic) else value
    return _of_text(value) if isinstance(value, str) else value


def _of_array(value: np.ndarray[Any, Any]) -> Any:
    if value.dtype.names is not None:
        return {name: plain_values(value[name]) for name in value.dtype.names}
    if value.dtype.kind == "O":
        return [plain_values(v) for v in value.reshape(-1)]
    if value.dtype.kind in "US":
        words = [v.decode("utf-8", errors="replace") if isinstance(v, bytes) else str(v) for v in value.reshape(-1)]
        return words if value.ndim else _of_text(words[0])
    return value.item() if value.ndim == 0 else value


def _of_text(text: str) -> Any:
    """Return the mapping that a text holds as JSON, as particulars are kept beside arrays; else the text."""
    if not (text.startswith("{") and text.endswith("}")):
        return text
    try:
        return json.loads(text)
    except (ValueError, RecursionError):
        return text


def with_named_matrices(value: Any) -> Any:
    """Return values in which each matrix beside names for its columns is columns, in structures too."""
    if isinstance(value, Mapping):
        return _named({k: with_named_matrices(v) for k, v in value.items()})
    return [with_named_matrices(v) for v in value] if isinstance(value, list) else value


def _named(held: Mapping[str, Any]) -> Mapping[str, Any]:
    """Return variables with a matrix as its columns, where one list of words has a name for each of them."""
    matrices = {k: v for k, v in held.items() if isinstance(v, np.ndarray) and v.ndim == 2 and v.dtype.kind in "iuf"}
    lists = {k: v for k, v in held.items() if isinstance(v, list) and v and all(isinstance(w, str) for w in v)}
    units = {k: v for k, v in lists.items() if k.lower() in UNITS or all(is_unit(w) or w in ("", "-") for w in v)}
    named = {k: v for k, v in lists.items() if k not in units}
    pairs = [(m, w) for m, x in matrices.items() for w, names in named.items() if len(names) == x.shape[1] < len(x)]
    if len(pairs) > 1:
        pairs = [(m, w) for m, w in pairs if all(describe_column(0, name).channel for name in named[w])]
    if len(pairs) != 1:
        return held
    ((matrix, words),) = pairs
    rest = {k: v for k, v in held.items() if k not in (matrix, words, *units)}
    columns = {name: np.ascontiguousarray(matrices[matrix][:, k]) for k, name in enumerate(lists[words])}
    given = [v for v in units.values() if len(v) == len(columns)]
    return rest | columns | ({"units": given[0]} if len(given) == 1 else {})
