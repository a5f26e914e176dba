"""Text in one spelling: the form in which all vocabularies here are written and compared."""

from __future__ import annotations

import unicodedata
from functools import lru_cache

from importers.patterns import regex

_PUNCTUATION = regex(r"[^\w%°µ/.+-]+|_")


@lru_cache(maxsize=4096)
def plain(text: str) -> str:
    """Return text in lower case without accents and punctuation, with single blanks.

    >>> plain("Dämpferkraft_(gefiltert)")
    'dampferkraft gefiltert'
    """
    if text.isascii():
        return " ".join(_PUNCTUATION.sub(" ", text.lower()).split())
    folded = unicodedata.normalize("NFKD", text.lower().replace("ß", "ss").replace("°", "\ue000"))
    bare = "".join(c for c in folded if not unicodedata.combining(c)).replace("\ue000", "°").replace("μ", "µ")
    return " ".join(_PUNCTUATION.sub(" ", bare).split())


def folded(pattern: str) -> str:
    """Return a pattern whose words are spelled as `plain` spells them, Korean ones in their letters."""
    whole = unicodedata.normalize("NFKD", pattern)
    return pattern if pattern.isascii() else "".join(c for c in whole if not unicodedata.combining(c))


def word_set(text: str) -> frozenset[str]:
    """Return the words or phrases, as `plain` spells them, of a vocabulary written as one text with commas."""
    words = (word.strip() for word in text.split(","))
    return frozenset(word if word.isascii() else plain(word) for word in words if word)
