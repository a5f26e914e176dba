"""Corrected sweeps, as people read them."""

from __future__ import annotations

from dynoan.jobs.edit import EditAnswer
from dynoan.show.text.blocks import Block, Look
from dynoan.show.text.kept import records_table


def blocks(answer: EditAnswer, look: Look) -> list[Block]:
    """Return the sweeps as the library holds them now."""
    return [records_table(answer.records, look)]
