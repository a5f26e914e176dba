"""Which direction lines say is positive."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple

from importers.header import describe_column
from importers.words.directions import direction_of
from importers.words.spelling import plain

_POSITIVE = r"(?:positive?[snr]?|positiv[oaei]?|positifs?|positives?|\+ve|\+|plus|pos)"
_NEGATIVE = r"(?:negative?[snr]?|negativ[oaei]?|negatifs?|negatives?|-ve|-|minus|neg)"
_UP = re.compile(rf"(?:^|\s){_POSITIVE}(?:\s|$)")
_DOWN = re.compile(rf"(?:^|\s){_NEGATIVE}(?:\s|$)")
#: without any of these a line says nothing here
_HINT = re.compile(r"(?i)pos|n[eé]g|plus|minus|[+-]")
_BESIDE_CHANNEL = rf"{_POSITIVE}|{_NEGATIVE}|compress\w*|rebound|druckstufe|zugstufe|extension"
_OTHER_WAY = {"compression": "rebound", "rebound": "compression"}
_SIGNED = frozenset(("force", "velocity", "displacement"))
_MARKS = frozenset(("+", "-", "+ve", "-ve"))


class Statement(NamedTuple):
    """What one clause says is positive."""

    channel: str  #: or "all"
    way: str  #: compression or rebound


def statements(lines: Iterable[str]) -> dict[str, str]:
    """Return which direction lines say is positive: by channel, or "all".

    >>> statements(["Sign: compression positive"]), statements(["Force: rebound = negative"])
    ({'all': 'compression'}, {'force': 'compression'})
    """
    found: dict[str, str] = {}
    for line in lines:
        if _HINT.search(line) is None:
            continue
        for clause in re.split(r"[;,|\t]", line):
            says = _says(clause)
            if says is not None:
                found.setdefault(says.channel, says.way)
    return found


def _says(clause: str) -> Statement | None:
    bare = _bare(clause)
    up, down = _UP.search(bare), _DOWN.search(bare)
    if not up and not down:
        return None
    way = direction_of(bare)
    if way is None:
        return _both(bare)
    words = re.sub(_BESIDE_CHANNEL, " ", bare)
    channel = describe_column(0, " ".join(words.split())).channel
    return Statement(channel if channel in _SIGNED else "all", way if up else _OTHER_WAY[way])


def _bare(clause: str) -> str:
    """Return a clause in plain words, its signs kept as words of their own."""
    text = re.sub(r"[=:()\"']", " ", clause.lower())
    spaced = re.sub(r"(?<=[a-zà-ÿ])[+-](?=[a-zà-ÿ])", " ", text)
    return " ".join(w if w in _MARKS else plain(w) or w for w in spaced.split())


def _both(bare: str) -> Statement | None:
    """Judge "compression +, rebound -" and its likes, where both directions stand in one clause."""
    match = re.search(rf"(\w+)\s+{_POSITIVE}(?:\s|$)", bare) or re.search(rf"{_POSITIVE}\s+(?:is\s+|in\s+)?(\w+)", bare)
    way = direction_of(match[1]) if match else None
    return Statement("all", way) if way else None
