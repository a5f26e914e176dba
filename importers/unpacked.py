"""A text file that is packed by gzip, as loggers and mail programs leave it, unpacked within bounds."""

from __future__ import annotations

import gzip
import io
import zlib

from dynoan.errors import ReadError
from dynoan.model.importing import HEAD
from importers.assumptions.records import MOST_UNPACKED

_GZIP = b"\x1f\x8b"
_WINDOW = 31  #: what tells zlib that gzip's own header stands before the data


def unpacked(data: bytes, name: str) -> bytes:
    """Return what a file packed by gzip holds; another file's bytes as they are.

    Raises
    ------
    ReadError
        If it is damaged, or unpacks to more than is unpacked of one file.
    """
    if not data.startswith(_GZIP):
        return data
    try:
        out = gzip.GzipFile(fileobj=io.BytesIO(data)).read(MOST_UNPACKED + 1)
    except EOFError:
        raise ReadError("the gzip archive breaks off", where=name, hint="copy it again, or unpack it first") from None
    except (OSError, zlib.error):
        raise ReadError("the gzip archive is damaged", where=name, hint="pack it again, or unpack it first") from None
    if len(out) > MOST_UNPACKED:
        most = MOST_UNPACKED // 1_000_000
        raise ReadError(f"the gzip archive holds more than {most} MB", where=name, hint="unpack and split it first")
    return out


def unpacked_head(head: bytes) -> bytes:
    """Return the first bytes of what a packed file's head holds; of another file, or a damaged one, its own."""
    if not head.startswith(_GZIP):
        return head
    try:
        return zlib.decompressobj(_WINDOW).decompress(head, HEAD)
    except zlib.error:
        return head
