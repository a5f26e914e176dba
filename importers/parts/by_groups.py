"""A table with several runs side by side cut apart: the same columns, motion and all, stand there again and again."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from importers.header import HeaderColumn
from importers.parts.titles_of_runs import lines_of_title, taken_as_runs
from importers.patterns import regex
from importers.tables import ParsedTable
from importers.words.channels import TABLE_WORDS
from importers.words.clicks import clicks_of
from importers.words.shock_names import corner_or_shock_in, side_in
from importers.words.spelling import plain
from importers.words.unit_text import clean_unit, is_unit

#: what a word over the time says that the titles over the runs are: "Pack"
_CALLED = TABLE_WORDS["pack"] | TABLE_WORDS["shock"]
_MOTIONS = frozenset(("velocity", "displacement", "time"))
#: a speed with its unit in a title or a column's name
_SPEED = regex(r"(?<![\w.,])(\d+(?:[.,]\d+)?)[\s_]?([^\W\d_]+\s?/\s?[^\W\d_]+)(?![\w/])")


class TableGroup(NamedTuple):
    """The table of one run of several side by side."""

    table: ParsedTable
    title: str = ""  #: what stands over its columns; empty where the table holds one run
    shock: str | None = None  #: where its title or its columns name it
    named: bool = False  #: whether the file itself gives the title


def cut_by_groups(table: ParsedTable) -> list[TableGroup]:
    """Return the table of each run that stands beside others; the whole where the columns do not repeat."""
    measured = [c for c in table.columns if c.index in table.values and (c.channel or c.direction)]
    first = measured[0].channel if measured else None
    one_clock = measured[:1] if first == "time" or (first == "velocity" and _under_titles(measured[1:])) else []
    for shared in ([], one_clock) if one_clock else ([],):
        own = measured[len(shared) :]
        period = _period([(c.channel, c.direction, clean_unit(c.unit), c.lesser) for c in own])
        if period is not None and not table.options.columns and _holds_a_run([*shared, *own[:period]]):
            starts = [c.index for c in own[::period]]
            stops = [*starts[1:], len(table.columns) + 1]
            firsts = [starts[0] if shared else 0, *starts[1:]]
            groups = [_group(table, first, stop, shared) for first, stop in zip(firsts, stops, strict=True)]
            if shared and first == "velocity" and not all(one.shock for one in groups):
                return _as_runs(groups)
            return groups if not shared or all(one.shock or one.named for one in groups) else _told(groups)
    return [TableGroup(table)]


def _under_titles(columns: Sequence[HeaderColumn]) -> bool:
    """Whether each two of forces beside one speed, one of a direction, stand under a title of their own."""
    pairs = [*zip(columns[::2], columns[1::2], strict=False)]
    titles = {a.group for a, _ in pairs}
    forces = all(c.channel == "force" or c.direction for c in columns) and not any(c.clicks for c in columns)
    named = all(a.group == b.group and (a.direction or b.direction) for a, b in pairs)
    return forces and named and len(columns) == 2 * len(pairs) and len(titles - {""}) == len(pairs) >= 2


def _as_runs(groups: Sequence[TableGroup]) -> list[TableGroup]:
    """Return groups over one speed, of which no title names a shock, with a word of what they were taken for."""
    said = taken_as_runs([one.title for one in groups], groups[0].table.shared)
    return [one._replace(table=replace(one.table, warnings=(*one.table.warnings, said))) for one in groups]


def _told(groups: Sequence[TableGroup]) -> list[TableGroup]:
    """Return the groups with a word of it: unnamed columns over one time may be other sensors on one shock."""
    said = (
        f"{groups[0].title} and {groups[-1].title} over one time were taken as runs of their own; if they are sensors"
    )
    said += " on one shock, name the right ones with --column force=NAME --column displacement=NAME"
    return [one._replace(table=replace(one.table, warnings=(*one.table.warnings, said))) for one in groups]


def _period(kinds: Sequence[tuple[object, ...]]) -> int | None:
    """Return after how many columns the same ones come again to the end, each once; None where they do not."""
    for period in range(2, len(kinds) // 2 + 1):
        first = kinds[:period]
        if len(kinds) % period == 0 and len(set(first)) == period and list(kinds) == [*first] * (len(kinds) // period):
            return period
    return None


def _holds_a_run(columns: Sequence[HeaderColumn]) -> bool:
    motion = any(c.channel in _MOTIONS for c in columns)
    return motion and any(c.channel == "force" or c.direction for c in columns)


def _clicks_named(columns: Sequence[HeaderColumn]) -> str:
    """Return the clicks that all names of a run's columns state alike, as a title; empty where they do not."""
    named = [clicks_of(re.sub(r"[\[(].{0,99}?[\])]", " ", c.text)) for c in columns if c.text]
    return " ".join(f"{k}={n}" for k, n in named[0].items()) if named and all(one == named[0] for one in named) else ""


def _speed_said(title: str, columns: Sequence[HeaderColumn]) -> str:
    """Return the speed of a loop, "50 mm/s", that its title states or all its columns' names; empty where none does."""
    texts = [title] if title else [re.sub(r"[\[(].{0,99}?[\])]", " ", c.text) for c in columns if c.text]
    said = [[f"{m[1]} {m[2]}" for m in _SPEED.finditer(text) if is_unit(m[2], "velocity")] for text in texts]
    return said[0][0] if said and all(one == said[0] and len(one) == 1 for one in said) else ""


def _group(table: ParsedTable, first: int, stop: int, shared: Sequence[HeaderColumn] = ()) -> TableGroup:
    """Return the table of the columns from one to before another, without the rows that only other runs have."""
    own = [c for c in table.columns if first <= c.index < stop]
    mine = [*shared, *own]
    values = {c.index: table.values[c.index] for c in mine if c.index in table.values}
    held = np.logical_or.reduce([np.isfinite(values[c.index]) for c in own if c.index in values])
    rows = int(np.flatnonzero(held)[-1]) + 1 if held.any() else 0
    title = next((c.group for c in own if c.group), "")
    over = next((c.group for c in shared if c.group), "")
    if over and title and clicks_of(f"{over} {title}"):
        title = f"{over} {title}"  # "Clicks C/R" over the time, "4/4" over a run
    called = (f"{over}: {title}",) if title and plain(over) in _CALLED else ()
    title = title or _clicks_named(own)
    speed = "" if any(c.channel in ("time", "velocity") for c in mine) else _speed_said(title, own)
    title = title or speed
    names = {corner_or_shock_in(text) or side_in(text) for text in (title, *(c.text for c in own))} - {None}
    stated = (*called, *lines_of_title(title, table.shared), *([f"Velocity: {speed}"] if speed else []))
    one = replace(
        table, rows=rows, values={i: x[:rows] for i, x in values.items()},
        texts={c.index: table.texts[c.index][:rows] for c in mine if c.index in table.texts},
        columns=tuple(c if c in mine else HeaderColumn(c.index, "") for c in table.columns),
        own=(*table.own, *stated, *([title] if title and not speed else [])),
    )  # fmt: skip
    shock = names.pop() if len(names) == 1 else None
    return TableGroup(
        one, title or shock or f"columns {first + 1} to {min(stop, len(table.columns))}", shock, bool(title)
    )
