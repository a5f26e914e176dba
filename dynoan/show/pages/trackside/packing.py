"""Whole numbers over clicks, packed for a page: neighbours differ little, so what they do not foretell is deflated.

Each number is less what its neighbours along every axis foretell (the difference taken along each axis in turn),
modulo the span of its type, folded so that small ones of either sign are small, low and high bytes apart, deflated
(RFC 1951), as base64. `inflate.js` and `tables.js` undo it on the page, exactly.
"""

from __future__ import annotations

import base64
import zlib
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

Kind = Literal["<u1", "<u2"]
_RAW = -15  #: window bits of zlib for a bare stream (RFC 1951), without head and checksum


def packed(whole: NDArray[Any], kind: Kind) -> str:
    """Return whole numbers of any shape, none below 0 or beyond the kind's span, as text."""
    rest = whole.astype(kind)
    for axis in range(rest.ndim):
        rest = np.diff(rest, axis=axis, prepend=np.zeros_like(rest.take([0], axis)))
    signed = rest.ravel().view(kind.replace("u", "i")).astype(np.int64)
    folded = np.where(signed >= 0, 2 * signed, -2 * signed - 1).astype(kind)
    planes = folded.view("u1").reshape(-1, folded.itemsize).T.tobytes()
    deflate = zlib.compressobj(9, zlib.DEFLATED, _RAW)
    return base64.b64encode(deflate.compress(planes) + deflate.flush()).decode()


def unpacked(text: str, shape: tuple[int, ...], kind: Kind) -> NDArray[Any]:
    """Return the whole numbers of `packed` in their shape."""
    size = np.dtype(kind).itemsize
    planes = np.frombuffer(zlib.decompress(base64.b64decode(text), _RAW), "u1").reshape(size, -1)
    folded = np.ascontiguousarray(planes.T).view(kind).ravel().astype(np.int64)
    rest = np.where(folded % 2, -(folded + 1) // 2, folded // 2).astype(kind.replace("u", "i")).view(kind)
    out = rest.reshape(shape)
    for axis in range(out.ndim):
        out = np.cumsum(out, axis=axis, dtype=kind)
    return out
