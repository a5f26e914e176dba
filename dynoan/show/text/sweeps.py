"""What the library holds, as people read it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dynoan.jobs.sweeps import SweepsAnswer
from dynoan.model.setting import order_of
from dynoan.show.text.blocks import Block, Look, Note, Paragraph
from dynoan.show.text.kept import records_table
from dynoan.show.text.setups import unreadable_line

if TYPE_CHECKING:
    from dynoan.jobs.kept import SweepRecord


def blocks(answer: SweepsAnswer, look: Look) -> list[Block]:
    """Return the sweeps as a table, or that there are none."""
    filters, count = answer.question.filters, len(answer.records)
    if answer.records:
        of = f"{count} of {answer.held}" if filters else f"{count}"
        return [records_table(sorted(answer.records, key=_by_setting), look), Note(f"sweeps: {of}")]
    if answer.unreadable and not answer.held:
        return [Paragraph(f"no sweep that can be read; {unreadable_line(answer.unreadable)}")]
    if answer.held:
        return [Paragraph(f"no sweep of {answer.held} fits {' '.join(filters)}{answer.meant}")]
    return [Paragraph("no sweeps yet; keep some with: dynoan add FILE --shock NAME --pack NAME --clicks lsc=6")]


def _by_setting(record: SweepRecord) -> tuple[tuple[str, str, tuple[int, ...]], str, str]:
    """Return what puts the runs of a shock and a pack together, low clicks first, of one setting earlier ones first."""
    return order_of(record), record.date or "", record.id
