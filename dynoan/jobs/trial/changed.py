"""What differs between the two settings of a trial, as far as the library can tell."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from dynoan.model.trial import Trial

if TYPE_CHECKING:
    from dynoan.library import Library
    from dynoan.model.setup import Setup

#: facts of a setup that are of the day, not of the car
OF_THE_DAY = frozenset({"date", "surface", "result", "remarks", "verdict", "temperature", "car"})
#: what is wished for or driven on, and no part of the car
_OF_NO_PART = re.compile(r" target, | (?:grip|roughness)$")
_CORNER = re.compile(r"\s*(front|rear|all|fl|fr|rl|rr)\s*=\s*(.*)", re.IGNORECASE)


@dataclass(frozen=True)
class Changed:
    """What differs between a trial's settings, as far as the library can tell."""

    known: bool  #: False: the settings are the team's own words
    what: tuple[str, ...]  #: such as "rear lsr"

    @property
    def one(self) -> bool:
        """Whether exactly one thing differs, so that it may be said to be the cause."""
        return self.known and len(self.what) == 1


def changed_by(library: Library, trial: Trial) -> Changed:
    """Return what differs between a trial's two settings: of two setups, of two lists of values, else not known."""
    setups = [_setup(library, text) for text in (trial.a, trial.b)]
    if setups[0] is not None and setups[1] is not None:
        return Changed(True, differing(setups[0], setups[1]))
    one, other = (stated_values(text) for text in (trial.a, trial.b))
    if one is None or other is None:
        return Changed(False, ())
    return Changed(True, tuple(k for k in dict.fromkeys([*one, *other]) if one.get(k) != other.get(k)))


def differing(one: Setup, other: Setup) -> tuple[str, ...]:
    """Return what differs between the cars of two setups, left and right alike as one."""
    from dynoan.library.differences import differences

    found = [d for d in differences(one, other) if d.what not in OF_THE_DAY and not _OF_NO_PART.search(d.what)]
    sides: dict[str, list[Any]] = {}
    for d in found:
        sides.setdefault(re.sub(r"\b(left|right) ", "", d.what), []).append((d.one_value, d.other_value))
    kept = {d.what: re.sub(r"\b(left|right) ", "", d.what) for d in found}
    return tuple(dict.fromkeys(
        axle if len(sides[axle]) == 2 and sides[axle][0] == sides[axle][1] else what for what, axle in kept.items()
    ))  # fmt: skip


def _setup(library: Library, name: str) -> Setup | None:
    return library.setup(name) if name in library.text_names("setups") else None


def stated_values(text: str) -> dict[str, str] | None:
    """Return what a setting states, such as {"rear lsr": "6"} of "rear=@lsr=6"; None where it is free words."""
    values: dict[str, str] = {}
    for piece in re.split(r"[;\n]+|\s+(?=(?:front|rear|all|fl|fr|rl|rr)\s*=)", text.strip()):
        corner = _CORNER.fullmatch(piece)
        where, rest = (f"{corner[1].lower()} ", corner[2]) if corner else ("", piece)
        pack, at, clicks = rest.partition("@")
        if at and pack.strip():
            values[f"{where}pack"] = pack.strip().removeprefix("pack=").strip()
        for part in (clicks if at else rest).split(","):
            key, equals, value = (p.strip() for p in part.partition("="))
            if equals and key and value:
                values[f"{where}{key.lower()}"] = value
            elif part.strip() and where and not at:
                values[f"{where}pack"] = part.strip()
            elif part.strip():
                return None
    return values or None
