"""Columns that say how far repeats scatter beside the columns of their means, "Comp ± N": never used, and told."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

import numpy as np

from dynoan.model.arrays import FloatArray
from importers.assumptions.parts import DEVIATION_SHARE
from importers.header import HeaderColumn
from importers.tables import ParsedTable
from importers.words.channels import CHANNEL_WORDS, MEANS
from importers.words.directions import direction_of
from importers.words.scatter import BRACKETED, says_scatter
from importers.words.spelling import plain
from importers.words.unit_text import is_unit, kinds_of

_MOST_NAMED = 4  #: columns that the warning names
#: channels that no repeats of a table scatter in
_SHARED = frozenset(("time", "temperature", "pressure"))
_LONE_LETTERS = frozenset(("s", "u"))  #: each is a scatter beside a mean, and else a path, a time or a voltage


def without_deviations(table: ParsedTable) -> ParsedTable:
    """Return a table without what its columns of deviations could be taken for, with a warning; else the table.

    A column is one where its name says so, another column holds what scatters, and its numbers are as small as a
    scatter is.
    """
    named = [c for c in table.columns if c.index in table.values and says_scatter(c.text)]
    lone = [c for c in table.columns if c.index in table.values and _is_letter(c)]
    if not named and not lone:
        return table
    of_user = {plain(wanted) for wanted in table.options.columns.values()}
    named = [c for c in (*named, *_beside_means(lone, table)) if not {plain(c.text), f"{c.index + 1}"} & of_user]
    found = {c.index: c for c in named if _scatters(c, named, table)}
    if not found:
        return table
    columns = tuple(
        replace(c, channel=None, role=None, direction=None, clicks={}, unit="", unknown_unit="", lesser=True)
        if c.index in found
        else c
        for c in table.columns
    )
    names = list(dict.fromkeys(f"'{found[at].shown}'" for at in sorted(found)))
    shown = ", ".join(names[:_MOST_NAMED]) + (f" and {len(names) - _MOST_NAMED} more" * (len(names) > _MOST_NAMED))
    told = "says how far values scatter and is" if len(names) == 1 else "say how far values scatter and are"
    said = f"{shown} {told} no force: not used"
    return replace(table, columns=columns, warnings=(*table.warnings, said))


@lru_cache(maxsize=4096)
def _rest(text: str) -> tuple[str, ...]:
    """Return the words of a name without its directions, units and words for a force."""
    words = [word.strip(".-+/") for word in plain(BRACKETED.sub(" ", text)).split()]
    known = CHANNEL_WORDS["force"] - _LONE_LETTERS
    return tuple(w for w in words if w and w not in known and not direction_of(w) and "force" not in kinds_of(w))


def _is_letter(column: HeaderColumn) -> bool:
    """Whether a column's name is the letter of a scatter, beside a direction or a unit of force alone."""
    rest = _rest(column.text) if len(column.text) == 1 or " " in column.text or "_" in column.text else ()
    return len(rest) == 1 and rest[0] in _LONE_LETTERS and (not column.unit or is_unit(column.unit, "force"))


def _beside_means(lone: Sequence[HeaderColumn], table: ParsedTable) -> Sequence[HeaderColumn]:
    """Return columns called by a letter in a table of means: of named means, of peaks with one behind each force."""
    if any({*_rest(c.text)} & MEANS for c in table.columns):
        return lone
    peaks = any(c.channel == "velocity" for c in table.columns) and not any(c.channel == "time" for c in table.columns)
    before = [table.columns[c.index - 1] for c in lone if 0 < c.index < len(table.columns)]
    worded = all(len(c.text) > 1 for c in lone)
    paired = len(before) == len(lone) and all(c.direction and c.channel in (None, "force") for c in before)
    return lone if len(lone) > 1 and peaks and (worded or paired) else ()


def _scatters(column: HeaderColumn, named: Sequence[HeaderColumn], table: ParsedTable) -> bool:
    """Whether a column's numbers could be the scatter of one of the columns that they may be of."""
    aside = {c.index for c in named}
    others = [c for c in table.columns if c.index in table.values and c.index not in aside and c.known]
    others = [c for c in others if c.channel not in _SHARED]
    alike = [c for c in others if column.direction and (c.direction, c.clicks) == (column.direction, column.clicks)]
    beside = [c for at in (column.index - 1, column.index + 1) for c in others if c.index == at]
    same = [c for c in others if c.channel == column.channel or (c.channel is None and c.direction)]
    x = table.values[column.index]
    held = x[np.isfinite(x)]
    if not len(held) or bool(np.any(held < 0)):
        return False
    return any(_is_share(held, table.values[c.index]) for c in (*alike, *beside, *same))


def _is_share(scatter: FloatArray, mean: FloatArray) -> bool:
    size = float(np.nanmean(np.abs(mean))) if np.isfinite(mean).any() else 0.0
    return float(np.mean(scatter)) <= DEVIATION_SHARE * size
