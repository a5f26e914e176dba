"""What the phone page holds, in a few words."""

from __future__ import annotations

from dynoan.jobs.trackside import TracksideAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph, Table


def blocks(answer: TracksideAnswer, look: Look) -> list[Block]:
    """Return car and packs, and the ranked settings; the page itself is a file."""
    rows = [[c.choice.where, c.choice.pack, c.clicks_text, f"{100 * c.choice.miss:.0f}", c.choice.standing]
            for c in answer.choices]  # fmt: skip
    found = [Table(["where", "pack", "clicks", "misses by %", "tested?"], rows)] if rows else []
    return [Paragraph(f"{answer.car.name}: {held(answer)}"), *found]


def held(answer: TracksideAnswer) -> str:
    """Return which packs the page holds."""
    return f"packs {', '.join(answer.maps)}"
