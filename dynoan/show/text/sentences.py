"""The beginning of a sentence."""

from __future__ import annotations

import re

from dynoan.model.adjusters import ADJUSTERS

_OF_A_FILE = re.compile(r"[\w-]+[./_]\w")  #: how a file's name or a key begins


def capital(text: str) -> str:
    """Return a text that begins with a capital, unless it begins with an adjuster's name, a file's or a key's.

    >>> capital("two runs would tell"), capital("lsr may move compression too")
    ('Two runs would tell', 'lsr may move compression too')
    >>> capital("cars/club.toml has no wheel_radius"), capital("surfaces.loose states no grip")
    ('cars/club.toml has no wheel_radius', 'surfaces.loose states no grip')
    """
    first = text.partition(" ")[0].rstrip(",:")
    return text if first in ADJUSTERS or _OF_A_FILE.match(first) else text[:1].upper() + text[1:]
