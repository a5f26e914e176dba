"""MATLAB .mat files of version 5 to 7: variables, and structures of them. Needs scipy, which is always there."""

from __future__ import annotations

import io
import subprocess
import sys
from collections.abc import Mapping
from typing import Any

import numpy as np

from dynoan.errors import ReadError
from importers.damage import damage_in_words
from importers.records import mat_trial
from importers.records.mat_bounds import claims_too_much
from importers.records.record import ColumnRecord, claims_more
from importers.records.scalars import UNITS
from importers.records.walking import records_in
from importers.words.unit_text import is_unit

_PATIENCE = 60.0  #: for a file that another process tries [s]; our judgement


def mat_records(data: bytes, name: str) -> list[ColumnRecord]:
    """Return the records in a MATLAB file.

    Raises
    ------
    ReadError
        If it is damaged, or of version 7.3.
    """
    if data.startswith(b"MATLAB 7.3"):
        raise ReadError("a MATLAB file of version 7.3", where=name, hint="save it with the option -v7, or as CSV")
    if claims_too_much(data):
        raise claims_more(name, "the MATLAB file")
    _try_apart(data, name)
    from scipy.io import loadmat

    try:
        found = loadmat(io.BytesIO(data), simplify_cells=True)
    except Exception as error:  # scipy raises whatever the damaged part provokes
        raise ReadError(
            f"the MATLAB file is damaged ({damage_in_words(error)})", where=name, hint="save it again, or as CSV"
        ) from (None)
    return records_in(_labelled(_plain({k: v for k, v in found.items() if not k.startswith("__")})))


def _try_apart(data: bytes, name: str) -> None:
    """Refuse a file that a process of its own cannot read: it is let near ours only when it did no harm there.

    Raises
    ------
    ReadError
        If that process finds it damaged, takes more memory or time than it may, or ends.
    """
    script = [sys.executable, "-I", mat_trial.__file__]
    try:
        done = subprocess.run(script, input=data, capture_output=True, timeout=_PATIENCE, check=False)
    except subprocess.TimeoutExpired:
        raise ReadError(f"not read within {_PATIENCE:g} s", where=name, hint="save it as CSV") from None
    if done.returncode != mat_trial.READ:
        said = done.stderr.decode(errors="replace")
        fault = damage_in_words(said) if done.returncode == mat_trial.DAMAGED else "it cannot be read"
        raise ReadError(f"the MATLAB file is damaged ({fault})", where=name, hint="save it again, or as CSV")


def _labelled(value: Any) -> Any:
    """Return values in which each matrix beside names for its columns is columns, in structures too."""
    if isinstance(value, Mapping):
        return _with_labelled({k: _labelled(v) for k, v in value.items()})
    return [_labelled(v) for v in value] if isinstance(value, list) else value


def _with_labelled(held: Mapping[str, Any]) -> Mapping[str, Any]:
    """Return variables with a matrix as its columns, where one list of words has a name for each of them."""
    matrices = {k: v for k, v in held.items() if isinstance(v, np.ndarray) and v.ndim == 2 and v.dtype.kind in "iuf"}
    lists = {k: v for k, v in held.items() if isinstance(v, list) and v and all(isinstance(w, str) for w in v)}
    units = {k: v for k, v in lists.items() if k.lower() in UNITS or all(is_unit(w) or w in ("", "-") for w in v)}
    named = {k: v for k, v in lists.items() if k not in units}
    pairs = [(m, w) for m, x in matrices.items() for w, names in named.items() if len(names) == x.shape[1] < len(x)]
    if len(pairs) != 1:
        return held
    ((matrix, words),) = pairs
    rest = {k: v for k, v in held.items() if k not in (matrix, words, *units)}
    columns = {name: np.ascontiguousarray(matrices[matrix][:, k]) for k, name in enumerate(lists[words])}
    given = [v for v in units.values() if len(v) == len(columns)]
    return rest | columns | ({"units": given[0]} if len(given) == 1 else {})


def _plain(value: Any) -> Any:
    """Return MATLAB's values with lists for cells and structure arrays, and numbers for 1 x 1 arrays."""
    if isinstance(value, Mapping):
        return {str(k): _plain(v) for k, v in value.items()}
    if isinstance(value, np.ndarray) and value.dtype.kind == "O":
        return [_plain(v) for v in value.reshape(-1)]
    if isinstance(value, np.ndarray) and value.dtype.kind in "US":
        return [str(v) for v in value.reshape(-1)]
    return value.item() if isinstance(value, np.generic) else value
