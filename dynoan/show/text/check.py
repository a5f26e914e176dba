"""What is wrong with the library's files, as people read it."""

from __future__ import annotations

from dynoan.jobs.check import CheckAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph


def blocks(answer: CheckAnswer, _look: Look) -> list[Block]:
    """Return a line a fault, and how many files are faulty."""
    rest = [Paragraph(line) for line in answer.unfilled_lines()]
    if not answer.faults:
        return [*rest, Paragraph(f"{answer.files} files, all {'else ' if rest else ''}sound")]
    count = f"{len({fault.file for fault in answer.faults})} of {answer.files} files faulty; the others are sound"
    return [*(Paragraph(line) for line in answer.lines()), *rest, Paragraph(count)]
