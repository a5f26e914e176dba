"""Notes that people pin to cells of a workbook, which stand beside its sheets in the file: told, since none is read."""

from __future__ import annotations

import html
import io
import zipfile

from importers.patterns import regex

_LARGEST = 1 << 20  #: a larger part of notes is left alone [bytes]
_SHOWN = 3  #: notes, and characters of each
_LONGEST = 60
_PART = regex(r"xl/(?:comments[^/]*|comments/[^/]+)\.xml")
_NOTE = regex(r"(?s)<comment\b[^>]*\bref=\"(?P<cell>[A-Z]{1,3}\d{1,7})\"[^>]*>(?P<held>.*?)</comment>")
_TEXT = regex(r"(?s)<t\b[^>]*>([^<]*)</t>")


def pinned_notes(data: bytes) -> tuple[str, ...]:
    """Return a warning of the notes pinned to cells of an .xlsx; none where it has none.

    Raises
    ------
    zipfile.BadZipFile
        If the bytes are no archive.
    """
    if b"xl/comments" not in data:
        return ()
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        parts = [one for one in archive.infolist() if _PART.fullmatch(one.filename) and one.file_size <= _LARGEST]
        texts = [archive.read(one).decode("utf-8", errors="replace") for one in parts]
    found = [(note["cell"], _words(note["held"])) for text in texts for note in _NOTE.finditer(text)]
    shown = [f"{cell} '{words[:_LONGEST]}'" for cell, words in found if words]
    more = f" and {len(shown) - _SHOWN} more" if len(shown) > _SHOWN else ""
    return (f"notes pinned to cells are not read: {', '.join(shown[:_SHOWN])}{more}",) if shown else ()


def _words(held: str) -> str:
    """Return the words of a note in one line."""
    return " ".join(html.unescape("".join(_TEXT.findall(held))).split())
