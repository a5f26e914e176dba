"""What `compare` found, as people read it in a terminal."""

from __future__ import annotations

from collections.abc import Sequence

from dynoan.jobs.compare import CompareAnswer, Compared, compared
from dynoan.model.curve import DIRECTIONS, Curve, Direction
from dynoan.show.text.blocks import Block, Look, Paragraph, Table, blank
from dynoan.show.text.signs import signed
from dynoan.units import Shown, shown

LETTERS = "ABCDEFGHIJ"
MOST_BANDED = 3  #: curves whose bands fit a table beside them
MOST_NAMED = 3  #: pairs that are named one by one


def blocks(answer: CompareAnswer, look: Look) -> list[Block]:
    """Return what people read: a letter for each curve, a table a direction, crossings, and who has a say."""
    marks = _marks(answer.labels)
    out: list[Block] = [Paragraph(f"{mark}  {label}") for mark, label in zip(marks, answer.labels, strict=True)]
    at = answer.question.at
    table = answer.table if at is not None or look.units == "metric" else compared(answer.curves, None, look.units)
    for direction in DIRECTIONS:
        rows = [row for row in table if row.direction == direction]
        if rows:
            banded = answer.curves if look.more or len(marks) <= MOST_BANDED else []
            out += [blank(), _table(direction, rows, marks, banded, look.units)]
    return [*out, *map(Paragraph, (*_crossings(answer, marks, look.units), *_coverage(answer, look.units)))]


def _marks(labels: Sequence[str]) -> list[str]:
    """Return a letter for each curve, or a number where a pack or shock is called by such a letter itself."""
    letters = LETTERS[: len(labels)]
    if set(letters) & {word.upper() for label in labels for word in label.split()}:
        return [f"#{n}" for n in range(1, len(labels) + 1)]
    return list(letters)


def _table(
    direction: Direction, rows: list[Compared], marks: Sequence[str], banded: Sequence[Curve], units: Shown
) -> Table:
    force, velocity = shown("force", units), shown("velocity", units)
    columns = [f"velocity {velocity.unit}",
               *(head for x in marks for head in (f"{x} {force.unit}", *(["95 %"] if banded else []))),
               *(f"{x} against {marks[0]}" for x in marks[1:])]  # fmt: skip
    return Table(columns, [_cells(row, banded, units) for row in rows], direction)


def _cells(row: Compared, banded: Sequence[Curve], units: Shown) -> list[str]:
    force, velocity = shown("force", units), shown("velocity", units)
    cells = [velocity.text(row.speed, unit=False)]
    for i, value in enumerate(row.forces):
        cells.append(force.text(value, unit=False) if value is not None else "–")
        if banded:
            cells.append(_wider(banded[i], row, units) if value is not None else "–")
    return [*cells, *(f"{signed(d)} %" if d is not None else "–" for d in row.differences[1:])]


def _wider(curve: Curve, row: Compared, units: Shown) -> str:
    """Return the wider half of a curve's band, to the places a band is told to."""
    force = shown("force", units)
    at = row.speed if row.direction == "compression" else -row.speed
    low, high = (float(limit) for limit in curve.band(at))
    half = max(high - float(curve(at)), float(curve(at)) - low)
    return force.band(half, half, max(force.digits, 1))


def _crossings(answer: CompareAnswer, marks: Sequence[str], units: Shown) -> list[str]:
    velocity = shown("velocity", units)
    lines = [
        f"{c.direction}: {marks[c.first]} is the stiffer below {velocity.text(c.speed)}, {marks[c.second]} above"
        for c in answer.crossings
        if c.clear
    ]
    near = sorted({f"{marks[c.first]} and {marks[c.second]}" for c in answer.crossings if not c.clear})
    if near:
        who = ", ".join(near) if len(near) <= MOST_NAMED else f"{len(near)} other pairs"
        lines.append(f"{who} may cross, but where they do they differ by less than their bands")
    return lines


def _coverage(answer: CompareAnswer, units: Shown) -> list[str]:
    velocity, lines = shown("velocity", units), []
    for pack, spans in answer.coverage_in(units).items():
        for span in spans:
            where = f"from {velocity.text(span.low)} to {velocity.text(span.high)}"
            say = f"{span.adjuster} has the most say {where} (up to {span.percent:.1f} % a click)"
            lines.append(f"pack {pack}, {span.direction}: {say}")
    return lines
