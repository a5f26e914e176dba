"""Remarks that say that headings, signs or units of a table are other than they stand: never heeded, always told."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from dynoan.model.importing import ReadOptions
from importers.header import HeaderColumn, uncomment
from importers.patterns import regex
from importers.words.directions import direction_of
from importers.words.odd_columns import HARDWARE, MENDED, column_words, may_doubt
from importers.words.spelling import plain
from importers.words.unit_text import kinds_of

#: "Columns swapped: no"
_NOT_SO = regex(r"[:=]\s*(?:no|none|nein|non|nej|nei|nee|ne|nie|false|0)\W*$", re.IGNORECASE)
_CLAUSES = regex(r"[.;!?。！](?:\s|$)|[;。！、]|,\s|\s[-–—]\s|$")
_WORDS = regex(r"[^\s,;:!?()\[\]{}\"'«»“”„]+")
_NUMBER = regex(r"[-+±]?\d[\d.,]*")
_NEAR = 4  #: words behind what says "in truth" within which is what
_MOST = 300  #: longer lines are prose [characters]


def said_against(lines: Iterable[str], columns: Sequence[HeaderColumn], options: ReadOptions) -> tuple[str, ...]:
    """Return a warning of each line that says that headings, signs or units of a table's columns are wrong.

    What the user states of columns, units or signs answers such a remark.

    >>> from importers.header import describe_column
    >>> columns = [describe_column(i, name) for i, name in enumerate(("mm/s", "Comp N", "Reb N"))]
    >>> said_against(["Note: first force column is really rebound"], columns, ReadOptions())[0][-60:]
    'd as rebound; --column rebound=NAME --column compression=NAME'
    """
    lines = tuple(lines)
    if not may_doubt("\n".join(lines)):
        return ()
    out = []
    for line in lines:
        doubts = len(line) <= _MOST and may_doubt(line)
        if doubts and not (MENDED.search(plain(line)) or _NOT_SO.search(line)):
            out += _told(line, columns, options)
    return tuple(dict.fromkeys(out))


def _told(line: str, columns: Sequence[HeaderColumn], options: ReadOptions) -> list[str]:
    of = {what for clause in _CLAUSES.split(uncomment(line)) if clause and clause.strip() for what in _doubted(clause)}
    shown = f"'{line.strip()[:90]}'"
    forces = [c for c in columns if (c.direction or c.channel == "force") and c.text]
    if "unit" in of:
        units = ", ".join(f"'{c.text}' in {c.unit}" for c in _measured(columns) if c.unit)
        options_of = " ".join(f"--unit {channel}=UNIT" for channel in ("force", "velocity"))
        said = f"{shown} speaks against the units of the columns: not heeded, {units} as stated there; {options_of}"
        settled = {"force", "velocity"} & {*options.units} or options.column_units
        return [] if settled or not units else [said]
    if "sign" in of:
        said = (
            f"{shown} speaks against the signs of the columns: not heeded; --positive compression or --positive rebound"
        )
        return [] if options.positive else [f"{said} states which counts positive"]
    if "columns" in of and forces and not {"force", "compression", "rebound"} & {*options.columns}:
        read = " and ".join(f"'{c.text}' was read as {c.direction or c.channel}" for c in forces[:3])
        ways = list(dict.fromkeys(c.direction or "force" for c in forces))[::-1]
        state = " ".join(f"--column {way}=NAME" for way in ways[:2])
        return [f"{shown} speaks against the headings: not heeded, {read}; {state}"]
    return []


def _measured(columns: Sequence[HeaderColumn]) -> list[HeaderColumn]:
    return [c for c in columns if c.direction or c.channel in ("force", "velocity", "displacement")]


def _doubted(clause: str) -> set[str]:
    """Return what a clause says to be wrong: "columns", "sign", "unit"; empty where it says nothing so."""
    bare = plain(clause)
    words = column_words()
    swapped, wrong, truth = words.swapped.search(bare), words.wrong.search(bare), words.in_truth.search(bare)
    if not (swapped or wrong or truth) or HARDWARE.search(bare):
        return set()
    named = _named(clause)
    ways = {direction_of(word) for word in bare.split() if len(word) > 2} - {None}
    if swapped and (named & {"columns", "sign", "channel"} or len(ways) == 2):
        return {"sign"} if "sign" in named else {"columns"}
    if wrong and named:
        return {_first_of(named)}
    if truth is None:
        return set()
    behind = " ".join(bare[truth.end() :].split()[:_NEAR])
    after = _named(_same_end(clause, len(bare[truth.end() :].split())))
    if after & {"unit", "sign"}:
        return {_first_of(after)}
    way = {direction_of(word) for word in behind.split() if len(word) > 2} - {None}
    return {"columns"} if (way or "channel" in after) and (named & {"columns", "channel"} or len(ways) == 2) else set()


def _first_of(named: set[str]) -> str:
    return next((what for what in ("unit", "sign") if what in named), "columns")


def _same_end(clause: str, words: int) -> str:
    """Return the last words of a clause as they stood: capitals tell units from letters."""
    return " ".join(clause.split()[-words:][:_NEAR]) if words else ""


def _named(clause: str) -> set[str]:
    """Return what of a table the words of a clause name: "columns", "sign", "unit", "channel"."""
    found = set()
    words = _WORDS.findall(clause)
    for i, word in enumerate(words):
        bare = plain(word)
        found |= {what for what, some in column_words().named.items() if bare in some}
        numbered = i > 0 and _NUMBER.fullmatch(words[i - 1]) is not None
        if not numbered and _is_unit_word(word):
            found.add("unit")
    if not clause.isascii():
        folded_clause = plain(clause)
        found |= {what for what, names in column_words().within.items() for name in names if name in folded_clause}
    return found


def _is_unit_word(word: str) -> bool:
    """Whether a word is a unit of force or speed that is no other word: "N", "lbs", "pounds", "mm/s"."""
    bare = word.strip(".")
    if len(bare) < 2 and bare != "N":
        return False
    return bool(kinds_of(bare) & {"force", "velocity"}) and re.search(r"\d", bare) is None
