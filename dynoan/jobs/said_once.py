"""Warnings of several runs or cases, each told once."""

from __future__ import annotations

import re
from collections.abc import Iterable

#: a number with its unit; one in a name is part of the name
_NUMBER = re.compile(r"(?<![\w.-])\d+(?:\.\d+)?(?= (?:s|m/s|mm/s|mm|%)(?!\w))")


def once(texts: Iterable[str]) -> tuple[str, ...]:
    """Return texts in their order, of those that differ in their numbers alone the one whose first number is greatest.

    >>> once(["fast for 0.02 s", "no gas rate", "fast for 0.10 s", "no gas rate"])
    ('fast for 0.10 s (the most of several runs)', 'no gas rate')
    """
    kinds: dict[str, list[str]] = {}
    for text in dict.fromkeys(texts):
        kinds.setdefault(_NUMBER.sub("#", text), []).append(text)
    return tuple(told[0] if len(told) == 1 else f"{max(told, key=_first)} (the most of several runs)"
                 for told in kinds.values())  # fmt: skip


def _first(text: str) -> float:
    found = _NUMBER.search(text)
    return float(found[0]) if found else 0.0
