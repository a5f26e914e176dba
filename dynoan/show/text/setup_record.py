"""A setup just kept, as people read it."""

from __future__ import annotations

from dynoan.jobs.setup.record import SetupRecordAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph
from dynoan.show.text.setups import setups_table


def blocks(answer: SetupRecordAnswer, look: Look) -> list[Block]:
    """Return under which name it was kept, and its facts."""
    kept = answer.setup
    return [Paragraph(f"kept as {kept.name} ({kept.file})"), setups_table([kept], look)]
