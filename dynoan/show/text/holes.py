"""The holes of a driven axle's links, as people read them."""

from __future__ import annotations

from dynoan.jobs.assumptions import SEPARATION
from dynoan.jobs.launch.holes import HOLE, HolesAnswer
from dynoan.jobs.measures import cells
from dynoan.show.text import what_if
from dynoan.show.text.blocks import Block, Look, Paragraph, Table, blank
from dynoan.units import shown


def blocks(answer: HolesAnswer, look: Look) -> list[Block]:
    """Return the geometry of each choice of holes, then the launches side by side."""
    columns, rows = cells(HOLE, {h.label: h for h in answer.holes}, look.units, ("always",))
    apart = shown("length", look.units).text(SEPARATION)
    out: list[Block] = [
        Table(["holes", *columns], rows, f"{answer.car.name}: bar holes"),
        Paragraph(
            f"Body up, body down: {apart} further from the axle than at ride height, and nearer. At 100 % the driven "
            "end neither squats nor lifts; above it lifts, and the tyres are pressed down harder at first."
        ),
    ]
    out += [
        Paragraph(f"{h.label}: the instant centre runs away within the travel; ride height tells little.")
        for h in answer.holes if h.away
    ]  # fmt: skip
    return out if answer.launches is None else [*out, blank(), *what_if.blocks(answer.launches, look)]
