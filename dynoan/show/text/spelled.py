"""Signs that a terminal or a pipe cannot show, spelled with those that every one can: "± 2" as "+/- 2"."""

from __future__ import annotations

from functools import lru_cache
from typing import TextIO

#: sign and how it is spelled in plain letters; what stands for a unit is read back as that unit
SPELLED = {
    "±": "+/-", "−": "-", "–": "-", "—": "-", "‑": "-", "…": "...", "°": "deg", "²": "2", "³": "3", "·": "*", "⋅": "*",
    "×": "x", "µ": "u", "μ": "u", "√": "sqrt ", "→": "->", "←": "<-", "↑": "^", "↓": "v", "≤": "<=", "≥": ">=",
    "≈": "about ", "“": '"', "”": '"', "„": '"', "‘": "'", "’": "'", "\N{NO-BREAK SPACE}": " ",
    "\N{NARROW NO-BREAK SPACE}": " ", "\N{THIN SPACE}": " ", "─": "-", "│": "|",
}  # fmt: skip


def spelled(text: str, stream: TextIO) -> str:
    """Return text with the signs that a stream cannot show spelled out; what has no spelling stays."""
    if text.isascii():
        return text
    encoding = getattr(stream, "encoding", None) or "utf-8"
    return "".join(c if c.isascii() or _shown(c, encoding) else SPELLED.get(c, c) for c in text)


@lru_cache(maxsize=1024)
def _shown(character: str, encoding: str) -> bool:
    try:
        character.encode(encoding)
    except (UnicodeError, LookupError):
        return False
    return True


def replaced(error: UnicodeError) -> tuple[str, int]:
    """Return what a codec writes in the place of signs that it lacks, and where it goes on."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    return "".join(SPELLED.get(c, "?") for c in error.object[error.start : error.end]), error.end
