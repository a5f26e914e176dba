"""A team's own layouts: which card a file's header matches, and what it then states."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from dynoan.model.importing import LayoutCard, ReadOptions
from importers.assumptions.header import LAYOUT_REACH
from importers.grid import BLANKS, split_cells
from importers.words.spelling import plain

_MARKS = (";", "\t", "|", ",", BLANKS)


class LayoutChoice(NamedTuple):
    """What is stated of a file by the user and, under that, by a team's own layout."""

    options: ReadOptions
    layout: str  #: the layout's name; "text" where none matches
    user: ReadOptions  #: what the user states alone


def with_layout(lines: Sequence[str], options: ReadOptions) -> LayoutChoice:
    """Return the options with what the first matching layout states under them."""
    for card in options.layouts:
        if matches(card, lines):
            return LayoutChoice(_under(card, options), card.name, options)
    return LayoutChoice(options, "text", options)


def matches(card: LayoutCard, lines: Sequence[str]) -> bool:
    """Whether one line of a file's head holds all the column names of a card."""
    wanted = {plain(name) for name in card.header}
    marks = (card.delimiter,) if card.delimiter else _MARKS
    seen = lines[card.skip : card.skip + 1] if card.skip is not None else lines[:LAYOUT_REACH]
    return bool(wanted) and any(
        wanted <= {plain(c) for c in split_cells(line, mark)} for line in seen for mark in marks
    )


def _under(card: LayoutCard, options: ReadOptions) -> ReadOptions:
    return replace(
        options,
        columns={**card.columns, **options.columns},
        units={**card.units, **options.units},
        positive=options.positive or card.positive,
        rate=options.rate or card.rate,
        delimiter=options.delimiter or card.delimiter,
        decimal=options.decimal or card.decimal,
        dates=options.dates or card.dates,
    )
