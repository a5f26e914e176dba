"""Packs that are called by a code such as "C5/R3", which is no setting of the clicks."""

from __future__ import annotations

from collections.abc import Sequence

from importers.patterns import regex
from importers.stated.pair import StatedPair
from importers.words.adjusters import CLICKS_ALONE, adjuster_of
from importers.words.channels import TABLE_WORDS
from importers.words.clicks import clicks_of
from importers.words.spelling import plain

_END = r"(?![.,]?\d)(?=[\W_]|$|[crbdz]\d)"
#: an adjuster's letters or word with a number, or a number with a letter
_TOKEN = regex(
    rf"(?i)(?:(?P<speed>[lh]s[crb])|(?P<c>comp\w*|bump|druck\w*|[cd])|(?P<r>reb\w*|zug\w*|[rz]))[\s.:=-]{{0,2}}\d{{1,3}}{_END}"
    rf"|\d{{1,3}}\s?(?:(?P<cc>[cd])|(?P<rr>[rz])){_END}"
)
_CODED = regex(r"\s+(?:codes?|spec|config|ref|id)\.?$")  #: what a key may say behind a pack
_BETWEEN = regex(r"[\s,/|+_-]{0,3}")
_CLICKS_BEHIND = regex(rf"(?i)[\s,]*{CLICKS_ALONE}\W*$")


def code_of(value: str) -> str | None:
    """Return the code that a pack's value begins with and that reads like clicks; None for a name or for clicks.

    >>> code_of("C5/R3"), code_of("6C 4R, LSC 3 LSR 9"), code_of("gravel C6 R8"), code_of("C5 R3 clicks")
    ('C5/R3', '6C 4R', None, None)
    """
    ways, at, end = list[str](), 0, 0
    while (token := _TOKEN.match(value, at)) is not None:
        way = str(token.lastgroup)[0]
        if ways and (way != ways[0] if "s" in (way, ways[0]) else way in ways):
            break  # what follows are clicks
        ways.append(way)
        end = token.end()
        at = end + len(_BETWEEN.match(value, end)[0])  # type: ignore[index]
    return value[:end] if end and not _CLICKS_BEHIND.match(plain(value[end:])) else None


def without_codes(line: str, found: Sequence[StatedPair]) -> str:
    """Return a line without the codes of packs in it, whose numbers are no clicks: "Valving: C5/R3"."""
    for pair in found:
        code = code_of(pair.value) if names_pack(plain(pair.key).strip(" .")) else None
        at = line.find(code, max(line.find(pair.key), 0) + len(pair.key)) if code else -1
        if code and at >= 0:
            line = f"{line[:at]} {line[at + len(code) :]}"
    return line


def names_pack(key: str) -> bool:
    """Whether a key, in the form `plain` returns, calls a pack so and no adjuster: "valving", "shim code"."""
    words = TABLE_WORDS["pack"]
    known = key in words or _CODED.sub("", key) in words or _CODED.sub("s", key) in words
    return known and adjuster_of(key) is None


def begins_as_code(value: str) -> bool:
    """Whether a value begins with an adjuster's letters and a number: a code, or clicks alone."""
    return _TOKEN.match(value) is not None


def said_of_code(pack: str) -> tuple[str, ...]:
    """Return a warning of a pack that may be clicks."""
    if code_of(pack) != pack or not clicks_of(pack):
        return ()
    return (f"pack '{pack}' was taken as its code: if those are clicks, state them",)
