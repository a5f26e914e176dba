"""What was taken out of the library, as people read it."""

from __future__ import annotations

from dynoan.jobs.remove import RemoveAnswer
from dynoan.show.text.blocks import Block, Look, Note, Paragraph


def blocks(answer: RemoveAnswer, _look: Look) -> list[Block]:
    """Return a line a sweep."""
    gone = [Paragraph(f"removed {sweep_id}") for sweep_id in answer.removed]
    return [*gone, *(Note(text, failed=True) for text in answer.failures)]
