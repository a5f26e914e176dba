"""Reads an HDF5 file in a process of its own: damage can lead its library to an endless loop, or to end a process.

Run by `hdf5_file` as a script: the file on standard input; its groups, arrays and attributes on standard output, a line
of JSON that tells where each lies, then an .npz of the arrays. Exit code 0 read, 3 damaged, 4 too much.
"""

from __future__ import annotations

import io
import json
import sys
from typing import Any

import numpy as np

try:
    import resource
except ImportError:  # a system without limits
    resource = None  # type: ignore[assignment]

READ, DAMAGED, TOO_MUCH = 0, 3, 4
MOST_MEMORY = 4 << 30  #: [bytes]; our judgement
_DEPTH = 6  #: of groups within groups
_SYMBOLS = "#"  #: what MATLAB's own groups of a file begin with
_WORDS = "MATLAB_class"


class _TooMuchError(Exception):
    """More values or parts than are read."""


def _limit(seconds: int) -> None:
    if resource is not None:
        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
        resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds + 1))


class _Reader:
    """Gathers the arrays of a file, each counted before it is read."""

    def __init__(self, most_values: int, most_parts: int) -> None:
        self.left, self.parts = most_values, most_parts
        self.arrays: dict[str, Any] = {}
        self.skipped: list[str] = []

    def group(self, group: Any, depth: int) -> dict[str, Any]:
        """Return a group as JSON can hold it, its arrays by their number."""
        import h5py

        held: dict[str, Any] = {"attributes": self.attributes(group), "below": {}}
        for key in group:
            self.parts -= 1
            if self.parts < 0 or depth > _DEPTH:
                raise _TooMuchError
            if key.startswith(_SYMBOLS) or group.get(key, getlink=True).__class__ is not h5py.HardLink:
                continue  # what lies in another file is none of this one's
            below = group[key]
            if isinstance(below, h5py.Group):
                held["below"][key] = self.group(below, depth + 1)
            elif isinstance(below, h5py.Dataset) and (found := self.dataset(below)) is not None:
                held["below"][key] = {**found, "attributes": self.attributes(below)}
        return held

    def dataset(self, data: Any) -> dict[str, Any] | None:
        """Return where a dataset's array is, or those of its columns; None of references, or of nothing."""
        import h5py

        if data.shape is None or (data.dtype.kind == "O" and h5py.check_string_dtype(data.dtype) is None):
            self.skipped.append(str(data.name))
            return None
        self.left -= data.size * max(1, len(data.dtype.names or ()))
        if self.left < 0 or data.size * data.dtype.itemsize > MOST_MEMORY // 4 or data.is_virtual or data.external:
            raise _TooMuchError
        values = data[()]
        if data.dtype.names:
            return {
                "below": {name: {"array": self.kept(data, values[name]), "attributes": {}} for name in data.dtype.names}
            }
        return {"array": self.kept(data, values)}

    def kept(self, data: Any, values: Any) -> str:
        """Keep an array, and return its number."""
        if data.attrs.get(_WORDS) in (b"char", "char"):
            values = np.array("".join(map(chr, np.asarray(values).T.reshape(-1))))
        elif data.attrs.get(_WORDS) is not None and getattr(values, "ndim", 0) == 2:
            values = values.T if values.size > 1 else values.reshape(())  # MATLAB has no number that is no matrix
        found = np.asarray(values)
        if found.dtype.kind == "O":
            words = [v.decode("utf-8", "replace") if isinstance(v, bytes) else str(v) for v in found.reshape(-1)]
            found = np.array(words if np.ndim(values) else words[0])
        self.arrays[str(len(self.arrays))] = found
        return str(len(self.arrays) - 1)

    def attributes(self, thing: Any) -> dict[str, Any]:
        """Return the attributes of a group or a dataset that are texts or single numbers, or a few texts."""
        held: dict[str, Any] = {}
        for key, value in thing.attrs.items():
            plain = value.tolist() if isinstance(value, np.ndarray | np.generic) else value
            plain = plain.decode("utf-8", "replace") if isinstance(plain, bytes) else plain
            if isinstance(plain, list) and len(plain) == 1:
                plain = plain[0]
            if isinstance(plain, list):
                plain = [one.decode("utf-8", "replace") if isinstance(one, bytes) else one for one in plain]
            texts = isinstance(plain, list) and all(isinstance(one, str | int | float) for one in plain)
            if isinstance(plain, str | int | float) or texts:
                held[str(key)] = plain
        return held


def main(most_values: int, most_parts: int, seconds: int) -> int:
    """Write what the file on standard input holds."""
    import h5py

    _limit(seconds)
    reader = _Reader(most_values, most_parts)
    try:
        with h5py.File(io.BytesIO(sys.stdin.buffer.read()), "r") as file:
            tree = reader.group(file, 0)
    except (_TooMuchError, MemoryError):
        return TOO_MUCH
    except Exception as error:  # the library raises whatever the damaged part provokes
        sys.stderr.write(f"{type(error).__module__}.{type(error).__qualname__}")
        return DAMAGED
    sys.stdout.buffer.write(json.dumps({"tree": tree, "skipped": reader.skipped}).encode() + b"\n")
    np.savez(sys.stdout.buffer, **reader.arrays)
    return READ


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:4])))
