"""Which channel, or which key of a row, a column's plain name means."""

from __future__ import annotations

import re
from typing import NamedTuple

from importers.words.adjusters import adjuster_of
from importers.words.channels import CHANNEL_WORDS, CORNERS, LESSER, TABLE_WORDS
from importers.words.unit_text import KIND, kinds_of


class _Ending(NamedTuple):
    channel: str
    end: str  #: of a compound, such as German ones


_ENDINGS = tuple(_Ending(*pair) for pair in (
    ("force", "kraft"), ("velocity", "geschwindigkeit"), ("displacement", "weg"), ("displacement", "hub"),
    ("time", "zeit"), ("temperature", "temperatur"), ("pressure", "druck"),
    ("velocity", "velocity"), ("force", "force"), ("displacement", "position"),
))  # fmt: skip
#: words after which the first channel counts, not the last: "vitesse de déplacement"
_OF = frozenset(("de", "du", "di", "del", "des", "of", "d", "della", "dell", "la", "dello"))


class _Hit(NamedTuple):
    at: int  #: which word of the name; beyond the last where the whole name is the word
    channel: str


def spaced(name: str) -> str:
    """Return a name with blanks where it runs words together by capitals."""
    return re.sub(r"(?<=[a-z])(?=[A-Z][a-z])|(?<=[a-z]{3})(?=[A-Z])", " ", name)


def channel_of(bare: str, unit: str) -> str | None:
    """Return the channel that a plain name means, the unit settling what the words leave open."""
    kinds = kinds_of(unit) if unit else frozenset()
    words = bare.split()
    hits = [_Hit(at, channel) for channel in CHANNEL_WORDS for at in _hits(bare, words, channel)]
    if kinds and any(KIND[hit.channel] in kinds for hit in hits):
        hits = [hit for hit in hits if KIND[hit.channel] in kinds]
    elif kinds and hits:
        return None
    if not hits:
        return None
    first = any(word in _OF for word in words)
    return (min if first else max)(hits).channel


def _hits(bare: str, words: list[str], channel: str) -> list[int]:
    known = CHANNEL_WORDS[channel]
    stem = re.sub(r"[\s.]*\d{1,2}$", "", bare)
    if bare in known or stem in known or bare.replace(" ", "") in known:
        return [len(words)]
    found = [at for at, word in enumerate(words) if len(word) > 1 and word.strip(".-+/") in known]
    found += [at for at, word in enumerate(words) for ending in _ENDINGS
              if ending.channel == channel and len(word) > len(ending.end) and word.endswith(ending.end)]  # fmt: skip
    return found


def role_of(bare: str) -> str | None:
    """Return which key of a row a plain name means: an adjuster, "shock", "pack", "run", "cycle" and so on."""
    adjuster = adjuster_of(bare)
    if adjuster is not None and len(bare) > 1:
        return adjuster
    stem = bare.removesuffix(" no").removesuffix(" id").removesuffix(" name").removesuffix(" nr").rstrip(".")
    found = next((role for role in ("index", *TABLE_WORDS) if {bare, stem} & TABLE_WORDS[role]), None)
    return found or ("shock" if bare in CORNERS else None)


def is_lesser(bare: str) -> bool:
    """Whether a plain name is of a goal or a by-product rather than the measurement."""
    return any(word.rstrip(".") in LESSER for word in re.split(r"[\s-]+", bare))
