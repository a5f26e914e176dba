"""A report's section on one log: which velocities the shocks saw, and how they fall on the curves of what was on."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from dynoan.jobs.travel import TravelAnswer
from dynoan.show.pages.report.blocks import Block, Section, Words, grid, picture
from dynoan.show.plots.travel import figure
from dynoan.show.text.blocks import Look, Table
from dynoan.show.text.sentences import capital
from dynoan.show.text.travel import asked_for, blocks, understood
from dynoan.units import Shown

NAMES = 2  #: columns that name the row: shock and part


def travel_section(answer: TravelAnswer, number: int, units: Shown) -> Section:
    """Return one log, the report's `number`-th: its picture, speeds by part and between knees, how it was read."""
    name = Path(answer.question.log.path).name
    seen = picture(figure(answer, units), f"Time by velocity in {name}, under the curves of what was on the car")
    out: list[Block] = [seen, Words(f"Parts: {answer.parts_from}.")]
    for table in (b for b in blocks(answer, Look(units=units)) if isinstance(b, Table)):
        heads = [c[:1].upper() + c[1:] for c in table.columns]
        out.append(grid(table.title or "Speeds at the shock", heads, _named(table.rows)))
    out += [Words(text) for shock in answer.shocks if (text := asked_for(shock, units))]
    out += [Words(capital(text) + ".") for shock in answer.shocks if (text := understood(shock, units))]
    return Section(f"travel-{number}", f"Logged travel, {name}", tuple(out))


def _named(rows: Sequence[Sequence[str]]) -> list[list[str]]:
    """Return rows that each name their shock and part: on paper a table goes on where its last name is out of sight."""
    names, out = [""] * NAMES, []
    for row in rows:
        names = [cell or above for cell, above in zip(row[:NAMES], names, strict=True)]
        out.append([*(n.replace(" ", "\N{NO-BREAK SPACE}") for n in names), *row[NAMES:]])
    return out
