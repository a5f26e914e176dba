"""A column's name to what the column holds: channel, unit, direction, adjuster."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from functools import lru_cache

from importers.words.clicks import adjuster_of, clicks_of
from importers.words.units import CHANNEL, KIND, clean_unit, is_unit, kinds_of
from importers.words.vocabulary import CHANNEL_WORDS, LENGTHS, LESSER, OTHER, TABLE_WORDS, direction_of, plain

_BRACKETS = re.compile(r"[\[({<]([^\])}>]*)[\])}>]")
_TAILS = (
    re.compile(r"^(?P<name>.+?)\s*/\s*(?P<unit>\(?[^/]+(?:/[^/]+)?\)?)$"),
    re.compile(r"^(?P<name>.+?)\s*[,;]\s*(?P<unit>[^,;]+)$"),
    re.compile(r"^(?P<name>.+?)\s+(?:in|en|as)\s+(?P<unit>\S+(?:\s\S+)?)$", re.IGNORECASE),
    re.compile(
        r"^(?P<name>.+?)[\s_:.-]+(?P<unit>(?:deg|per)?[\s_]?[^\s_]+[\s_](?:per[\s_])?(?:s|sec|c|f|force))$",
        re.IGNORECASE,
    ),
    re.compile(r"^(?P<name>.+?)[\s_:.-]+(?P<unit>[^\s_]+)$"),
    re.compile(r"^(?P<name>[A-Za-z]*[a-z])(?P<unit>N|kN|KN|Lbs?|Lbf|LBS?|LBF|MM|M|MMS|MPS|IPS|In|IN|Mm|Mms|Ms|Sec|S|C|F|mm|Kg|KG|Kgf)$"),
)  # fmt: skip
_POSITIVE = re.compile(r"\+\s*(?:ve|=|is|:)?\s*|positive?\s*(?:is|=|:|in)?\s*", re.IGNORECASE)
_ENDINGS = (("force", "kraft"), ("velocity", "geschwindigkeit"), ("displacement", "weg"), ("displacement", "hub"),
            ("time", "zeit"), ("temperature", "temperatur"), ("pressure", "druck"),
            ("velocity", "velocity"), ("force", "force"), ("displacement", "position"))  # fmt: skip
#: units of velocity whose stroke got lost, as in "velocity_ms"
_SPEEDS = {"ms": "m/s", "mms": "mm/s", "ins": "in/s", "cms": "cm/s"}
_OF = frozenset(("de", "du", "di", "del", "des", "of", "d", "della", "dell", "la", "dello"))


@dataclass(frozen=True)
class Column:
    """What one column holds, as its name and unit say."""

    index: int
    text: str  #: the name as it stood
    unit: str = ""  #: the unit as it stood; empty where none is given
    channel: str | None = None  #: a channel of a sweep
    role: str | None = None  #: "shock", "pack", "run", "cycle", "direction", "index" or an adjuster's name
    direction: str | None = None
    clicks: dict[str, int] = field(default_factory=dict, hash=False)
    unknown_unit: str = ""  #: what stands where a unit should be
    lesser: bool = False  #: a goal or by-product rather than the measurement
    positive: str | None = None  #: the direction that counts positive, where the name says so
    by_unit: bool = False  #: the channel follows from the unit alone

    @property
    def known(self) -> bool:
        """Whether the name says anything the importer understands."""
        return self.channel is not None or self.role is not None or bool(self.clicks) or self.direction is not None


@dataclass(frozen=True)
class _Parts:
    name: str
    unit: str = ""
    unknown: str = ""


@lru_cache(maxsize=4096)
def describe(index: int, text: str, unit: str = "") -> Column:
    """Return what a column holds from its name and, where there is a units row, its unit there."""
    name = text.strip().strip("\"'").strip()
    parts = _split_unit(name, bool(unit))
    given = unit.strip().strip("[](){}").strip() or parts.unit
    if not parts.name and given:
        return _only_unit(index, text, given)
    bare = plain(_camel(parts.name))
    channel = _channel(bare, given)
    column = Column(index, text.strip(), unit=given, unknown_unit="" if given else parts.unknown)
    column = replace(column, direction=direction_of(bare), lesser=_lesser(bare), clicks=clicks_of(parts.name))
    return _settle(column, bare, channel, given)


def _settle(column: Column, bare: str, channel: str | None, unit: str) -> Column:
    kinds = kinds_of(unit) if unit else frozenset()
    if unit and not kinds:
        column = replace(column, unit="", unknown_unit=unit)
    if any(word in OTHER for word in bare.split()):
        return replace(column, direction=None, channel="pressure" if "pressure" in kinds else None)
    adjuster = adjuster_of(bare) if len(bare) > 1 and not kinds else None
    if adjuster is not None and (column.channel is None and len(bare.split()) > 1):
        return replace(column, role=adjuster, direction=None)
    if bare in LENGTHS and (not kinds or "length" in kinds):
        return replace(column, channel="displacement", positive="rebound", direction=None)
    if channel is not None:
        if channel == "displacement" and column.direction:
            return replace(column, channel=channel, positive=column.direction, direction=None)
        return replace(column, channel=channel)
    role = _role(bare)
    if role is not None and not (kinds and column.direction):
        return replace(column, role=role)
    if len(kinds) == 1:
        return _by_unit(column, next(iter(kinds)))
    return column


def _by_unit(column: Column, kind: str) -> Column:
    channel = CHANNEL[kind]
    if channel == "displacement" and column.direction:
        return replace(column, channel=channel, positive=column.direction, direction=None)
    return replace(column, channel=channel, by_unit=column.direction is None and not column.clicks)


def _only_unit(index: int, text: str, unit: str) -> Column:
    kinds = kinds_of(unit)
    channel = CHANNEL[next(iter(kinds))] if len(kinds) == 1 else None
    return Column(index, text.strip(), unit=unit if kinds else "", channel=channel, by_unit=True)


def _split_unit(name: str, has_unit: bool) -> _Parts:
    unit, unknown, rest = "", "", name
    for content in _BRACKETS.findall(name):
        if is_unit(content) and not unit:
            unit, rest = content, _cut(rest, content)
        elif _looks_like_unit(content, name) and not unknown:
            unknown, rest = content, _cut(rest, content)
    if unit or unknown:
        return _Parts(rest.strip(" ,_"), unit, "" if unit else unknown.strip())
    if is_unit(name) and not has_unit and len(plain(name)) > 1 and _channel(plain(name), "") is None:
        return _Parts("", name)
    return _tail_unit(name)


def _tail_unit(name: str) -> _Parts:
    for pattern in _TAILS:
        match = pattern.match(name)
        if match is None:
            continue
        kinds = kinds_of(match["unit"])
        bare = plain(_camel(match["name"]))
        channel = _channel(bare, match["unit"]) if bare else None
        fits = (KIND[channel] in kinds) if channel else ("force" in kinds and direction_of(bare) is not None)
        if match["unit"].lower() in _SPEEDS and _channel(bare, "") == "velocity":
            return _Parts(match["name"].strip(" ,_"), _SPEEDS[match["unit"].lower()])
        if fits:
            return _Parts(match["name"].strip(" ,_"), match["unit"])
    return _Parts(name)


def _cut(name: str, content: str) -> str:
    return re.sub(r"[\[({<]" + re.escape(content) + r"[\])}>]", " ", name).strip()


def _looks_like_unit(content: str, name: str) -> bool:
    """Whether bracketed text stands where a unit stands although it is none."""
    word = plain(content)
    if not word or " " in word or word.isdigit() or direction_of(word) or word in LESSER or word in OTHER:
        return False
    if any(word in words for words in (*CHANNEL_WORDS.values(), *TABLE_WORDS.values())) or clicks_of(content):
        return False
    return f"[{content}]" in name or len(word) <= 12


def _camel(name: str) -> str:
    return re.sub(r"(?<=[a-z])(?=[A-Z][a-z])|(?<=[a-z]{3})(?=[A-Z])", " ", name)


def _channel(bare: str, unit: str) -> str | None:
    """Return the channel that a plain name means, the unit settling what the words leave open."""
    kinds = kinds_of(unit) if unit else frozenset()
    words = bare.split()
    hits = [(at, channel) for channel, known in CHANNEL_WORDS.items() for at in _hits(bare, words, known, channel)]
    if kinds and any(KIND[c] in kinds for _, c in hits):
        hits = [(at, c) for at, c in hits if KIND[c] in kinds]
    elif kinds and hits:
        return None
    if not hits:
        return None
    first = any(word in _OF for word in words)
    return (min if first else max)(hits)[1]


def _hits(bare: str, words: list[str], known: frozenset[str], channel: str) -> list[int]:
    stem = re.sub(r"[\s.]*\d{1,2}$", "", bare)
    if bare in known or stem in known or bare.replace(" ", "") in known:
        return [len(words)]
    found = [at for at, word in enumerate(words) if len(word) > 1 and word.strip(".-+/") in known]
    found += [at for at, word in enumerate(words) for name, end in _ENDINGS
              if name == channel and len(word) > len(end) and word.endswith(end)]  # fmt: skip
    return found


def _role(bare: str) -> str | None:
    adjuster = adjuster_of(bare)
    if adjuster is not None and len(bare) > 1:
        return adjuster
    for role in ("index", *TABLE_WORDS):
        known = TABLE_WORDS[role]
        if (
            bare in known
            or bare.removesuffix(" no").removesuffix(" id").removesuffix(" name").removesuffix(" nr").rstrip(".")
            in known
        ):
            return role
    return None


def _lesser(bare: str) -> bool:
    return any(word in LESSER for word in bare.split())


__all__ = ["Column", "clean_unit", "describe"]
