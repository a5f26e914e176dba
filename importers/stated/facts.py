"""What a file states beside its numbers."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import PurePath
from typing import NamedTuple, TypeVar

from importers.words.shock_names import SIDES, place_within
from importers.words.spelling import plain

T = TypeVar("T")


class StatedStroke(NamedTuple):
    """A stroke that a file states, and how sure it is that it is the run's."""

    length: float  #: from end to end [m]
    doubt: int = 1  #: 0 of a rig's, test's or crank's own, 1 of one that nothing is said of, 2 of one a shock's may be
    said: str = ""  #: as it stood


@dataclass(frozen=True)
class StatedFacts:
    """What a file states beside its numbers. None or empty where it says nothing."""

    shock: str | None = None
    pack: str | None = None
    clicks: Mapping[str, int] = field(default_factory=dict)
    counted: Mapping[str, str] = field(default_factory=dict)  #: "from closed" or "from soft", by adjuster; "" of all
    temperature: float | None = None  #: [°C]
    gas_pressure: float | None = None  #: [Pa]
    date: str | None = None
    swappable: str | None = None  #: a day as it stood, whose day and month could be swapped
    day_first: bool = False  #: whether such a day stands in a language or beside numbers of countries that put it first
    of_stroke: StatedStroke | None = None
    rod: float | None = None  #: its diameter [m]
    rate: float | None = None  #: [Hz]
    gas_removed: bool | None = None
    units: Mapping[str, str] = field(default_factory=dict)  #: channel to unit
    lines: Mapping[str, str] = field(default_factory=dict)  #: lines as they stood
    doubted: tuple[str, ...] = ()  #: texts that give one adjuster two numbers
    warnings: tuple[str, ...] = ()

    @property
    def stroke(self) -> float | None:
        """Length of the run's stroke. [m]"""
        return None if self.of_stroke is None else self.of_stroke.length

    def over(self, other: StatedFacts) -> StatedFacts:
        """Return these facts, with another's where these say nothing."""
        return merged((self, other))

    def without_repeats(self) -> StatedFacts:
        """Return these facts, each doubt and each warning once."""
        doubted, warnings = tuple(dict.fromkeys(self.doubted)), tuple(dict.fromkeys(self.warnings))
        if (doubted, warnings) == (self.doubted, self.warnings):
            return self
        return replace(self, doubted=doubted, warnings=warnings)


#: what says nothing
NOTHING = StatedFacts()


def merged(stated: Sequence[StatedFacts]) -> StatedFacts:
    """Return the facts of several sources in one: the first to state a thing wins."""
    stated = [f for f in stated if f is not NOTHING and f != NOTHING]
    if len(stated) < 2:
        return stated[0].without_repeats() if stated else NOTHING
    return StatedFacts(
        shock=_first(f.shock for f in stated),
        pack=_first(f.pack for f in stated),
        clicks=_joined(f.clicks for f in stated),
        counted=_joined(f.counted for f in stated),
        temperature=_first(f.temperature for f in stated),
        gas_pressure=_first(f.gas_pressure for f in stated),
        date=_first(f.date for f in stated),
        swappable=_first(f.swappable for f in stated),
        day_first=any(f.day_first for f in stated),
        of_stroke=min((f.of_stroke for f in stated if f.of_stroke), key=lambda s: s.doubt, default=None),
        rod=_first(f.rod for f in stated),
        rate=_first(f.rate for f in stated),
        gas_removed=_first(f.gas_removed for f in stated),
        units=_joined(f.units for f in stated),
        lines=_joined(f.lines for f in stated),
        doubted=tuple(dict.fromkeys(d for f in stated for d in f.doubted)),
        warnings=tuple(dict.fromkeys(w for f in stated for w in f.warnings)),
    )


def _first(values: Iterable[T | None]) -> T | None:
    return next((value for value in values if value is not None), None)


def _joined(maps: Iterable[Mapping[str, T]]) -> dict[str, T]:
    out: dict[str, T] = {}
    for some in maps:
        out |= {key: value for key, value in some.items() if key not in out}
    return out


def contradictions(stated: StatedFacts, name: StatedFacts, file: str = "") -> tuple[str, ...]:
    """Return warnings where a file's name and its lines disagree; the lines win."""
    out = [f"the file's name says {k}={v}, the file says {k}={stated.clicks[k]}: the file was believed"
           for k, v in name.clicks.items() if k in stated.clicks and stated.clicks[k] != v]  # fmt: skip
    if stated.pack and name.pack and _bare(stated.pack) != _bare(name.pack):
        out.append(f"the file's name says pack {name.pack}, the file says {stated.pack}: the file was believed")
    apart = stated.shock and name.shock and not _is_part(name.shock, stated.shock)
    if apart and not place_within(str(name.shock).split()):  # where it was fitted, beside what it is called
        out.append(f"the file's name says shock {name.shock}, the file says {stated.shock}: the file was believed")
    other = _other_of_its_kind(stated.pack, file)
    if other and not name.pack:
        out.append(f"the file's name says {other}, the file says pack {stated.pack}: the file was believed")
    return tuple(out)


def _is_part(short: str, whole: str) -> bool:
    """Whether a name is of another: "RF" of "RF serial 1182", "FR" of "FR-2", "VL" of "Rood 12 voor links"."""
    sides = "".join(word[0] for word in plain(whole).split() if word in SIDES)
    numbered = re.sub(r"[\W_]?\d{1,4}$", "", whole)
    return _bare(short) in {_bare(whole), _bare(numbered), sides, sides[::-1], *map(_bare, whole.split())}


def _bare(name: str) -> str:
    """Return a name as both "LF-1" and "lf1" write it."""
    return re.sub(r"[\W_]+", "", plain(name))


def _other_of_its_kind(pack: str | None, file: str) -> str | None:
    """Return what a file's name says in the place of a pack such as "P2": the same letters, another number."""
    match = re.fullmatch(r"([a-z]+)[\s-]?(\d+)", plain(pack or ""))
    if match is None:
        return None
    found = re.findall(rf"(?<![a-z0-9]){match[1]}[\s-]?(\d+)(?![a-z0-9])", plain(PurePath(file).stem))
    return next((f"{match[1].upper()}{n}" for n in found if int(n) != int(match[2])), None)
