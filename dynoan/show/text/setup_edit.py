"""A corrected setup, as people read it."""

from __future__ import annotations

from dynoan.jobs.setup.edit import SetupEditAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph
from dynoan.show.text.setups import setups_table


def blocks(answer: SetupEditAnswer, look: Look) -> list[Block]:
    """Return the setup as it is kept now."""
    return [Paragraph(f"corrected {answer.setup.name} ({answer.setup.file})"), setups_table([answer.setup], look)]
