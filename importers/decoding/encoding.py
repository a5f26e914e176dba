"""Which encoding a file has, judged on its first 64 KiB, and everything as UTF-8 with plain line ends."""

from __future__ import annotations

import codecs
from functools import lru_cache
from typing import NamedTuple

from dynoan.model.importing import HEAD
from importers.assumptions.decoding import UTF16_LOOK, UTF16_ZERO_SHARE
from importers.decoding.code_pages import EAST_ASIAN, old_encoding
from importers.decoding.foreign import refuse_binary, refuse_foreign

_PADDING = b"\0" * 16
_FEW_ZEROS, _PER_ZERO = 8, 500  #: so many, and no more than one in so many bytes, may stand in damaged text
_LOOK_FOR_ONE = 1 << 20  #: how far one is looked for [bytes]
_LAST_CONTROL, _IN_TEXT = 31, b"\t\r\n\f\x1a"
_LOOK = 400  #: zeros among so many bytes are of a wide encoding [bytes]


class Encoding(NamedTuple):
    """How a file's bytes are text."""

    name: str  #: as `bytes.decode` knows it
    mark: int = 0  #: length of the byte order mark [bytes]

    @property
    def words(self) -> str:
        """The encoding for people."""
        return self.name + (" with a byte order mark" if self.mark else "")

    @property
    def wide(self) -> bool:
        """Whether a character takes two or four bytes, or some do, of which the second may look like another one."""
        return self.name.startswith(("utf-16", "utf-32")) or self.name in EAST_ASIAN

    @property
    def of_body(self) -> str:
        """The encoding of what `as_utf8` returns: words of a one-byte encoding stay as they stand."""
        return "utf-8" if self.wide or self.name.startswith("utf") else self.name


def detect_encoding(head: bytes, name: str) -> Encoding:
    """Return the encoding of a file from its first bytes.

    Raises
    ------
    ReadError
        If the bytes are empty or no text.
    """
    refuse_foreign(head, name)
    found = _marked(head) or _unmarked_utf16(head)
    if found is not None:
        return found
    refuse_binary(head, name)
    try:
        codecs.getincrementaldecoder("utf-8")("strict").decode(head)
    except UnicodeDecodeError:
        return Encoding(old_encoding(head))
    return Encoding("utf-8")


def _marked(head: bytes) -> Encoding | None:
    if head.startswith(codecs.BOM_UTF8):
        return Encoding("utf-8", mark=3)
    if head.startswith((codecs.BOM_UTF32_LE, codecs.BOM_UTF32_BE)):
        return Encoding("utf-32-le" if head[0] == 0xFF else "utf-32-be", mark=4)
    if head.startswith(codecs.BOM_UTF16_LE):
        return Encoding("utf-16-le", mark=2)
    return Encoding("utf-16-be", mark=2) if head.startswith(codecs.BOM_UTF16_BE) else None


def _unmarked_utf16(head: bytes) -> Encoding | None:
    look = head[:UTF16_LOOK]
    even, odd = look[0::2].count(0), look[1::2].count(0)
    least = UTF16_ZERO_SHARE * (len(look) // 2)
    if odd > least and even == 0:
        return Encoding("utf-16-le")
    return Encoding("utf-16-be") if even > least and odd == 0 else None


@lru_cache(maxsize=4)
def head_text(head: bytes, encoding: Encoding, *, whole: bool) -> str:
    """Return the head as text without a half line at its end, unless it is the whole file; line ends as ``\\n``."""
    text = head[encoding.mark :].decode(encoding.name, errors="replace")
    text = text.replace("\r\r\n", "\n").replace("\r\n", "\n").replace("\r", "\n")
    if not whole and "\n" in text:
        text = text[: text.rfind("\n") + 1]
    return text


@lru_cache(maxsize=4)
def lines_of(text: str) -> tuple[str, ...]:
    """Return the lines of a head's text, which many look at."""
    return tuple(text.split("\n"))


def as_utf8(data: bytes, encoding: Encoding) -> bytes:
    """Return the whole file as bytes in which digits and marks are ASCII and lines end in ``\\n`` or ``\\r\\n``."""
    if encoding.wide:
        data = data[encoding.mark :].decode(encoding.name, errors="replace").encode()
    return one_line_end(data) if has_lone_returns(data[:HEAD]) else data


def has_lone_returns(data: bytes) -> bool:
    """Whether lines end in returns without a line feed."""
    return b"\r" in data and b"\r" in data.replace(b"\r\n", b"")


def one_line_end(data: bytes) -> bytes:
    """Return bytes whose lines end in line feeds alone."""
    return data.replace(b"\r\r\n", b"\n").replace(b"\r\n", b"\n").replace(b"\r", b"\n")


def without_padding(data: bytes) -> bytes:
    """Return a file's bytes without the zeros that a logger put behind its text when it set aside room for more.

    The few within long text that a loss of power leaves become question marks, so that their lines are seen as torn.
    """
    if data.endswith(_PADDING):
        text = data.rstrip(b"\0")
        return data if b"\0" in text[:_LOOK] else text
    if b"\0" not in data[:_LOOK_FOR_ONE] or data[:4].count(0):
        return data
    few = 0 < (zeros := data.count(0)) <= _FEW_ZEROS and zeros * _PER_ZERO < len(data) and data[:_LOOK].isascii()
    plain = few and all(c > _LAST_CONTROL or c in _IN_TEXT for c in data[:_LOOK].replace(b"\0", b""))
    return data.replace(b"\0", b"?") if plain else data
