"""The beginning of a sentence."""

from __future__ import annotations

from dynoan.model.adjusters import ADJUSTERS


def capital(text: str) -> str:
    """Return a text that begins with a capital, unless it begins with an adjuster's name.

    >>> capital("two runs would tell"), capital("lsr may move compression too")
    ('Two runs would tell', 'lsr may move compression too')
    """
    named = text.partition(" ")[0].rstrip(",:") in ADJUSTERS
    return text if named else text[:1].upper() + text[1:]
