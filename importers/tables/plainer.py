"""A small table made plainer: notes apart, cells tidied, what lies on its side or in squares set upright."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from importers.decoding import Encoding, lines_of
from importers.tables.across_clicks import (
    knob_unnamed,
    numbers_taken_as_clicks,
    with_click_rows_joined,
    with_clicks_named,
    with_pairs_named,
)
from importers.tables.across_speeds import with_speeds_down
from importers.tables.across_turns import with_turns_named
from importers.tables.bare_speeds import rows_called_by_numbers
from importers.tables.bracketed_cells import without_brackets
from importers.tables.clicks_under_ways import with_clicks_beside_ways
from importers.tables.grid_of_blocks import with_blocks_stacked
from importers.tables.keys_over_columns import with_keys_above_each
from importers.tables.knob_over_numbers import with_knob_beside
from importers.tables.noted_cells import cells_shown, without_notes
from importers.tables.notes_beside import with_notes_above
from importers.tables.place import CodedPlace, TextPlace
from importers.tables.ragged_rows import with_gaps_as_cells
from importers.tables.setting_square import with_square_as_line
from importers.tables.speeds_of_groups import with_units_at_speeds
from importers.tables.speeds_over_ways import with_speeds_beside_ways
from importers.tables.tidy_cells import errors_left_out, marks_left_out, tidied
from importers.tables.titled_halves import with_halves_named
from importers.tables.titles_below import with_titles_above
from importers.tables.two_speeds import with_speeds_apart
from importers.tables.upright import turned_upright
from importers.tables.way_of_knob import with_way_of_knob
from importers.tables.worded_rows import with_words_as_names


class Plainer(NamedTuple):
    """What a step made of a table's lines."""

    lines: list[str]
    said: tuple[str, ...] = ()  #: what was left out or taken for granted, as warnings; empty ones count for none


Step = Callable[[list[str]], Plainer | None]  #: returns None where a table holds nothing of what it looks for


def _silent(rewrite: Callable[[list[str]], list[str] | None]) -> Step:
    """Return the step that rewrites lines and has nothing to say of it."""

    def step(lines: list[str]) -> Plainer | None:
        made = rewrite(lines)
        return None if made is None else Plainer(made)

    return step


def _apart(lines: list[str]) -> Plainer | None:
    """Take tables apart that stand beside one another: blocks, halves, or rows with a gap between them."""
    if blocks := with_blocks_stacked(lines):
        return Plainer(blocks)
    if halves := with_halves_named(lines):
        return Plainer(halves.lines, (halves.said,))
    return _silent(with_gaps_as_cells)(lines)


def _tidy(lines: list[str]) -> Plainer | None:
    clean = tidied(lines)
    if clean is None:
        return None
    marked = marks_left_out(lines)
    said = f"marks beside numbers were left out, the numbers kept: {cells_shown(marked)}" if marked else ""
    errors = errors_left_out(lines)
    aside = f"what numbers are off by was left aside, the numbers kept: {cells_shown(errors)}" if errors else ""
    return Plainer(clean, (said, aside))


def _bracketed(lines: list[str]) -> Plainer | None:
    bare = without_brackets(lines)
    return bare and Plainer(bare.lines, (bare.said,))


def _noted(lines: list[str]) -> Plainer | None:
    noted = without_notes(lines)
    return noted and Plainer(noted.lines, (noted.said,))


def _turned(lines: list[str]) -> Plainer | None:
    named = with_turns_named(lines)
    return named and Plainer(named.lines, (named.said,))


def _upright(lines: list[str]) -> Plainer | None:
    """Set a table upright: clicks across its top, a knob's lines over it, or speeds across."""
    clicks = turned_upright(lines) or with_clicks_named(lines)
    pairs = clicks or with_pairs_named(lines)
    if across := pairs or with_click_rows_joined(lines):
        of_knob = "" if pairs else knob_unnamed(lines)
        return Plainer(across, (numbers_taken_as_clicks(lines) if clicks else "", of_knob))
    down = with_speeds_down(lines)
    if not down:
        return None
    told = with_way_of_knob(down)
    of_rows = rows_called_by_numbers(lines, down)
    return Plainer(told.lines, (told.said, of_rows)) if told else Plainer(down, (of_rows,))


#: in this order: each finds what those before it left
STEPS: tuple[Step, ...] = (
    _bracketed,
    *map(_silent, (with_square_as_line, with_notes_above, with_titles_above, with_keys_above_each)),
    _apart,
    *map(
        _silent,
        (
            with_units_at_speeds,
            with_speeds_beside_ways,
            with_clicks_beside_ways,
            with_speeds_apart,
            with_knob_beside,
            with_words_as_names,
        ),
    ),
    _tidy,
    _noted,
    _turned,
    _upright,
)


def plainer(coded: CodedPlace) -> CodedPlace:
    """Return the place of a small table's text with it as a plain table: tidied, and turned upright where it lies."""
    lines = list(lines_of(coded.place.text))
    said, rewritten = coded.said, False
    for step in STEPS:
        made = step(lines)
        if made is not None:
            lines, said, rewritten = made.lines, (*said, *filter(None, made.said)), True
    if not rewritten:
        return coded
    text = "\n".join(lines)
    return CodedPlace(TextPlace(text, coded.place.line, text.encode(), 0), Encoding("utf-8"), said)
