"""What the guide says of a topic."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, ClassVar

from dynoan.guide import Topic, topic, topics
from dynoan.jobs.answering import PageAnswer


@dataclass(frozen=True)
class GuideQuestion:
    """Which topic; none is the list of them."""

    topic: str | None = None


@dataclass(frozen=True)
class GuideAnswer(PageAnswer):
    """A page of the guide, or the list of its topics."""

    job: ClassVar[str] = "guide"
    question: GuideQuestion
    topics: tuple[Topic, ...]  #: the one asked for, else all

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan guide --json`` prints it; the text of a page only where it was asked for."""
        if self.question.topic is None:
            return {"topics": list(self.rows())}
        page = self.topics[0]
        return {"topic": page.name, "title": page.title, "summary": page.summary, "markdown": page.text}

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a topic."""
        return [{"topic": t.name, "title": t.title, "summary": t.summary} for t in self.topics]


def answer(question: GuideQuestion) -> GuideAnswer:
    """Return a page of the guide, or all topics; no library is needed.

    Raises
    ------
    LookupFault
        If there is no such topic.
    """
    found = topics() if question.topic is None else (topic(question.topic),)
    return GuideAnswer(question=question, topics=found)
