"""A corrected sweep, as people read it."""

from __future__ import annotations

from dynoan.jobs.edit import EditAnswer
from dynoan.show.text.blocks import Block, Look
from dynoan.show.text.kept import records_table


def blocks(answer: EditAnswer, look: Look) -> list[Block]:
    """Return the sweep as the library holds it now."""
    return [records_table([answer.record], look)]
