"""How wide text is where it is shown, and breaking it between words without parting a number from its unit."""

from __future__ import annotations

import re
import shutil
import unicodedata

_BOUND = "\u2060"  #: stands for a blank at which no line is broken; itself never printed
_HELD = re.compile(
    r"(?<=\d) (?=(?:%|°|N|J|Hz|m|mm|ms|s|kg|bar|lbf|lb|in|ft|psi)(?![A-Za-z]))"
    r"|(?<=N) (?=s/)|(?<=lbf) (?=s/)|(?<=ft) (?=lbf)|(?<=±) | (?=±)|(?<=\+/-) | (?=\+/-)"
)


def terminal_width() -> int:
    """Return how many columns the terminal has."""
    return shutil.get_terminal_size().columns


def one_line(cell: object) -> str:
    """Return text that cannot steer a terminal: names come from files."""
    return "".join(c if c.isprintable() else " " for c in str(cell))


def across(text: str) -> int:
    """Return how many columns text takes."""
    if text.isascii():
        return len(text)
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text)


def padded(text: str, width: int, to_right: bool) -> str:
    """Return text filled with blanks to a width."""
    space = " " * (width - across(text))
    return space + text if to_right else text + space


#: where a long name may be broken in a table, besides at blanks: after "_" and between "lsc=10," and "lsr=10"
_SEAMS = re.compile(r"(?<=[_,])(?=[A-Za-z])")


def wrapped(text: str, width: int, hang: int = 0, *, seams: bool = False) -> list[str]:
    """Return a line as lines no wider than `width`, later ones indented as the first; a longer word stays whole.

    Later lines are set in by `hang` more blanks. With `seams` a longer word may be broken where a name has a seam.
    """
    if across(text) <= width:
        return [text]
    indent = text[: len(text) - len(text.lstrip())]
    lines = [""]
    for glue, word in _parts(_bind(text.strip()), width if seams else None):
        longer = f"{lines[-1]}{glue}{word}" if lines[-1] else indent + word
        if lines[-1] and across(longer) > width:
            lines.append(indent + " " * hang + word)
        else:
            lines[-1] = longer
    return [line.replace(_BOUND, " ") for line in lines]


def _parts(text: str, width: int | None) -> list[tuple[str, str]]:
    """Return words with the blank before each, one that is wider than `width` in parts with nothing before them."""
    parts = []
    for word in text.split(" "):
        pieces = _SEAMS.split(word) if width is not None and across(word) > width else [word]
        parts += [(" " if first == 0 else "", piece) for first, piece in enumerate(pieces)]
    return parts


def least_width(text: str) -> int:
    """Return the width below which text, broken at blanks and at the seams of names, does not fit."""
    return max((across(piece) for word in text.split() for piece in _SEAMS.split(word)), default=0)


def spread(text: str, width: int, hang: int = 0) -> str:
    """Return text of several lines, each wrapped by itself."""
    return "\n".join(part for line in text.split("\n") for part in wrapped(line, width, hang))


def _bind(text: str) -> str:
    """Return text with the blanks before a unit, inside one and around "±" marked as no place to break."""
    return _HELD.sub(_BOUND, text)
