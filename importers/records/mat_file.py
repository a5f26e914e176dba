"""MATLAB .mat files of version 5 to 7.3: variables, and structures of them. Needs scipy, which is always there."""

from __future__ import annotations

import io
import subprocess
import sys
import warnings
from collections.abc import Sequence

import numpy as np

from dynoan.errors import ReadError
from importers.damage import damage_in_words
from importers.records import mat_trial
from importers.records.array_values import OPAQUE, plain_values, with_named_matrices
from importers.records.mat_bounds import OwnObject, claims_too_much, own_objects
from importers.records.nested_values import records_in
from importers.records.record import ColumnRecord, claims_more

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
    objects = own_objects(data) if unread else []
    records = records_in(with_named_matrices(plain))
    if objects and not records:
        raise own_objects_alone(objects, name)
    return [record._replace(warnings=tuple(map(object_said, objects))) for record in records]


#: what turns an object of MATLAB's own into what others read, typed in MATLAB, by its class
_TYPED = {
    "table": "writetable({0}, '{0}.csv')",
    "timetable": "writetimetable({0}, '{0}.csv')",
    "string": "{0} = char({0})",
    "datetime": "{0} = char({0})",
    "duration": "{0} = seconds({0})",
    "categorical": "{0} = cellstr({0})",
    "timeseries": "t = {0}.Time; x = {0}.Data",
}
_MOST_TYPED = 3  #: of several objects, so many are shown


def object_said(one: OwnObject) -> str:
    """Return the warning of a variable that is an object of MATLAB's own, with what to type in MATLAB to have it read.

    >>> object_said(OwnObject("t", "duration"))
    "'t' is a duration of MATLAB's own, which MATLAB alone reads: not read; in MATLAB type t = seconds(t) and save it"
    """
    typed = _TYPED.get(one.kind, "").format(one.name)
    end = "" if one.kind.endswith("table") else " and save it"
    said = f"'{one.name}' is a {one.kind} of MATLAB's own, which MATLAB alone reads: not read"
    return f"{said}; in MATLAB type {typed}{end}" if typed else said


def own_objects_alone(objects: Sequence[OwnObject], file: str) -> ReadError:
    """Return the refusal of a file of objects of MATLAB's own and nothing else, with what to type to export them."""
    if len(objects) == 1:
        which = f"'{objects[0].name}' is a {objects[0].kind}"
    else:
        kinds = " and ".join(dict.fromkeys(f"{one.kind}s" for one in objects))
        which = f"{', '.join(repr(one.name) for one in objects)} are {kinds}"
    held = [one for one in objects if one.kind.endswith("table")] or list(objects)
    typed = [_TYPED[one.kind].format(one.name) for one in held[:_MOST_TYPED] if one.kind in _TYPED]
    if held[0].kind == "table":
        struct = f"s = table2struct({held[0].name}, 'ToScalar', true) and save('run.mat', '-struct', 's')"
        hint = f"in MATLAB type {'; '.join(typed)} for a CSV each, or {struct}"
    else:
        hint = f"in MATLAB type {'; '.join(typed) or 'x = double(' + held[0].name + ')'}, and save what is new"
    return ReadError(f"{which} of MATLAB's own, which MATLAB alone reads", where=file, hint=hint)


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
