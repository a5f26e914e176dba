"""What differs between two setups, as people read it."""

from __future__ import annotations

from dynoan.jobs.setup.compare import SetupCompareAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph, Table


def blocks(answer: SetupCompareAnswer, look: Look) -> list[Block]:
    """Return a line a difference, or that there is none."""
    found = answer.differences(look.units)
    if not found:
        return [Paragraph(f"{answer.one.name} and {answer.other.name} do not differ")]
    return [Table(["what", answer.one.name, answer.other.name], [[d.what, d.one, d.other] for d in found])]
