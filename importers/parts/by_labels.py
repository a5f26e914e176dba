"""A peak table with several runs side by side over one column of speeds: "Left Comp", "Run 2 Reb"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from importers.header import HeaderColumn
from importers.parts.titles_of_runs import lines_of_title, taken_as_runs
from importers.stated import clicks_alone, counted_by_none
from importers.tables import ParsedTable
from importers.words.channels import (
    CHANNEL_WORDS,
    EXTREMES,
    LESSER,
    MEANS,
    OTHER,
    SLOWING,
    SPEEDING,
    TABLE_WORDS,
    TOTAL,
)
from importers.words.dates import date_of
from importers.words.directions import direction_of
from importers.words.shock_names import SIDES
from importers.words.spelling import plain, word_set
from importers.words.unit_text import is_unit

#: words that tell columns of one run apart, not runs
_NO_RUN = (LESSER | EXTREMES | OTHER | SPEEDING | SLOWING | TOTAL) | word_set(
    "open, close, closed, spec, limit, nom, tolerance, upper, lower, fast, slow, hs, ls, hi, lo, high-speed, low-speed,"
    " off, on, offset, inner, outer, n, of, count"
)

#: what a word before the labels says that they are: "Pack;gravel;;tarmac;"
_CALLED = TABLE_WORDS["pack"] | TABLE_WORDS["shock"]
#: words of a column that holds two runs against one another
_BETWEEN = word_set("diff, difference, differenz, delta, δ, ecart, diferencia, differenza, abweichung, ratio, balance")


class LabelledTable(NamedTuple):
    """The table of one of several runs side by side."""

    table: ParsedTable
    label: str = ""  #: what its columns are called by; empty where the table holds one run
    shock: str | None = None  #: where they are called by a side of the car


def cut_by_labels(table: ParsedTable) -> list[LabelledTable]:
    """Return the table of each run that its force columns name beside their directions; else the whole."""
    directed = [c for c in table.columns if c.index in table.values and c.direction and not c.clicks and c.may_be_force]
    forces = [c for c in directed if not _is_difference(c)]
    labels = {c.index: _label(c) for c in forces}
    order = list(dict.fromkeys(labels.values()))
    if table.options.columns or len(order) < 2 or not all(order) or not _same_again(forces, labels, order):
        return [LabelledTable(table)]
    said = taken_as_runs(order, table.shared)
    said = f"{said}; {asked}" if (asked := counted_by_none(order[0])) else said
    between = {c.index: "" for c in directed if _is_difference(c)}
    return [_of_label(table, label, labels | between, said) for label in order]


def _of_label(table: ParsedTable, label: str, labels: dict[int, str], said: str) -> LabelledTable:
    silent = {index for index, other in labels.items() if other != label}
    columns = tuple(
        replace(c, channel=None, role=None, direction=None, unit="", unknown_unit="") if c.index in silent else c
        for c in table.columns
    )
    days = {date_of(c.text) for c in table.columns if labels.get(c.index) == label}
    day = next(iter(days)) if len(days) == 1 else None
    table = replace(table, own=(*table.own, f"date: {day}")) if day else table
    table = replace(table, own=(*table.own, label)) if clicks_alone(label).clicks else table
    over = next((c.group for c in table.columns if c.group and c.index not in labels), "")
    table = replace(table, own=(*table.own, f"{over}: {label}")) if plain(over) in _CALLED else table
    table = replace(table, own=(*lines_of_title(label, table.shared), *table.own))
    table = _with_own_lines(table, label, {*labels.values()})
    side = label if {*plain(label).split()} <= SIDES else None
    return LabelledTable(replace(table, columns=columns, warnings=(*table.warnings, said)), label, side)


def _with_own_lines(table: ParsedTable, label: str, labels: set[str]) -> ParsedTable:
    """Return a run's table with what the lines "Run 1: LSC 4" say of it, without what they say of the others."""

    known = {plain(one) for one in labels if one}

    def mine(lines: Sequence[str]) -> Iterator[str]:
        for line in lines:
            key, mark, value = line.partition(":" if ":" in line else "=")
            of = plain(key.lstrip("# "))
            if not mark or of not in known:
                yield line
            elif of == plain(label):
                yield value

    return replace(table, own=tuple(mine(table.own)), shared=tuple(mine(table.shared)))


def _is_difference(column: HeaderColumn) -> bool:
    """Whether a column is of two others together, such as "Comp diff %"."""
    return "%" in column.text or bool({*plain(column.text).split()} & _BETWEEN)


def _same_again(forces: Sequence[HeaderColumn], labels: dict[int, str], order: Sequence[str]) -> bool:
    """Whether each label stands over the same columns, each of them once."""
    held = [sorted((c.direction or "", c.unit) for c in forces if labels[c.index] == one) for one in order]
    return all(one == held[0] for one in held) and len(set(held[0])) == len(held[0])


def _label(column: HeaderColumn) -> str:
    """Return what is left of a column's name, or of what stands over it, without its direction, channel and unit."""
    bare = re.sub(r"[\[(].{0,99}?[\])]", " ", f"{column.group} {column.text}" if column.group else column.text)
    words = dict.fromkeys(
        w for w in re.split(r"(?:[\s_,;:-]|(?<!\d)/|/(?!\d))+", bare) if w
    )  # "1 1/2 turns" as it stands
    worded = any(len(w) > 1 and direction_of(plain(w)) == column.direction for w in words)  # "R" in "R Reb" is no way
    alone = {w for w in words if worded and len(w) == 1 and w.isalpha() and not is_unit(w)}
    left = [w for w in words if w in alone or not _is_of_column(w, column)]
    return "" if any(plain(w) in _NO_RUN or "%" in w for w in left) else " ".join(left)


def _is_of_column(word: str, column: HeaderColumn) -> bool:
    bare = plain(word)
    if bare in CHANNEL_WORDS["force"] or bare in CHANNEL_WORDS["velocity"] or bare.rstrip(".") in MEANS or not bare:
        return True
    return direction_of(bare) == column.direction or (is_unit(word) and plain(word) == plain(column.unit))
