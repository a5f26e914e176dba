"""What a report holds, in a few words."""

from __future__ import annotations

from dynoan.jobs.report import ReportAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph, Table


def blocks(answer: ReportAnswer, look: Look) -> list[Block]:
    """Return the heading and what the report holds; the report itself is a page."""
    pairs = [[f"{p.first}, {p.second}", p.pack, p.match.verdict] for p in answer.parts.pairs]
    found = [Table(["shocks", "pack", "verdict"], pairs)] if pairs else []
    return [Paragraph(f"{title(answer)}: {held(answer)}"), *found]


def title(answer: ReportAnswer) -> str:
    """Return the report's heading: as asked for, else what it is about."""
    if answer.question.title:
        return answer.question.title
    about = answer.team if answer.scope.everything and answer.team else answer.scope.words
    return f"Dyno report, {about}"


def held(answer: ReportAnswer) -> str:
    """Return how much the report holds."""
    parts = (("run", answer.parts.runs), ("pack", answer.parts.packs), ("car", answer.parts.cars))
    return ", ".join(f"{len(of)} {name}{'' if len(of) == 1 else 's'}" for name, of in parts)
