"""What the library keeps of rig files, as people read it."""

from __future__ import annotations

from dynoan.jobs.add import AddAnswer
from dynoan.show.text.blocks import Block, Look, Note
from dynoan.show.text.kept import records_table


def blocks(answer: AddAnswer, look: Look) -> list[Block]:
    """Return the sweeps kept as a table, how many are new, and why the other files were not kept."""
    out: list[Block] = [] if answer.made is None else [Note(_made(answer, look))]
    if answer.sweeps:
        out += [records_table([s.record for s in answer.sweeps], look), Note(_how_many(answer))]
    out += [Note(text, failed=True) for text in answer.failures]
    if answer.failed and len(answer.question.paths) > 1:
        out.append(Note(f"{len(answer.failed)} of {len(answer.question.paths)} files were not kept"))
    return out


def _made(answer: AddAnswer, look: Look) -> str:
    followed = answer.units_of_files and look.units == "us"
    as_files = "; it shows US units, as its first file has" if followed else ""
    return f"made a new library in {answer.made}{as_files}"


def _how_many(answer: AddAnswer) -> str:
    before = len(answer.sweeps) - answer.new
    facts = list(dict.fromkeys(fact for sweep in answer.sweeps for fact in sweep.completed))
    many = sum(bool(sweep.completed) for sweep in answer.sweeps)
    completed = f"; what was missing of {many} is known now: {', '.join(facts)}" if facts else ""
    if not answer.new:
        return "kept before; nothing was added" + completed
    return f"kept {answer.new} new" + (f"; {before} kept before" if before else "") + completed
