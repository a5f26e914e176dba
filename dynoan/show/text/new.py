"""A file to fill in, or what is wrong with one, as people read it."""

from __future__ import annotations

from dynoan.errors import typed
from dynoan.jobs.new import NewAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.show.text.restated import restated


def blocks(answer: NewAnswer, look: Look) -> list[Block]:
    """Return where the file is, and all that is wrong with it or still empty, a row each."""
    again = f"dynoan new {answer.question.kind} {typed(answer.question.name)}"
    if not answer.faults:
        sound = "no fault, but see the warnings" if answer.doubtful else "nothing is wrong with it"
        return [Paragraph(f"{answer.file}: {'written' if answer.written else sound}")]
    rows = [(str(f.line or ""), f.key, restated(f.text, look.units)) for f in answer.faults]
    if answer.written:
        told = f"wrote {answer.file}; open it in an editor and fill in what is empty, then check it with: {again}"
        return [Paragraph(told), Table(("line", "key", "to fill in"), rows)]
    count = f"{len(rows)} fault{'s' if len(rows) != 1 else ''}"
    return [Table(("line", "key", "what is wrong"), rows, f"{answer.file}: {count}")]
