"""The setups kept, as people read them."""

from __future__ import annotations

from dynoan.jobs.setup_list import SetupListAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph
from dynoan.show.text.setups import setups_table


def blocks(answer: SetupListAnswer, look: Look) -> list[Block]:
    """Return the setups as a table, or that there are none."""
    if answer.setups:
        return [setups_table(answer.setups, look)]
    on = f" on {answer.question.surface}" if answer.question.surface else ""
    return [Paragraph(f"no setups{on} yet; keep one with: dynoan setup record CAR --surface NAME --good")]
