"""Frozen dataclasses to bytes and back, for the library's caches. Data only: nothing is ever executed on reading.

Layout: 8 bytes magic, 8 bytes length of the header, the header as JSON, then the arrays as raw little-endian float64.
"""

from __future__ import annotations

import functools
import json
import types
import typing
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any, TypeVar

import numpy as np

T = TypeVar("T")
MAGIC = b"dynoan1\n"


def encode(value: object) -> bytes:
    """Return a dataclass of numbers, texts, tuples, mappings, dataclasses and float arrays as bytes."""
    arrays: list[bytes] = []
    offset = 0

    def plain(item: Any) -> Any:
        nonlocal offset
        if isinstance(item, np.ndarray):
            raw = np.ascontiguousarray(item, dtype="<f8").tobytes()
            entry = {"array": list(item.shape), "at": offset}
            arrays.append(raw)
            offset += len(raw)
            return entry
        if is_dataclass(item) and not isinstance(item, type):
            return {f.name: plain(getattr(item, f.name)) for f in fields(item)}
        if isinstance(item, Mapping):
            return {str(k): plain(v) for k, v in item.items()}
        if isinstance(item, tuple | list):
            return [plain(v) for v in item]
        return item.item() if isinstance(item, np.generic) else item

    header = json.dumps(plain(value)).encode()
    return MAGIC + len(header).to_bytes(8, "little") + header + b"".join(arrays)


def decode(kind: type[T], data: bytes | memoryview) -> T:
    """Return the dataclass that `encode` made bytes of.

    Raises
    ------
    ValueError
        If the bytes are damaged or are something else.
    """
    if data[:8] != MAGIC:
        raise ValueError("not a cache of this program")
    size = int.from_bytes(data[8:16], "little")
    body = memoryview(data)[16 + size :]
    try:
        return _build(kind, json.loads(bytes(data[16 : 16 + size])), body)  # type: ignore[no-any-return]
    except (LookupError, TypeError, AttributeError, OverflowError, MemoryError, RecursionError) as error:
        raise ValueError(f"damaged cache: {error}") from None


@functools.cache
def _hints(kind: type) -> Mapping[str, Any]:
    """Return the types of a dataclass's fields: to evaluate them takes longer than to build one."""
    return typing.get_type_hints(kind)


def _build(kind: Any, value: Any, body: memoryview) -> Any:
    if isinstance(value, dict) and set(value) == {"array", "at"}:
        count = int(np.prod(value["array"]))
        return np.frombuffer(body, dtype="<f8", count=count, offset=value["at"]).reshape(value["array"])
    if is_dataclass(kind):
        hints = _hints(typing.cast(type, kind))
        return kind(**{f.name: _build(hints[f.name], value[f.name], body) for f in fields(kind)})  # type: ignore[operator]
    origin, args = typing.get_origin(kind), typing.get_args(kind)
    if origin in (typing.Union, types.UnionType):
        if value is None:
            return None
        return _build(next(a for a in args if a is not type(None)), value, body)
    if origin is tuple:
        return tuple(_build(args[min(i, len(args) - 2)] if ... in args else args[i], v, body)
                     for i, v in enumerate(value))  # fmt: skip
    if isinstance(value, dict):
        return {k: _build(args[1] if len(args) == 2 else object, v, body) for k, v in value.items()}
    return value
