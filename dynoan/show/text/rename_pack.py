"""What was renamed, as people read it."""

from __future__ import annotations

from dynoan.jobs.rename_pack import RenamePackAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph


def blocks(answer: RenamePackAnswer, _look: Look) -> list[Block]:
    """Return how many sweeps bear the new name, and which files were changed."""
    count = len(answer.sweeps)
    sweeps = f"{count} dyno run{'s' if count != 1 else ''}"
    files = "".join(f"\n  {file}" for file in answer.files)
    return [Paragraph(f"pack {answer.question.old} is now {answer.question.new}: {sweeps}{files}")]
