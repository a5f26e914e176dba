"""Cases side by side, as people read them: what differs is marked, what does not is named once."""

from __future__ import annotations

from collections.abc import Sequence

from dynoan.cautions import SHORT
from dynoan.jobs.carry import CarryAnswer
from dynoan.jobs.compared_figures import ComparedBlock, ComparedFigure, ComparedVerdict, Value
from dynoan.jobs.launch import LaunchAnswer
from dynoan.jobs.launch.granted import told_once
from dynoan.jobs.what_if import WhatIfAnswer
from dynoan.show.text import carry, launch, launch_differences, lettered
from dynoan.show.text.blocks import Block, Look, Paragraph, Table, blank
from dynoan.units import Shown

#: a change smaller than this share is not written as one
SMALLEST_SHARE = 0.005
#: a change larger than this share is of nearly nothing, and its share says nothing
LARGEST_SHARE = 10.0
SURE = "*"
#: names of cases that are wider together than this do not stand over columns that fit in 80: letters do
WIDEST_NAMES = 44


def blocks(answer: WhatIfAnswer, look: Look) -> list[Block]:
    """Return a table a block: figures down, cases across, and what is best where something decides."""
    out: list[Block] = lettered.legend(answer.heads, _heads(answer.heads))
    for one in answer.blocks:
        out += [*block(one, answer.heads, look), blank()]
    notes = told_once([one.answer.assumptions for one in answer.found if isinstance(one.answer, LaunchAnswer)])
    roads = any(isinstance(one.answer, LaunchAnswer) for one in answer.found)
    mark = f"{SURE} differs from the first by more than {'roads and ' if roads else ''}damping curves leave open."
    marked = any(SURE in cell for part in out if isinstance(part, Table) for row in part.rows for cell in row[1:])
    return [
        *out,
        *_carried(answer),
        *_of_launch(answer, look),
        *([Paragraph(mark)] if marked else []),
        *launch.granted(notes),
        Paragraph(SHORT),
    ]


def _of_launch(answer: WhatIfAnswer, look: Look) -> list[Block]:
    """Return what decides where the wheels spin and what to measure first, of the car before any change."""
    firsts = [one.answer for one in answer.found[:1]]
    return [block for one in firsts if isinstance(one, LaunchAnswer) for block in launch.deciding(one, look)]


def _carried(answer: WhatIfAnswer) -> list[Paragraph]:
    """Return what `carry` says of each case's clicks: adjusters at their ends, tested ground, ratios not kept."""
    heads = _heads(answer.heads)[1:]
    return [
        Paragraph(f"{head}: {line}")
        for head, one in zip(heads, answer.found, strict=False) if isinstance(one.answer, CarryAnswer)
        for line in carry.doubts(one.answer)
    ]  # fmt: skip


def _heads(labels: Sequence[str]) -> list[str]:
    """Return what stands over the cases' columns: their names, or letters where the names are too wide."""
    return lettered.heads(labels, wide=sum(len(label) + 2 for label in labels) > WIDEST_NAMES)


def block(of: ComparedBlock, labels: Sequence[str], look: Look) -> list[Block]:
    """Return one block's table, what is the same in all cases, and what is best."""
    shown = [f for f in of.figures if look.more or f.measure is None or f.measure.terminal != "more"]
    apart = [f for f in shown if f.always or (not f.same and _shows(f, look.units))]
    rows = [[_head(f, look.units), *_cells(f, look.units)] for f in apart]
    same = [
        _with_unit(f, look.units) for f in shown
        if f not in apart and any(_value(f, v, look.units) != "–" for v in f.values)
    ]  # fmt: skip
    out: list[Block] = (
        [Table(["", *_heads(labels)], rows, of.title, alike=True)]
        if rows
        else [Paragraph(f"{of.title}: no figure differs.")]
    )
    if rows and same:
        out.append(Paragraph(f"The same in all: {'; '.join(same)}."))
    out += launch_differences.blocks(of.changes, _heads(labels), look)
    return [*out, *(Paragraph(sentence(v, labels)) for v in of.verdicts)]


def _shows(figure: ComparedFigure, units: Shown) -> bool:
    """Whether a difference is one that the table's digits show."""
    return len({_value(figure, value, units) for value in figure.values}) > 1


def _head(figure: ComparedFigure, units: Shown) -> str:
    unit = "" if figure.measure is None else figure.measure.unit_text(units)
    return f"{figure.words} [{unit}]" if unit else figure.words


def _with_unit(figure: ComparedFigure, units: Shown) -> str:
    """Return a figure that is the same in all cases, with its value."""
    unit = "" if figure.measure is None else figure.measure.unit_text(units)
    return f"{figure.words} {_value(figure, figure.values[0], units)} {unit}".rstrip()


def _value(figure: ComparedFigure, value: Value, units: Shown) -> str:
    if value is None or value != value:
        return "–"
    if isinstance(value, str) or figure.measure is None:
        return str(value)
    if figure.measure.percent:
        return f"{round(100 * value)} %"
    return figure.measure.display(units).text(value, unit=False)


def _cells(figure: ComparedFigure, units: Shown) -> list[str]:
    first = figure.values[0]
    out = [_value(figure, first, units)]
    for value, differs in zip(figure.values[1:], figure.differs[1:], strict=True):
        text = _value(figure, value, units)
        mark = SURE if differs == "sure" and text != out[0] else ""
        change = "" if figure.in_percent else _change(first, value)
        out.append(f"{text}{change}{mark}")
    return out


def _change(first: Value, value: Value) -> str:
    if not isinstance(first, float | int) or not isinstance(value, float | int) or not first > 0:
        return ""
    share = value / first - 1
    return f" ({100 * share:+.0f} %)" if SMALLEST_SHARE <= abs(share) <= LARGEST_SHARE else ""


def sentence(found: ComparedVerdict, labels: Sequence[str]) -> str:
    """Return which case is best in a figure, or that it cannot be told."""
    if found.verdict == "no difference":
        return f"{found.words}: no difference.{f' {launch.SPUN}' if found.spun_through else ''}"
    best = labels[found.best]
    if found.verdict == "best":
        return f"{found.words}: {best}."
    return f"{found.words}: cannot tell; {best} comes out best, but by less than roads and damping curves leave open."
