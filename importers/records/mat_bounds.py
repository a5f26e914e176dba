"""What a MATLAB file says of its own size, checked before it is believed: a few bytes can claim to be gigabytes.

The layout of elements (a tag of type and length, then the data; arrays of flags, dimensions, name and content) is that
of MATLAB's MAT-File Format, level 5 (from memory).
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator
from itertools import islice
from math import prod
from typing import NamedTuple

from importers.assumptions.records import MOST_UNPACKED, MOST_VALUES, RECORD_DEPTH

_HEAD = 128  #: length of the file's head [bytes]
_TAG = 8  #: length of a tag, and what elements are filled up to [bytes]
_MATRIX, _COMPRESSED = 14, 15
_OF_ARRAYS = (1, 2, 3)  #: classes of arrays that hold arrays: cells, structures, objects
#: the class of MATLAB's own objects: name, kind and class in words follow the flags, no sizes, then an array
_OPAQUE = 17
_CHUNK = 1 << 20


class _Element(NamedTuple):
    kind: int
    content: memoryview


def claims_too_much(data: bytes) -> bool:
    """Whether a file's arrays claim more values than are read, or more parts than it has bytes for."""
    order = ">" if data[126:128] == b"MI" else "<"
    values, left = 0, MOST_UNPACKED
    for element in _elements(memoryview(data)[_HEAD:], order, padded=False):
        content = element.content
        if element.kind == _COMPRESSED:
            unpacked = _unpacked(content, left)
            if unpacked is None:
                return True
            left -= len(unpacked)
            for inner in _elements(memoryview(unpacked), order):
                values += _values(inner, order, 0)
        else:
            values += _values(element, order, 0)
        if values > MOST_VALUES:
            return True
    return False


class OwnObject(NamedTuple):
    """A variable that is an object of MATLAB's own."""

    name: str
    kind: str  #: its class: "table", "string", "datetime"


def own_objects(data: bytes) -> list[OwnObject]:
    """Return the name and the class of each variable that is one of MATLAB's own objects: a string, table, datetime."""
    order = ">" if data[126:128] == b"MI" else "<"
    found = []
    for element in _elements(memoryview(data)[_HEAD:], order, padded=False):
        unpacked = _unpacked(element.content, MOST_UNPACKED) if element.kind == _COMPRESSED else None
        each = _elements(memoryview(unpacked), order) if unpacked else iter((element,))
        for array in (one for one in each if one.kind == _MATRIX):
            flags, *words = [bytes(part.content) for part in islice(_elements(array.content, order), 4)] or [b""]
            if len(words) == 3 and len(flags) >= 4 and struct.unpack_from(order + "I", flags)[0] & 0xFF == _OPAQUE:
                found.append(OwnObject(words[0].decode("latin-1"), words[2].decode("latin-1")))
    return found


def _unpacked(content: memoryview, most: int) -> bytearray | None:
    """Return what compressed content unpacks to; None where that is more than is read."""
    stream, out = zlib.decompressobj(), bytearray()
    try:
        for at in range(0, len(content), _CHUNK):
            out += stream.decompress(content[at : at + _CHUNK], most + 1 - len(out))
            if len(out) > most:
                return None
    except zlib.error:
        pass  # the library says that the file is damaged
    return out


def _values(element: _Element, order: str, depth: int) -> int:
    """Return how many values an array and those in it claim."""
    if element.kind != _MATRIX or depth > RECORD_DEPTH:
        return 0
    parts = list(islice(_elements(element.content, order), 2))
    if len(parts) < 2 or len(parts[0].content) < 4:
        return 0
    flags = struct.unpack_from(order + "I", parts[0].content)[0]
    if flags & 0xFF == _OPAQUE:
        return sum(_values(inner, order, depth + 1) for inner in _elements(element.content, order))
    sizes = struct.unpack(f"{order}{len(parts[1].content) // 4}i", parts[1].content[: len(parts[1].content) // 4 * 4])
    claimed = prod(sizes) if sizes and min(sizes) >= 0 else 0
    if flags & 0xFF not in _OF_ARRAYS:
        return claimed
    if claimed * _TAG > len(element.content) * 2:
        return MOST_VALUES + 1
    return claimed + sum(_values(inner, order, depth + 1) for inner in _elements(element.content, order))


def _elements(data: memoryview, order: str, *, padded: bool = True) -> Iterator[_Element]:
    """Yield the elements that follow one another, as far as they are whole."""
    at = 0
    while at + _TAG <= len(data):
        kind, size = struct.unpack_from(order + "II", data, at)
        if kind >> 16:  # a short element: its length stands in the upper half, its data in the tag
            yield _Element(kind & 0xFFFF, data[at + 4 : at + 4 + min(kind >> 16, 4)])
            at += _TAG
            continue
        yield _Element(kind, data[at + _TAG : at + _TAG + size])
        at += _TAG + size + (-size % _TAG if padded else 0)
