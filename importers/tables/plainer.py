"""A small table made plainer: notes apart, cells tidied, what lies on its side or in squares set upright."""

from __future__ import annotations

from importers.decoding import Encoding, lines_of
from importers.tables.across_clicks import (
    knob_unnamed,
    numbers_taken_as_clicks,
    with_click_rows_joined,
    with_clicks_named,
    with_pairs_named,
)
from importers.tables.across_speeds import with_speeds_down
from importers.tables.bare_speeds import rows_called_by_numbers
from importers.tables.grid_of_blocks import with_blocks_stacked
from importers.tables.keys_over_columns import with_keys_above_each
from importers.tables.knob_over_numbers import with_knob_beside
from importers.tables.noted_cells import cells_shown, without_notes
from importers.tables.notes_beside import with_notes_above
from importers.tables.place import CodedPlace, TextPlace
from importers.tables.ragged_rows import with_gaps_as_cells
from importers.tables.setting_square import with_square_as_line
from importers.tables.speeds_over_ways import with_speeds_beside_ways
from importers.tables.tidy_cells import marks_left_out, tidied
from importers.tables.titled_halves import with_halves_named
from importers.tables.two_speeds import with_speeds_apart
from importers.tables.upright import turned_upright
from importers.tables.way_of_knob import with_way_of_knob
from importers.tables.worded_rows import with_words_as_names


def plainer(coded: CodedPlace) -> CodedPlace:
    """Return the place of a small table's text with it as a plain table: tidied, and turned upright where it lies."""
    place = coded.place
    lines = list(lines_of(place.text))
    square = with_square_as_line(lines)
    lines = lines if square is None else square
    apart = with_notes_above(lines)
    lines = lines if apart is None else apart
    runs = with_keys_above_each(lines)
    lines = lines if runs is None else runs
    halves = with_halves_named(lines)
    stacked = with_blocks_stacked(lines) or (halves.lines if halves else with_gaps_as_cells(lines))
    lines = lines if stacked is None else stacked
    joined = with_speeds_beside_ways(lines)
    lines = lines if joined is None else joined
    parted = with_speeds_apart(lines)
    lines = lines if parted is None else parted
    above = with_knob_beside(lines)
    lines = lines if above is None else above
    worded = with_words_as_names(lines)
    lines = lines if worded is None else worded
    clean = tidied(lines)
    plain = lines if clean is None else clean
    noted = without_notes(plain)
    plain = plain if noted is None else noted.lines
    clicks = turned_upright(plain) or with_clicks_named(plain)
    pairs = clicks or with_pairs_named(plain)
    upright = pairs or with_click_rows_joined(plain)
    of_knob = knob_unnamed(plain) if upright and not pairs else ""
    down = None if upright else with_speeds_down(plain)
    told = with_way_of_knob(down) if down else None
    upright = upright or (told.lines if told else down)
    if all(new is None for new in (square, apart, runs, stacked, joined, parted, above, worded, noted, clean, upright)):
        return coded
    text = "\n".join(upright or plain)
    of_rows = rows_called_by_numbers(plain, down) if down else ""
    of_clicks = numbers_taken_as_clicks(plain) if clicks else ""
    marked = marks_left_out(lines) if clean is not None else []
    of_marks = f"marks beside numbers were left out, the numbers kept: {cells_shown(marked)}" if marked else ""
    of_notes, of_way = (noted.said if noted else ""), (told.said if told else "")
    said = (*coded.said, halves.said if halves else "", of_marks, of_notes, of_way, of_rows, of_clicks, of_knob)
    return CodedPlace(TextPlace(text, place.line, text.encode(), 0), Encoding("utf-8"), tuple(filter(None, said)))
