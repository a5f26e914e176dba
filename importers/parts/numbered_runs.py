"""Columns such as "Comp 1", "Comp 2", "Reb 1", "Reb 2": a direction's word and a number that counts runs, no clicks."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from importers.header import HeaderColumn
from importers.patterns import regex
from importers.words.adjusters import CLICK_WORD
from importers.words.directions import direction_of
from importers.words.spelling import plain

#: a whole word and a number, nothing between them: "c1" and "comp c1" are the short form of a click
_NUMBERED = regex(r"(?P<way>[^\W\d]{3,})[\s.#-]*(?:(?:run|no|nr|n)[\s.]*)?(?P<number>\d{1,2})(?!\d)")


def numbered_runs(columns: Sequence[HeaderColumn]) -> dict[int, int]:
    """Return the number of the run that each column is of, by column; empty where the numbers may be clicks.

    They are runs where they are only 1, 2, 3 and so on, in each direction alike, behind a direction's whole word and no
    word for clicks: clicks that somebody tests begin at 0 or lie farther apart.
    """
    found = {c.index: n for c in columns if (n := _number(c)) is not None}
    if len(columns) < 2 or len(found) < len(columns):
        return {}
    by_way = [sorted(found[c.index] for c in columns if c.direction == way) for way in {c.direction for c in columns}]
    counted = all(numbers == list(range(1, len(numbers) + 1)) for numbers in by_way)
    return found if counted and len(by_way[0]) >= 2 and by_way.count(by_way[0]) == len(by_way) else {}


def without_clicks(columns: Sequence[HeaderColumn]) -> tuple[HeaderColumn, ...]:
    """Return columns whose numbers count runs without the clicks that they would be."""
    return tuple(replace(c, clicks={}) for c in columns)


def runs_said(columns: Sequence[HeaderColumn]) -> str:
    """Return the warning that numbers were taken as counts of runs."""
    first, second = columns[0].text, columns[1].text
    return (f"'{first}', '{second}' were taken as runs of one setting, not as clicks; if they are clicks, write"
            " them like 'C=1 comp'")  # fmt: skip


def _number(column: HeaderColumn) -> int | None:
    """Return the number behind the direction's word; None where the name says more, or says clicks."""
    bare = plain(column.text)
    match = _NUMBERED.search(bare)
    if match is None or column.direction is None or "=" in column.text or re.search(rf"\b{CLICK_WORD}\b", bare):
        return None
    named = direction_of(match["way"]) == column.direction and len(column.clicks) <= 1
    return int(match["number"]) if named else None
