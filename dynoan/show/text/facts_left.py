"""What a file says beside its numbers and nothing was taken of, as far as one can see: nobody is to lose it unseen."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from dynoan.model.sweep import Sweep

_WORD = re.compile(r"(?<![\w.,])\d+[.,]\d+(?![\w.,])|\w+")  #: a number or a word
_SHOWN, _LONGEST = 6, 60  #: lines that are shown; characters of one


class FactsLeft(NamedTuple):
    """Lines of a file, and how many are not shown."""

    lines: tuple[str, ...]
    more: int

    def __bool__(self) -> bool:
        return bool(self.lines)

    def text(self, where: str = "") -> str:
        """Return them in one line; `where` tells where the others can be seen."""
        return "; ".join(self.lines) + (f"; and {self.more} more{where}" if self.more else "")


def facts_left(sweep: Sweep, told: str, most: int = _SHOWN) -> FactsLeft:
    """Return what a file says that is neither in what is told of a sweep nor warned of."""
    seen, warned = _words(told), " ".join(sweep.warnings)
    left = [
        f"{key}: {value}" if value else key
        for key, value in sweep.facts.items()
        if not _numbers_or_words(value or key) <= seen and (value or key) not in warned
    ]
    cut = tuple(text if len(text) <= _LONGEST else f"{text[: _LONGEST - 1]}…" for text in left[:most])
    return FactsLeft(cut, len(left) - len(cut))


def _numbers_or_words(text: str) -> set[str]:
    """Return the numbers and codes of a text; its words where it has none."""
    words = _words(text)
    return {w for w in words if any(map(str.isdigit, w))} or words


def _words(text: str) -> set[str]:
    """Return the words and numbers of a text, each number written one way; of a clock's zeros none."""
    found = (w.replace(",", ".").removesuffix(".0").lstrip("0") for w in _WORD.findall(text.lower()))
    return set(filter(None, found))
