"""Notes that people pin to cells of a workbook, which stand beside its sheets in the file: told, since none is read."""

from __future__ import annotations

import html
import io
import zipfile
from collections.abc import Iterator

from importers.patterns import regex

_LARGEST, _PARTS = 1 << 18, 16  #: larger parts of notes are left alone [bytes], and all beyond so many
_SHOWN = 3  #: notes, and characters of each
_LONGEST = 60
_PART = regex(r"xl/(?:comments[^/]*|comments/[^/]+)\.xml")
_CELL = regex(r"\sref=\"([A-Z]{1,3}\d{1,7})\"")
_TEXT = regex(r"<t(?:\s[^<>]*)?>([^<]*)</t>")


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
        texts = [archive.read(one).decode("utf-8", errors="replace") for one in parts[:_PARTS]]
    found = [note for text in texts for note in _notes(text)]
    shown = [f"{cell} '{words[:_LONGEST]}'" for cell, words in found if words]
    more = f" and {len(shown) - _SHOWN} more" if len(shown) > _SHOWN else ""
    return (f"notes pinned to cells are not read: {', '.join(shown[:_SHOWN])}{more}",) if shown else ()


def _notes(text: str) -> Iterator[tuple[str, str]]:
    """Yield the cell and the words of each note of a part."""
    for piece in text.split("</comment>")[:-1]:
        head, _, held = piece[piece.rfind("<comment ") :].partition(">")
        if cell := _CELL.search(head):
            yield cell[1], _words(held)


def _words(held: str) -> str:
    """Return the words of a note in one line."""
    return " ".join(html.unescape("".join(_TEXT.findall(held))).split())
