"""Which direction lines say is positive."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import NamedTuple

from importers.header import describe_column
from importers.patterns import regex
from importers.words.directions import direction_of
from importers.words.spelling import plain, word_set

_POSITIVE = (
    r"(?:positive?[snr]?|positiv[oaeit]?|positifs?|positives?|positie(?:f|ve)|positiivi\w*|dodatni\w*|kladn\w*|pozit\w*"
    r"|положительн\w*|\+ve|\+|plus|pos)"
)
_NEGATIVE = (
    r"(?:negative?[snr]?|negativ[oaeit]?|negatifs?|negatives?|negatie(?:f|ve)|negatiivi\w*|ujemn\w*|zaporn\w*"
    r"|отрицательн\w*|-ve|-|minus|neg)"
)
#: Japanese and Chinese set no blanks; "correction" holds the sign too
_UP = regex(rf"(?:^|\s){_POSITIVE}(?:\s|$)|(?<![補修校訂改更])正(?:$|\s|と|方向|值|値)|を正|プラス|为正|為正")
_DOWN = regex(rf"(?:^|\s){_NEGATIVE}(?:\s|$)|(?<!抱)負(?:$|\s|と|方向|値)|を負|マイナス|为负")
#: without any of these a line says nothing here
_HINT = regex(r"(?i)pos|poz|n[eé]g|plus|minus|[+-]|dodatn|ujemn|kladn|z[aá]porn|полож|отриц|正|負|负|プラス|マイナス")
#: words for pull and push that are directions where a sign is spoken of, and may be others elsewhere
_WAYS = {
    "rebound": word_set("drag, veto, trek, tah, tahu, trekk, træk, húzás, çekme, 引張, 引っ, 拉力, 拉伸"),
    "compression": word_set("tryck, puristus, druk, tlak, tlaku, trykk, tryk, nyomás, basma, 押し, 圧縮, 压力, 压缩"),
}
_BESIDE_CHANNEL = rf"{_POSITIVE}|{_NEGATIVE}|compress\w*|rebound|druckstufe|zugstufe|extension"
_OTHER_WAY = {"compression": "rebound", "rebound": "compression"}
_SIGNED = frozenset(("force", "velocity", "displacement"))
_MARKS = frozenset(("+", "-", "+ve", "-ve"))
#: a dash before a word that sets it apart and is no sign: "Essai - compression 8 clics", "- Rebote: 6 clics"
_DASH = regex(
    r"(?i)(?:^[\s*#]*|(?<![=(:\[\s])\s+|(?<=[;,|\t])\s*)-\s+(?=[^\W\d_])(?!(?:is|means?|for|when|in|ist|bei|heisst|est|es|für|pour"
    r"|para|per)\b)"
)
_USUAL_LINE = 300  #: longer lines are not kept in mind [characters]


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
    for says in _all(lines):
        found.setdefault(says.channel, says.way)
    return found


def contradicted(lines: Iterable[str]) -> tuple[str, ...]:
    """Return a warning where lines say of force that each of the directions is positive.

    >>> contradicted(["Force: positive in compression", "Sign convention: tension positive"])
    ('the file says that compression and that rebound is positive: the first was believed; --positive settles it',)
    """
    ways = list(dict.fromkeys(says.way for says in _all(lines) if says.channel in ("force", "all")))
    both = f"the file says that {' and that '.join(ways)} is positive"
    return (f"{both}: the first was believed; --positive settles it",) if len(ways) > 1 else ()


def _all(lines: Iterable[str]) -> Iterator[Statement]:
    for line in lines:
        yield from _of_known_line(line) if len(line) <= _USUAL_LINE else _of_line(line)


def _of_line(line: str) -> tuple[Statement, ...]:
    """Return what the clauses of a line say."""
    if _HINT.search(line) is None:
        return ()
    signs = line if "+" in line else _DASH.sub(" ", line)
    return tuple(said for clause in re.split(r"[;,|\t]", signs) for said in _says(clause))


@lru_cache(maxsize=2048)
def _of_known_line(line: str) -> tuple[Statement, ...]:
    """Return the same of a line that is asked of more than once."""
    return _of_line(line)


def _says(clause: str) -> list[Statement]:
    bare = _bare(clause)
    up, down = _UP.search(bare), _DOWN.search(bare)
    if not up and not down:
        return []
    way = direction_of(bare) or _pulled(bare)
    if way is None:
        return _both(bare)
    positive = way if up else _OTHER_WAY[way]
    words = re.sub(_BESIDE_CHANNEL, " ", bare).split()
    named = {channel for word in words if len(word) > 1 and (channel := describe_column(0, word).channel) in _SIGNED}
    if len(named) > 1:
        return [Statement(channel, positive) for channel in sorted(named)]
    channel = describe_column(0, " ".join(words)).channel
    return [Statement(channel if channel in _SIGNED else "all", positive)]


def _pulled(bare: str) -> str | None:
    """Return the direction of a word for pull or push; None of none, of both, or beside a sign that may be a dash."""
    if _MARKS & {*bare.split()}:
        return None
    # Two characters are a word where no blanks are set.
    words = {part for word in bare.split() for part in (word, word[:2] if not word.isascii() else word)}
    ways = [way for way, known in _WAYS.items() if words & known]
    return ways[0] if len(ways) == 1 else None


def _bare(clause: str) -> str:
    """Return a clause in plain words, its signs kept as words of their own."""
    text = re.sub(r"[=:()\"']", " ", clause.lower())
    spaced = re.sub(r"(?<=[a-zà-ÿ])[+-](?=[a-zà-ÿ])", " ", text)
    return " ".join(w if w in _MARKS else plain(w) or w for w in spaced.split())


def _both(bare: str) -> list[Statement]:
    """Judge "compression +, rebound -" and its likes, where both directions stand in one clause."""
    match = re.search(rf"(\w+)\s+{_POSITIVE}(?:\s|$)", bare) or re.search(rf"{_POSITIVE}\s+(?:is\s+|in\s+)?(\w+)", bare)
    way = direction_of(match[1]) if match else None
    return [Statement("all", way)] if way else []
