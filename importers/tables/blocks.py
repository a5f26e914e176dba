"""A body that is no plain table: page breaks, stacked blocks, notes and torn lines between the rows.

The lines that are plainly rows are found all at once (`odd_lines`); the body is then a row of `pieces`, which are put
together here to blocks of rows, each with the lines that belong to it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from importers.grid import CellGrid
from importers.header import find_header
from importers.tables.noted_cells import notes_left_out
from importers.tables.odd_lines import BodyLines, cut_lines, odd_lines, refuse_rubbish
from importers.tables.pages import runs_on, same_before
from importers.tables.pieces import MendedRow, OtherLines, PlainRows, pieces
from importers.tables.table import RowBlock, RowBreak, TableBody
from importers.tables.torn import TornLine, is_torn, torn_warnings
from importers.tables.word_gaps import said_of_words
from importers.words.channels import CORNERS, TABLE_WORDS
from importers.words.clicks import clicks_of
from importers.words.spelling import plain


class SplitBody(NamedTuple):
    """The blocks of a body."""

    blocks: tuple[RowBlock, ...]
    rest: int | None = None  #: where a table of another shape starts in the body, if one does [byte]
    below: tuple[str, ...] = ()  #: what a setting's lines below the last rows say


@dataclass
class _OpenBlock:
    """What has been gathered of the block at hand."""

    first_line: int
    lines: tuple[str, ...] = ()
    data: list[bytes] = field(default_factory=list)
    rows: int = 0
    over: int = 0
    breaks: list[RowBreak] = field(default_factory=list)
    torn: list[TornLine] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    words: list[str] = field(default_factory=list)  #: that stand in place of numbers

    def add(self, data: bytes, rows: int) -> None:
        """Add rows."""
        self.data.append(data if data.endswith(b"\n") else data + b"\n")
        self.rows += rows

    def closed(self, lines: BodyLines) -> tuple[RowBlock, ...]:
        """Return the block, none where it has no rows."""
        if not self.rows:
            return ()
        warnings = torn_warnings(self.torn, lines, self.rows)
        warnings = (*warnings, notes_left_out(self.remarks)) if self.remarks else warnings
        warnings = (*warnings, said_of_words(self.words)) if self.words else warnings
        data = b"".join(self.data)
        return (RowBlock(data, self.first_line, self.lines, tuple(self.breaks), warnings, self.over),)


def split_blocks(body: TableBody) -> SplitBody:
    """Return the blocks of a body; and where a table of another shape begins in it, if one does.

    Raises
    ------
    ReadError
        If a line is neither a row nor a header nor a note, naming the line.
    """
    refuse_rubbish(body)
    lines = cut_lines(body)
    done: list[RowBlock] = []
    block = _OpenBlock(body.first_line)
    for piece in pieces(lines, odd_lines(lines)):
        if isinstance(piece, PlainRows):
            block.add(lines.raw(piece.start, piece.stop), piece.stop - piece.start)
        elif isinstance(piece, MendedRow):
            block.add(piece.data, 1)
            block.over += piece.over
            block.remarks += [piece.remark] if piece.remark else []
            block.words += piece.words
        elif not piece.behind and _starts_table(piece, body):
            done += block.closed(lines)
            return SplitBody(tuple(done), rest=int(lines.starts[piece.at[0]]))
        elif (notes := _noted(piece, block, body)) is not None:
            if block.rows and _states_setting(notes) and not _goes_on(piece, notes, block, lines):
                done += block.closed(lines)
                block = _OpenBlock(body.first_line + piece.at[-1] + 1, notes)
            elif block.rows:
                block.breaks.append(RowBreak(block.rows, notes))
            else:
                block.lines = (*block.lines, *notes)
    below = () if block.rows else block.lines
    done += block.closed(lines)
    return SplitBody(tuple(done), below=below)


def _goes_on(piece: OtherLines, notes: Sequence[str], block: _OpenBlock, lines: BodyLines) -> bool:
    """Whether lines between rows are the head of another page: they state the setting again, and the run goes on."""
    earlier = (*lines.body.header.preamble, *block.lines)
    settings = [line for line in notes if _states_setting([line])]
    return all(same_before(line, earlier) for line in settings) and runs_on(block.data[-1], lines, piece.at[-1] + 1)


def with_settings_below(
    blocks: Sequence[RowBlock], above: Sequence[str], below: Sequence[str]
) -> list[RowBlock] | None:
    """Return blocks each with the setting that stands below its rows, where it does so; None where it stands above.

    Parameters
    ----------
    blocks
        Each with the lines that stand above it, but for the first.
    above, below
        The lines above the first block and below the last.
    """
    held = [above, *(block.lines for block in blocks[1:]), below]
    stand_below = [False] + [True] * len(blocks)
    if len(blocks) < 2 or all([says(lines) for lines in held] != stand_below for says in (_states_clicks, _names_one)):
        return None
    said = "settings stand below the rows that they are of: each was taken so"
    moved = [block._replace(lines=tuple(lines)) for block, lines in zip(blocks, held[1:], strict=True)]
    return [moved[0]._replace(warnings=(*moved[0].warnings, said)), *moved[1:]]


def _states_setting(lines: Sequence[str]) -> bool:
    """Whether lines state clicks, or name a shock or a pack."""
    return _states_clicks(lines) or _names_one(lines)


def _states_clicks(lines: Sequence[str]) -> bool:
    return any(map(clicks_of, lines))


def _names_one(lines: Sequence[str]) -> bool:
    return any(map(_names_setting, lines))


def _noted(piece: OtherLines, block: _OpenBlock, body: TableBody) -> tuple[str, ...] | None:
    """Put torn lines to the block at hand; return the notes among the others, None where nothing is left to say."""
    again = _repeats_header(piece.texts, body)
    notes = []
    for at, text in zip(piece.at, piece.texts, strict=True):
        if text.strip() in body.header.lines:
            continue
        if is_torn(text, body.grid, below_header=again):
            block.torn.append(TornLine(at, text))
        else:
            notes.append(text)
    return tuple(notes) if notes or again else None


def _repeats_header(texts: Sequence[str], body: TableBody) -> bool:
    return any(text.strip() in body.header.lines for text in texts)


def _starts_table(piece: OtherLines, body: TableBody) -> bool:
    """Whether lines that are no rows of this table begin with the header of another."""
    if _repeats_header(piece.texts, body):
        return False
    rows = (k for k, text in enumerate(piece.texts) if body.grid.holds_numbers_only(text))
    stop = next(rows, len(piece.texts))
    if stop == 0:
        return False
    first_row = piece.texts[stop] if stop < len(piece.texts) else ""
    header = find_header(piece.texts[:stop], _widened(body.grid, first_row), first_row)
    return header.found and header.names != body.header.names


def _widened(grid: CellGrid, first_row: str) -> CellGrid:
    width = len(grid.cells(first_row)) if first_row else grid.width
    return replace(grid, width=width, numeric=(True,) * width)


def _names_setting(note: str) -> bool:
    head = plain(note.replace("=", ":").split(":")[0])
    return ":" in note and head in (TABLE_WORDS["shock"] | TABLE_WORDS["pack"] | CORNERS)
