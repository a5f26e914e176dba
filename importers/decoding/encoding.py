"""Bytes to text: which encoding, judged on the first 64 KiB, and everything as UTF-8 with plain line ends."""

from __future__ import annotations

import codecs
from dataclasses import dataclass

from dynoan.errors import ReadError

HEAD = 65536
_KINDS = (
    (b"PK\x03\x04", "a zip archive", "unpack it first"),
    (b"\xd0\xcf\x11\xe0", "an old .xls workbook", "save it as .xlsx or as CSV"),
    (b"\x1f\x8b", "a gzip archive", "unpack it first"),
    (b"BZh", "a bzip2 archive", "unpack it first"),
    (b"\xfd7zXZ", "an xz archive", "unpack it first"),
    (b"Rar!", "a RAR archive", "unpack it first"),
    (b"7z\xbc\xaf", "a 7z archive", "unpack it first"),
    (b"%PDF", "a PDF", "ask the shop for the numbers as CSV"),
    (b"\x89PNG", "a picture", "ask the shop for the numbers as CSV"),
    (b"\xff\xd8\xff", "a picture", "ask the shop for the numbers as CSV"),
    (b"\x89HDF", "an HDF5 file", "export it as CSV"),
    (b"{\\rtf", "a word processor's file", "save it as plain text"),
)  # fmt: skip
_CONTROL = bytes(range(9)) + bytes(range(14, 32)) + b"\x7f"
_CONTROL = _CONTROL.replace(b"\x1a", b"").replace(b"\x0c", b"")


@dataclass(frozen=True)
class Encoding:
    """How a file's bytes are text."""

    name: str  #: as `bytes.decode` knows it
    mark: int  #: length of the byte order mark

    @property
    def words(self) -> str:
        """The encoding for people."""
        return self.name + (" with a byte order mark" if self.mark else "")


def detect(head: bytes, name: str) -> Encoding:
    """Return the encoding of a file from its first bytes.

    Raises
    ------
    ReadError
        If the bytes are empty or no text.
    """
    if not head.strip(b"\0\r\n\t \xef\xbb\xbf\xfe\xff"):
        raise ReadError(f"{name}: the file is empty; wanted a table of time, displacement, velocity and force")
    for magic, what, way_out in _KINDS:
        if head.startswith(magic):
            raise ReadError(f"{name}: this is {what}, not text; {way_out}")
    start = head.lstrip(b"\xef\xbb\xbf\r\n\t ")[:400].lower()
    if (
        start.startswith((b"<html", b"<!doctype", b"<?xml", b"<table"))
        or start[:2] in (b'{"', b"[{")
        or start.startswith(b"{\n")
    ):
        kind = "a web page or XML" if start.startswith(b"<") else "JSON"
        raise ReadError(f"{name}: this is {kind}, not a table of text; export the run as CSV")
    found = _marked(head) or _unmarked_utf16(head)
    if found is not None:
        return found
    if len(head.translate(None, _CONTROL)) < len(head) - len(head) // 400 or b"\0" in head:
        at = next(i for i, byte in enumerate(head) if byte in _CONTROL)
        raise ReadError(
            f"{name}: not text (byte {head[at]:#04x} at offset {at}); wanted a text table, export the run as CSV"
        )
    try:
        codecs.getincrementaldecoder("utf-8")("strict").decode(head)
    except UnicodeDecodeError:
        return Encoding("cp1252", 0)
    return Encoding("utf-8", 0)


def _marked(head: bytes) -> Encoding | None:
    if head.startswith(codecs.BOM_UTF8):
        return Encoding("utf-8", 3)
    if head.startswith((codecs.BOM_UTF32_LE, codecs.BOM_UTF32_BE)):
        return Encoding("utf-32-le" if head[0] == 0xFF else "utf-32-be", 4)
    if head.startswith(codecs.BOM_UTF16_LE):
        return Encoding("utf-16-le", 2)
    return Encoding("utf-16-be", 2) if head.startswith(codecs.BOM_UTF16_BE) else None


def _unmarked_utf16(head: bytes) -> Encoding | None:
    even, odd = head[0:2000:2].count(0), head[1:2000:2].count(0)
    half = len(head[:2000]) // 2
    if odd > 0.9 * half and even == 0:
        return Encoding("utf-16-le", 0)
    return Encoding("utf-16-be", 0) if even > 0.9 * half and odd == 0 else None


def head_text(head: bytes, encoding: Encoding, *, whole: bool) -> str:
    """Return the head as text without a half line at its end, unless it is the whole file; line ends as ``\\n``."""
    text = head[encoding.mark :].decode(encoding.name, errors="replace")
    text = text.replace("\r\r\n", "\n").replace("\r\n", "\n").replace("\r", "\n")
    if not whole and "\n" in text:
        text = text[: text.rfind("\n") + 1]
    return text


def as_utf8(data: bytes, encoding: Encoding) -> bytes:
    """Return the whole file as bytes in which digits and marks are ASCII and lines end in ``\\n`` or ``\\r\\n``."""
    if encoding.name.startswith(("utf-16", "utf-32")):
        data = data[encoding.mark :].decode(encoding.name, errors="replace").encode()
    if b"\r" in data[:HEAD].replace(b"\r\n", b""):
        data = data.replace(b"\r\r\n", b"\n").replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    return data
