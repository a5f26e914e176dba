"""The last good setup, as people read it."""

from __future__ import annotations

from dynoan.jobs.setup.recall import SetupRecallAnswer, no_good
from dynoan.show.text.blocks import Block, Look, Paragraph
from dynoan.show.text.setup_card import card


def blocks(answer: SetupRecallAnswer, look: Look) -> list[Block]:
    """Return the setup's file as it stands, its card, or that there is none."""
    if answer.setup is not None and answer.question.card:
        return card(answer.setup, answer.counted, look)
    if answer.setup is not None:
        return [Paragraph(answer.text.rstrip("\n"), drawn=True)]
    shown = "dynoan setup list shows what is, and --good marks one when it is recorded"
    return [Paragraph(f"{no_good(answer.question)} is kept; {shown}")]
