"""A column's name to what the column holds: channel, unit, direction, adjuster."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from functools import lru_cache

from dynoan.model.adjusters import ADJUSTERS
from importers.assumptions.header import LONGEST_NAME
from importers.header.channel_in_name import channel_of, is_lesser, role_of, spaced
from importers.header.unit_in_name import scaled_unit, split_unit
from importers.patterns import regex
from importers.words.adjusters import CLICKS_ALONE, adjuster_of
from importers.words.channels import LENGTHS, OTHER, SPEEDING
from importers.words.clicks import clicks_of
from importers.words.directions import direction_by_stem, direction_of
from importers.words.gas_removed import gas_removed
from importers.words.spelling import plain
from importers.words.turns import knob_turned
from importers.words.unit_text import CHANNEL, derived_unit, kinds_of


@dataclass(frozen=True)
class HeaderColumn:
    """What one column holds, as its name and unit say."""

    index: int
    text: str  #: the name as it stood
    unit: str = ""  #: the unit as it stood; empty where none is given
    channel: str | None = None  #: a channel of a sweep
    role: str | None = None  #: "shock", "pack", "run", "cycle", "direction", "index", "turns" or an adjuster's name
    direction: str | None = None
    clicks: dict[str, int] = field(default_factory=dict, hash=False)
    unknown_unit: str = ""  #: what stands where a unit should be
    lesser: bool = False  #: a goal or by-product rather than the measurement
    positive: str | None = None  #: the direction that counts positive, where the name says so
    other_unit: str = ""  #: another unit of the same kind that the name holds
    by_unit: bool = False  #: the channel follows from the unit alone
    worked_out: bool = False  #: whether its numbers are not the file's own but follow from them
    told: bool = False  #: whether its unit is the user's word
    factor: float = 1.0  #: how many of its unit one is: 10 in "Force [x10 N]"
    group: str = ""  #: what stands over it and its neighbours, in a table of several beside one another

    @property
    def shown(self) -> str:
        """The name for people; its number where it has none."""
        return self.text or f"column {self.index + 1}"

    @property
    def may_be_force(self) -> bool:
        """Whether it is a force, or nothing that its name or unit says keeps it from being one."""
        return self.channel == "force" or (self.channel is None and not self.unit and not self.unknown_unit)

    @property
    def known(self) -> bool:
        """Whether the name says anything the importer understands."""
        return self.channel is not None or self.role is not None or bool(self.clicks) or self.direction is not None


#: a clock's form as its column's name
_CLOCK = regex(r"(?i)\W*h{1,2}:m{1,2}:s{1,2}\W*[.,:0sfm]*\W*")


#: whose time of day a clock shows, which is no unit: "UTC", "Time (UTC)", "Timestamp [local time]"
_ZONE = regex(r"(?i)[\s_(\[,-]*\b(?:utc|gmt|zulu|local(?:\s+time)?|cest|cet|mez|mesz|[ecmp][sd]t|bst)\b[\s)\]]*$")
#: a name whose unit is g
_GRAMS = regex(r"(?P<name>.+?)(?:[\s_]+|\s*[\[(/,]\s*)g\s*[\])]?$")
#: which direction counts positive, within a column's name: "Force (N, + = tension)"
_POSITIVE = regex(
    r"(?i)\s*[,;]?\s*(?:\+|(?<![^\W\d_])(?:positiv[eo]?|pos|plus)(?![^\W\d_])\.?)\s*(?:=|:|is|means|in|for)?\s*([^\W\d_]+)\s*(?=[\])},;\[(]|$)"
)
#: "Velocity mm/s (compression +)"
_POSITIVE_AFTER = regex(
    r"(?i)(?<=[\[({,;])\s*([^\W\d_]+)\s*(?:(?:is|=)\s*)?(?:\+(?:ve)?|positiv[eo]?|pos\.?)\s*(?=[\])}]|$)"
)


_CLICKS = regex(rf"(?<![\w.,])(\d{{1,2}}) (?:{CLICKS_ALONE}|kl)(?!\w)")


@lru_cache(maxsize=4096)
def describe_column(index: int, text: str, unit: str = "") -> HeaderColumn:
    """Return what a column holds from its name and, where there is a units row, its unit there."""
    said = (_POSITIVE.search(text) or _POSITIVE_AFTER.search(text)) if len(text) <= LONGEST_NAME else None
    way = ("rebound" if said[1].lower() == "out" else direction_of(plain(said[1]))) if said else None
    if said is None or way is None:
        return _described(index, text, unit)
    rest = re.sub(r"[\[({]\s*[\])}]", " ", text[: said.start()] + text[said.end() :])
    rest = re.sub(r"\s*[,;]\s*(?=[\])}])", "", rest)
    return replace(_described(index, rest, unit), text=text.strip(), positive=way)


def _described(index: int, text: str, unit: str) -> HeaderColumn:
    name = text.strip().strip("\"'").strip()
    if len(name) > LONGEST_NAME:
        return HeaderColumn(index, text.strip())
    if _CLOCK.fullmatch(name):
        return HeaderColumn(index, name, channel="time")
    if (named := _of_grams(name, unit)) is not None:
        return replace(_described(index, named, "gf"), text=name)
    if (zone := _ZONE.search(name)) is not None and zone[0] != name and not unit:
        clock = _described(index, name[: zone.start()], "")
        if clock.channel == "time":  # "Scatti est" are clicks of rebound
            return replace(clock, text=name)
    if name == "#":
        return HeaderColumn(index, name, role="index")
    if not unit and (derived := derived_unit(name)):
        return HeaderColumn(index, text.strip(), unknown_unit=derived)
    if unit and derived_unit(f"({unit})"):
        return HeaderColumn(index, text.strip(), unknown_unit=unit.strip())
    if name[-1:] in ")]" and (knob := adjuster_of(plain(name))) is not None:
        return HeaderColumn(index, name, role=knob)  # "Clicks (LSR)"
    if (turned := knob_turned(name)) is not None:
        return HeaderColumn(index, name, role=f"turns {turned}".strip())  # "Rebound (turns out)"
    parts = split_unit(name, has_unit=bool(unit))
    given, factor = unit.strip().strip("[](){}").strip() or parts.unit, parts.factor
    if unit and (scaled := scaled_unit(given)) is not None:
        factor, given = scaled
    if not parts.name and given:
        return _only_unit(index, text, given)
    bare = plain(spaced(parts.name))
    column = HeaderColumn(
        index, text.strip(), unit=given, unknown_unit="" if given else parts.unknown,
        direction=direction_of(bare) or _beside_setting(parts.name), lesser=is_lesser(bare),
        clicks=_clicks(parts.name, bare), factor=factor,
    )  # fmt: skip
    return replace(_settled(column, bare), other_unit=_other_unit(parts.name, given))


def _clicks(name: str, bare: str) -> dict[str, int]:
    """Return the clicks in a column's name, also of a direction in a word that names no adjuster: "Dét. 4 clics"."""
    found = clicks_of(name)
    alone = None if found or ("cl" not in bare and "kl" not in bare) else _CLICKS.search(bare)
    way = direction_of(bare) if alone else None
    return {way[0]: int(alone[1])} if alone and way else found


def _beside_setting(name: str) -> str | None:
    """Return the direction of "Comp, reb 4 clicks", whose other words are the setting of the other direction's knob."""
    clauses = [clause for clause in re.split(r"[,;]", name) if clause.strip()] if "," in name or ";" in name else []
    ways = [direction_of(plain(clause)) for clause in clauses if not clicks_of(clause)]
    return ways[0] if len(ways) == 1 and len(clauses) > 1 else None


def _of_grams(name: str, unit: str) -> str | None:
    """Return the name of a force or a direction that is in a scale's grams, "comp g" or "Load" over "g", without them.

    An acceleration, or anything else, in g is none.
    """
    match = None if unit else _GRAMS.match(name)
    bare = plain(spaced(match["name"] if match else name)) if match or unit.strip(" []()") == "g" else ""
    if (
        not bare
        or {*re.split(r"[\s-]+", bare)} & (OTHER | {"g"})
        or not (channel_of(bare, "") == "force" or direction_of(bare))
    ):
        return None
    return match["name"].strip() if match else name


def _other_unit(name: str, unit: str) -> str:
    """Return a second unit of the same kind at the end of a name, as in "Force N (lbf)"."""
    last = name.split()[-1].strip("[](){}/,") if len(name.split()) > 1 else ""
    return last if last and unit and kinds_of(last) & kinds_of(unit) else ""


def _settled(column: HeaderColumn, bare: str) -> HeaderColumn:
    """Return a column with its channel or its role, whichever its plain name and its unit agree on."""
    unit, kinds = column.unit, kinds_of(column.unit) if column.unit else frozenset()
    channel = channel_of(bare, unit)
    if unit and not kinds:
        column = replace(column, unit="", unknown_unit=unit)
    # "Comp accel [N]" is a force while the rig speeds up, no acceleration.
    other = {word for word in bare.split() if word in OTHER} - (SPEEDING if "force" in kinds else frozenset())
    if "force" in kinds and gas_removed(bare) is not None:
        other -= {"gas", "gaskraft"}  # a force, with gas or without
    if other or bare.endswith("%"):
        return replace(column, direction=None, channel="pressure" if "pressure" in kinds else None)
    if column.direction is None and channel in (None, "force", "velocity") and kinds <= {"force", "mass", "velocity"}:
        column = replace(column, direction=direction_by_stem(bare))
    adjuster = adjuster_of(bare) if len(bare.split()) > 1 and not kinds else None
    if adjuster is not None:
        return replace(column, role=adjuster, direction=None)
    if bare in LENGTHS and (not kinds or "length" in kinds):
        return replace(column, channel="displacement", positive="rebound", direction=None)
    if channel is not None:
        return _of_channel(column, channel)
    role = role_of(bare)
    # A valve in per cent is no pack, and what is in newtons no adjuster.
    measured = role in (*ADJUSTERS, "shock", "pack") and (kinds or column.unknown_unit)
    if role is not None and not measured and not (kinds and column.direction):
        return replace(column, role=role)
    if len(kinds) == 1:
        return _by_unit(column, next(iter(kinds)))
    return column


def _of_channel(column: HeaderColumn, channel: str) -> HeaderColumn:
    """Return a column of a channel; displacement with a direction grows in it."""
    if channel == "displacement" and column.direction:
        return replace(column, channel=channel, positive=column.direction, direction=None)
    return replace(column, channel=channel)


def _by_unit(column: HeaderColumn, kind: str) -> HeaderColumn:
    channel = CHANNEL[kind]
    if channel == "displacement" and column.direction:
        return _of_channel(column, channel)
    return replace(column, channel=channel, by_unit=column.direction is None and not column.clicks)


def _only_unit(index: int, text: str, unit: str) -> HeaderColumn:
    kinds = kinds_of(unit)
    channel = CHANNEL[next(iter(kinds))] if len(kinds) == 1 else None
    return HeaderColumn(index, text.strip(), unit=unit if kinds else "", channel=channel, by_unit=True)
