"""The guide in a terminal: a page, or the list of topics."""

from __future__ import annotations

from dynoan.jobs.guide import GuideAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.show.text.markdown import from_markdown

MORE = "\nA page:  dynoan guide TOPIC      All of them to print:  dynoan guide --out guide.html"


def blocks(answer: GuideAnswer, look: Look) -> list[Block]:
    """Return what people read."""
    if answer.question.topic is not None:
        return from_markdown(answer.topics[0].text)
    rows = [(t.name, t.summary) for t in answer.topics]
    return [Table(("topic", "what it says"), rows), Paragraph(MORE)]
