"""Letters over columns in the place of names that are wider than what stands below, and what each stands for."""

from __future__ import annotations

from collections.abc import Sequence

from dynoan.show.text.blocks import LETTERS, Block, Paragraph, blank


def heads(labels: Sequence[str], *, wide: bool) -> list[str]:
    """Return what stands over columns: their names, or letters where these are too wide."""
    return list(LETTERS[: len(labels)]) if wide and len(labels) <= len(LETTERS) else list(labels)


def legend(labels: Sequence[str], over: Sequence[str]) -> list[Block]:
    """Return what each letter over a column stands for, nothing where names stand there."""
    if list(over) == list(labels):
        return []
    return [*(Paragraph(f"{head}  {label}", hang=3) for head, label in zip(over, labels, strict=True)), blank()]
