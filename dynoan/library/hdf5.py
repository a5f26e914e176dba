"""The one module that touches HDF5: a sweep's channels and original bytes as an HDF5 image, and back.

Images are made and read in memory, so that the disk sees one plain write and faults of the disk are ours to report.
What is read is held against the narrow shape that `to_image` writes before any of it is unpacked::

    /                 attribute "record": one JSON text
    /channels/NAME    one float64 row of numbers; attribute "units"
    /original         the bytes of the file that was read

All of it as it is: lzf takes a quarter off a file and most of the time of an add, and other HDF5 readers may lack it.
Channels that are shuffled and lzf-compressed, as earlier versions wrote them, are read too.

The attributes are for other HDF5 readers. This program never reads them: HDF5 keeps text of any length in a heap, and
a heap made with ill intent sends the HDF5 library into an endless loop. It has the record from the text before the
HDF5 part, and channels are SI.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import count
from typing import Any

import numpy as np
from numpy.typing import NDArray

from dynoan.errors import LibraryError
from dynoan.model.arrays import FloatArray

MAX_SAMPLES = 20_000_000
MAX_ORIGINAL = 1 << 30  #: [bytes]
MAX_CHANNELS = 32
CHUNK = 1 << 16
# lzf cannot pack tighter than this, so more is a bomb or damage.
_TIGHTEST = 100
CHANNEL_NAME = re.compile(r"[a-z][a-z0-9_]{0,39}")
_ALLOWED_FILTERS = {2, 32000}  # shuffle, lzf
_serial = count()


@dataclass(frozen=True)
class Content:
    """What an image holds."""

    channels: Mapping[str, FloatArray]
    original: bytes


def to_image(content: Content, units: Mapping[str, str], record: str) -> bytes:
    """Return the bytes of an HDF5 file that holds this, with the unit of each channel and a record as attributes."""
    from h5py import h5f, h5g, h5p, h5t

    # HDF5's own calls: h5py's files and datasets take as long again as all of this.
    access = h5p.create(h5p.FILE_ACCESS)
    access.set_fapl_core(1 << 16, False)
    file = h5f.create(_own_name(), h5f.ACC_TRUNC, fapl=access)
    _note(file, b"record", record)
    group = h5g.create(file, b"channels")
    for name, values in sorted(content.channels.items()):
        rows = np.ascontiguousarray(values, dtype="<f8")
        _note(_put(group, name.encode(), rows, h5t.IEEE_F64LE), b"units", units[name])
    _put(file, b"original", np.frombuffer(content.original, dtype="u1"), h5t.STD_U8LE)
    h5f.flush(file)
    image: bytes = file.get_file_image()
    file.close()
    return image


def _own_name() -> bytes:
    """Return a name no other image of this process has.

    HDF5 takes two images in memory with one name for one file: a thread that opened the second would read the first.
    """
    return b"sweep %d" % next(_serial)


def _put(where: Any, name: bytes, row: NDArray[Any], kind: Any) -> Any:
    """Make a dataset of one row of numbers."""
    from h5py import h5d, h5s

    dataset = h5d.create(where, name, kind, h5s.create_simple(row.shape))
    dataset.write(h5s.ALL, h5s.ALL, row)
    return dataset


def _note(where: Any, name: bytes, text: str) -> None:
    """Make an attribute of text."""
    from h5py import h5a, h5s, h5t, string_dtype

    kind = h5t.py_create(string_dtype(), logical=True)
    value = np.array(text, dtype=string_dtype())
    h5a.create(where, name, kind, h5s.create(h5s.SCALAR)).write(value, h5t.py_create(string_dtype()))


def from_image(image: bytes, file: str) -> Content:
    """Return what an HDF5 file holds.

    Raises
    ------
    LibraryError
        If it holds anything but what `to_image` writes: links to elsewhere, foreign types, other storage or filters,
        declared sizes that its bytes cannot fill.
    """
    import h5py

    access = h5py.h5p.create(h5py.h5p.FILE_ACCESS)
    access.set_fapl_core(1 << 16, False)
    access.set_file_image(image)
    try:
        with h5py.File(h5py.h5f.open(_own_name(), h5py.h5f.ACC_RDONLY, fapl=access)) as opened:
            return _content(opened, file)
    except LibraryError:
        raise
    except (OSError, RuntimeError, KeyError, ValueError, TypeError, OverflowError, AttributeError) as error:
        raise _damaged(file, f"its HDF5 part cannot be read ({str(error)[:120]})") from None


def _damaged(file: str, why: str) -> LibraryError:
    return LibraryError(why, where=file)


def _content(opened: Any, file: str) -> Content:
    if _members(opened, file) != {"channels", "original"}:
        raise _damaged(file, "does not hold just 'channels' and 'original'")
    group = opened["channels"]
    names = sorted(_members(group, file))
    channels = {name: _numbers(group[name], file, "<f8", MAX_SAMPLES) for name in names}
    return Content(channels, _numbers(opened["original"], file, "|u1", MAX_ORIGINAL).tobytes())


def _members(group: Any, file: str) -> set[str]:
    """Return the names in a group, of hard links alone: soft and external ones could lead anywhere."""
    import h5py

    if not isinstance(group, h5py.Group) or len(group) > MAX_CHANNELS:
        raise _damaged(file, "is laid out in a way this program never writes")
    names = set()
    for raw in group.id:
        if group.id.links.get_info(raw).type != h5py.h5l.TYPE_HARD:
            raise _damaged(file, f"'{raw[:40]!r}' is a link to elsewhere, which is refused")
        names.add(raw.decode("ascii", "replace"))
    if bad := [n for n in names if not CHANNEL_NAME.fullmatch(n)]:
        raise _damaged(file, f"'{bad[0][:40]}' is no name of a channel")
    return names


def _numbers(dataset: Any, file: str, kind: str, most: int) -> Any:
    """Return a one-dimensional dataset after holding its declared size against its stored bytes."""
    import h5py

    if not isinstance(dataset, h5py.Dataset):
        raise _damaged(file, "holds a group where numbers should be")
    where = dataset.name.strip("/")
    plan = dataset.id.get_create_plist()
    if plan.get_layout() not in (h5py.h5d.CONTIGUOUS, h5py.h5d.CHUNKED, h5py.h5d.COMPACT):
        raise _damaged(file, f"'{where}' is stored elsewhere, which is refused")
    if plan.get_external_count():
        raise _damaged(file, f"'{where}' is stored in another file, which is refused")
    if len(dataset.shape or ()) != 1 or dataset.dtype.str != kind:
        raise _damaged(file, f"'{where}' is not one row of numbers of the right type")
    if {plan.get_filter(i)[0] for i in range(plan.get_nfilters())} - _ALLOWED_FILTERS or plan.get_nfilters() > 2:
        raise _damaged(file, f"'{where}' is packed in a way that is refused")
    declared, stored = dataset.shape[0] * dataset.dtype.itemsize, dataset.id.get_storage_size()
    if dataset.shape[0] > most or declared > _TIGHTEST * stored:
        raise _damaged(file, f"'{where}' declares {declared} bytes but stores {stored}: refused")
    if dataset.chunks and dataset.chunks[0] > CHUNK:
        raise _damaged(file, f"'{where}' is stored in pieces that are too large")
    return dataset[...]
