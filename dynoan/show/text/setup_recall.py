"""The last good setup, as people read it."""

from __future__ import annotations

from dynoan.jobs.setup_recall import SetupRecallAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph
from dynoan.show.text.setup_card import card
from dynoan.show.text.setups import unreadable_line


def blocks(answer: SetupRecallAnswer, look: Look) -> list[Block]:
    """Return the setup's file as it stands, its card, or that there is none."""
    if answer.setup is not None and answer.question.card:
        return card(answer.setup, answer.counted, look)
    if answer.setup is not None:
        return [Paragraph(answer.text.rstrip("\n"), drawn=True)]
    surface, car = answer.question.surface, answer.question.car
    parts = ("no good setup", f"on {surface}" if surface else "", f"of {car}" if car else "")
    what = " ".join(filter(None, parts))
    if answer.unreadable:
        return [Paragraph(f"{what} among those that can be read; {unreadable_line(answer.unreadable)}")]
    return [Paragraph(f"{what} is kept; dynoan setup list shows what is, and --good marks one when it is recorded")]
