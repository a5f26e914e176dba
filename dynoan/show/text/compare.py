"""What `compare` found, as people read it in a terminal."""

from __future__ import annotations

from dynoan.jobs.compare import CompareAnswer, Compared, compared
from dynoan.model.curve import DIRECTIONS, Direction
from dynoan.show.text.blocks import Block, Look, Paragraph, Table, blank
from dynoan.show.text.signs import signed
from dynoan.units import Shown, shown

LETTERS = "ABCDEFGHIJ"


def blocks(answer: CompareAnswer, look: Look) -> list[Block]:
    """Return what people read: a letter for each curve, a table a direction, crossings, and who has a say."""
    out: list[Block] = [Paragraph(f"{LETTERS[i]}  {label}") for i, label in enumerate(answer.labels)]
    at = answer.question.at
    table = answer.table if at is not None or look.units == "metric" else compared(answer.curves, None, look.units)
    for direction in DIRECTIONS:
        rows = [row for row in table if row.direction == direction]
        if rows:
            out += [blank(), _table(direction, rows, look.units)]
    return [*out, *map(Paragraph, (*_crossings(answer, look.units), *_coverage(answer, look.units)))]


def _table(direction: Direction, rows: list[Compared], units: Shown) -> Table:
    force, velocity = shown("force", units), shown("velocity", units)
    letters = LETTERS[: len(rows[0].forces)]
    columns = [f"velocity {velocity.unit}", *(f"{x} {force.unit}" for x in letters),
               *(f"{x} against A" for x in letters[1:])]  # fmt: skip
    return Table(columns, [_cells(row, units) for row in rows], direction)


def _cells(row: Compared, units: Shown) -> list[str]:
    force, velocity = shown("force", units), shown("velocity", units)
    forces = [force.text(f, unit=False) if f is not None else "–" for f in row.forces]
    off = [f"{signed(d, 1)} %" if d is not None else "–" for d in row.differences[1:]]
    return [velocity.text(row.speed, unit=False), *forces, *off]


def _crossings(answer: CompareAnswer, units: Shown) -> list[str]:
    velocity = shown("velocity", units)
    return [
        f"{c.direction}: {LETTERS[c.first]} is the stiffer below {velocity.text(c.speed)}, {LETTERS[c.second]} above"
        for c in answer.crossings
    ]


def _coverage(answer: CompareAnswer, units: Shown) -> list[str]:
    velocity, lines = shown("velocity", units), []
    for pack, spans in answer.coverage_in(units).items():
        for span in spans:
            where = f"from {velocity.text(span.low)} to {velocity.text(span.high)}"
            say = f"{span.adjuster} has the most say {where} (up to {span.percent:.1f} % a click)"
            lines.append(f"pack {pack}, {span.direction}: {say}")
    return lines
