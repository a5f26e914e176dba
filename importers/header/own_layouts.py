"""A team's own layouts: which card a file's header matches, and what it then states."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from dynoan.model.importing import LayoutCard, ReadOptions
from importers.grid.cells import BLANKS, split
from importers.words.vocabulary import plain

_MARKS = (";", "\t", "|", ",", BLANKS)


def with_card(lines: Sequence[str], options: ReadOptions) -> tuple[ReadOptions, str]:
    """Return the options with what a matching card states under them, and the layout's name."""
    for card in options.layouts:
        if matches(card, lines):
            return _under(card, options), card.name
    return options, "text"


def matches(card: LayoutCard, lines: Sequence[str]) -> bool:
    """Whether one line of a file's head holds all the column names of a card."""
    wanted = {plain(name) for name in card.header}
    marks = (card.delimiter,) if card.delimiter else _MARKS
    seen = lines[card.skip : card.skip + 1] if card.skip is not None else lines[:200]
    return bool(wanted) and any(wanted <= {plain(c) for c in split(line, mark)} for line in seen for mark in marks)


def _under(card: LayoutCard, options: ReadOptions) -> ReadOptions:
    return replace(
        options,
        columns={**card.columns, **options.columns},
        units={**card.units, **options.units},
        positive=options.positive or card.positive,
        rate=options.rate or card.rate,
        delimiter=options.delimiter or card.delimiter,
        decimal=options.decimal or card.decimal,
    )
