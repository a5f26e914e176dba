"""What is said of a car in its file's words, as a screen says it: the fields of its form by their names."""

from __future__ import annotations

import re
from collections.abc import Iterable

from dynoan.model.car import AXLES, CORNER_NAMES
from dynoan.window.carfields import FIELDS
from dynoan.window.looks import spoken

_OF_A_FILE = re.compile(r"^cars/[^:]*\.toml: ")
_OF_A_KEY = re.compile(r"^((?:[a-z]+\.)+[a-z_]+): (.*)$")
_MISSING = re.compile(r"^((?:[a-z]+\.)*[a-z_]+) is missing[,;]? ?(.*)$")


def field_words(key: str) -> str:
    """Return a key of a car's file in words: the field of the form that asks for it, and where it stands.

    >>> field_words("fl.mass"), field_words("rear.spring"), field_words("links.holes.lower")
    ('Weight, front left', 'Spring rate, rear axle', 'Links, holes, lower')
    """
    place, _, own = key.rpartition(".")
    if place.startswith("targets."):
        return f"Wanted damping ratio, {', '.join(key.replace('_', ' ').split('.')[1:])}"
    if own in ("clicks", "mass", "shock"):
        return f"{'Weight' if own == 'mass' else own.capitalize()}, {CORNER_NAMES.get(place, f'{place} axle')}"
    known = FIELDS.get(key)
    if known is not None:
        return f"{known.words}, {place} axle" if place in AXLES else known.words
    axle = {"f": "front", "r": "rear"}.get(place[:1], "") if place in CORNER_NAMES else ""
    if axle and f"{axle}.{own}" in FIELDS:
        return f"{FIELDS[f'{axle}.{own}'].words}, {CORNER_NAMES[place]}"
    words = key.replace("_", " ").split(".")
    return ", ".join([CORNER_NAMES.get(words[0], words[0]).capitalize(), *words[1:]])


def beginning_words(surface: str) -> str:
    """Return what a start without targets of one's own is for, in words; an empty name is no surface in particular."""
    return f"For {surface}" if surface else "For any ground"


def doubts_of(warnings: Iterable[str]) -> list[str]:
    """Return warnings of a car without names of files, keys and how they are written there.

    That a corner has no pack is left out: its card says so.
    """
    out: list[str] = []
    for text in warnings:
        plain = _OF_A_FILE.sub("", text)
        found = _MISSING.match(plain)
        of_key = _OF_A_KEY.match(plain)
        if found is None:
            out.append(spoken(f"{field_words(of_key[1])}: {of_key[2]}" if of_key else plain))
        elif not found[1].endswith(".pack"):
            rest = found[2].split("; write it like")[0]
            out.append(f"{field_words(found[1])} is missing; {rest}")
    return list(dict.fromkeys(out))
