"""MATLAB .mat files of version 5 to 7.3: variables, and structures of them. Needs scipy, which is always there."""

from __future__ import annotations

import io
import subprocess
import sys
import warnings

import numpy as np

from dynoan.errors import ReadError
from importers.damage import damage_in_words
from importers.records import mat_trial
from importers.records.array_values import OPAQUE, plain_values, with_named_matrices
from importers.records.mat_bounds import claims_too_much, own_objects
from importers.records.record import ColumnRecord, claims_more
from importers.records.walking import records_in

_PATIENCE = 60.0  #: for a file that another process tries [s]; our judgement


def mat_records(data: bytes, name: str) -> list[ColumnRecord]:
    """Return the records in a MATLAB file.

    Raises
    ------
    ReadError
        If it is damaged, or claims more than is read.
    """
    if data.startswith(b"MATLAB 7.3"):
        from importers.records.hdf5_file import hdf5_records  # that version is HDF5 behind its head

        return hdf5_records(data, name, "the MATLAB file")
    if claims_too_much(data):
        raise claims_more(name, "the MATLAB file")
    _try_apart(data, name)
    from scipy.io import loadmat

    try:
        with warnings.catch_warnings():
            # Objects of MATLAB's own all bear one name here; what they are is told below.
            warnings.filterwarnings("ignore", message="Duplicate variable name")
            found = loadmat(io.BytesIO(data), simplify_cells=True)
    except Exception as error:  # scipy raises whatever the damaged part provokes
        raise ReadError(
            f"the MATLAB file is damaged ({damage_in_words(error)})", where=name, hint="save it again, or as CSV"
        ) from None
    held = {k: v for k, v in found.items() if not str(k).startswith("__")}
    unread = [str(k) for k, v in found.items() if isinstance(v, np.ndarray) and v.dtype.names == OPAQUE]
    plain = plain_values({k: v for k, v in held.items() if k not in unread})
    said = tuple(
        f"'{variable}' is a {kind} of MATLAB's own, which MATLAB alone reads: not read"
        for variable, kind in (own_objects(data) if unread else ())
    )
    records = records_in(with_named_matrices(plain))
    if said and not records:
        raise ReadError(
            said[0].removesuffix(": not read"),
            where=name,
            hint="in MATLAB, s = table2struct(T, 'ToScalar', true) and save('run.mat', '-struct', 's') keep a table's "
            "columns, or writetable makes a CSV",
        )
    return [record._replace(warnings=said) for record in records]


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
