"""Remarks beside the rows that say more than one row does: clicks "from here on", a line of words alone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from dynoan.model.arrays import BoolArray
from importers.tables.noted_cells import cells_shown
from importers.tables.table import ParsedTable, RowBreak
from importers.words.channels import REMARKS
from importers.words.clicks import clicks_of
from importers.words.spelling import plain


class _Remark(NamedTuple):
    """A remark, at one row of a table."""

    row: int
    text: str
    alone: bool  #: whether the row holds nothing else


def with_remarks_heeded(table: ParsedTable) -> list[ParsedTable]:
    """Return a table cut where a remark beside its rows states clicks, which hold from that row on.

    Rows that are a remark alone are no rows; what they say is kept as what stands between the rows.
    """
    remarks = _remarks(table)
    if not remarks:
        return [table]
    alone = np.zeros(table.rows, bool)
    alone[[remark.row for remark in remarks if remark.alone]] = True
    breaks = (*table.breaks, *(RowBreak(r.row, (r.text,)) for r in remarks if r.alone and not clicks_of(r.text)))
    table = replace(table, breaks=tuple(sorted(breaks)))
    settings = [remark for remark in remarks if clicks_of(remark.text)]
    ends = [*(s.row for s in settings), table.rows]
    own, cut = [table.own], [_rows(table, 0, ends[0], alone)]
    for setting, stop in zip(settings, ends[1:], strict=True):
        own.append((*_still_true(own[-1], setting.text), setting.text))
        cut.append(_rows(table, setting.row, stop, alone))
    said = _said(settings)
    return [
        replace(piece, own=lines, warnings=(*piece.warnings, *said))
        for piece, lines in zip(cut, own, strict=True)
        if piece.rows
    ]


def _remarks(table: ParsedTable) -> list[_Remark]:
    """Return the remarks that stand in a row alone, and those that state other clicks than the one before."""
    asides = [t for c in table.columns if not c.known and (t := table.texts.get(c.index)) and any(t)]
    named = {c.index for c in table.columns if {*plain(c.text).split()} & REMARKS}
    worded = [t for i, t in table.texts.items() if i in named]
    if not asides:
        return []
    blank = np.all([np.isnan(x) for x in table.values.values()], axis=0) if table.values else np.zeros(0, bool)
    found, last = list[_Remark](), ""
    for row in range(table.rows):
        texts = [t[row] for t in table.texts.values() if t[row]]
        if bool(blank[row : row + 1].any()) and len(texts) == 1 and any(t[row] for t in asides):
            found.append(_Remark(row, texts[0], alone=True))
            last = texts[0]
            continue
        stated = next((t[row] for t in worded if t[row] and clicks_of(t[row])), "")
        if stated and stated != last:
            found.append(_Remark(row, stated, alone=False))
            last = stated
    return found


def _still_true(lines: Sequence[str], later: str) -> list[str]:
    """Return lines that state none of the adjusters that a later remark does."""
    return [line for line in lines if not {*clicks_of(line)} & {*clicks_of(later)}]


def _rows(table: ParsedTable, start: int, stop: int, alone: BoolArray) -> ParsedTable:
    """Return some rows of a table without those that are a remark alone."""
    keep = np.flatnonzero(~alone[start:stop]) + start
    texts = {k: [cells[row] for row in keep] for k, cells in table.texts.items()}
    values = {k: x[keep] for k, x in table.values.items()}
    breaks = tuple(RowBreak(int(np.searchsorted(keep, b.row)), b.lines) for b in table.breaks if start < b.row < stop)
    line = table.first_line + start
    return replace(table, rows=len(keep), values=values, texts=texts, breaks=breaks, first_line=line)


def _said(settings: Sequence[_Remark]) -> tuple[str, ...]:
    beside = [s.text for s in settings if not s.alone]
    if not beside:
        return ()
    shown = cells_shown(beside)
    return (f"clicks in remarks beside the rows were taken as of those rows and the ones below: {shown}",)
