"""Files that are no text, each refused by what it is."""

from __future__ import annotations

from typing import NamedTuple

from dynoan.errors import ReadError
from importers.assumptions.decoding import BYTES_PER_CONTROL_BYTE


class _Kind(NamedTuple):
    magic: bytes
    what: str
    way_out: str


_KINDS = (
    _Kind(b"PK\x03\x04", "a zip archive", "unpack it first"),
    _Kind(b"\xd0\xcf\x11\xe0", "an old .xls workbook", "save it as .xlsx or as CSV"),
    _Kind(b"\x1f\x8b", "a gzip archive", "unpack it first"),
    _Kind(b"BZh", "a bzip2 archive", "unpack it first"),
    _Kind(b"\xfd7zXZ", "an xz archive", "unpack it first"),
    _Kind(b"Rar!", "a RAR archive", "unpack it first"),
    _Kind(b"7z\xbc\xaf", "a 7z archive", "unpack it first"),
    _Kind(b"%PDF", "a PDF", "ask the shop for the numbers as CSV"),
    _Kind(b"\x89PNG", "a picture", "ask the shop for the numbers as CSV"),
    _Kind(b"\xff\xd8\xff", "a picture", "ask the shop for the numbers as CSV"),
    _Kind(b"\x89HDF", "an HDF5 file", "export it as CSV"),
    _Kind(b"{\\rtf", "a word processor's file", "save it as plain text"),
)
_FIRST = 2000  #: in which a file says which XML it is [bytes]
_BLANK = b"\0\r\n\t \xef\xbb\xbf\xfe\xff"
#: form feed and the old end-of-file mark may stand in text
_CONTROL = bytes({*range(9), *range(14, 32), 0x7F} - {0x1A, 0x0C})


def refuse_foreign(head: bytes, name: str) -> None:
    """Refuse a file that is empty, or that its first bytes show to be something else than text.

    Raises
    ------
    ReadError
        With what it is and what to do.
    """
    if not head.strip(_BLANK):
        raise ReadError(
            "the file is empty", where=name, hint="wanted a table of time, displacement, velocity and force"
        )
    for kind in _KINDS:
        if head.startswith(kind.magic):
            raise ReadError(f"this is {kind.what}, not text", where=name, hint=kind.way_out)
    start = head.lstrip(b"\xef\xbb\xbf\r\n\t ")[:400].lower()
    markup = start.startswith((b"<html", b"<!doctype", b"<?xml", b"<table"))
    if b"urn:schemas-microsoft-com:office:spreadsheet" in head[:_FIRST]:
        what = "a workbook in the XML of Excel 2003"
        raise ReadError(f"this is {what}, not text", where=name, hint="open it and save it as .xlsx, or as CSV")
    if markup or start.startswith((b'{"', b"[{", b"{\n")):
        kind_of_text = "a web page or XML" if start.startswith(b"<") else "JSON"
        raise ReadError(f"this is {kind_of_text}, not a table of text", where=name, hint="export the run as CSV")


def refuse_binary(head: bytes, name: str) -> None:
    """Refuse bytes of a one-byte encoding among which too many are control bytes.

    Raises
    ------
    ReadError
        With the first such byte.
    """
    plain = len(head.translate(None, _CONTROL))
    if plain >= len(head) - len(head) // BYTES_PER_CONTROL_BYTE and b"\0" not in head:
        return
    at = next(i for i, byte in enumerate(head) if byte in _CONTROL)
    raise ReadError(
        f"not text (byte {head[at]:#04x} at offset {at})", where=name, hint="wanted a text table, export the run as CSV"
    )
