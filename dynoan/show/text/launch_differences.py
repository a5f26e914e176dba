"""What settings or what-ifs change of a launch on the same roads, as people read it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from dynoan.jobs.launch.differences import CHANGES, Changes, RunDifference
from dynoan.jobs.measures import Measure
from dynoan.model.banded import Banded
from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.units import Shown

STRIDE = 0.5  #: [m]; judged
READ = "Where the brackets reach from below zero to above it, no difference can be told."


def blocks(found: Sequence[RunDifference], labels: Sequence[str], look: Look) -> list[Block]:
    """Return what runs change against the first of them; nothing where nothing changes.

    Parameters
    ----------
    found
        Of one surface.
    labels
        What stands for the first run and for each of `found`.
    look
        How to show it.
    """
    if not any(one.differs for one in found):
        return []
    roads = f", all on the same {found[0].roads} made-up roads" if found[0].roads else ""
    if not any(_told(change) for one in found for change in one.changes.values()):
        names = ", ".join(m.words for m in CHANGES if any(one.changes[m.key] is not None for one in found))
        return [Paragraph(f"{found[0].surface}: no difference can be told in {names}{roads}.")]
    measures = [_sized(m, found) for m in CHANGES if any(_differs(one.changes[m.key]) for one in found)]
    heads = ["", *(f"{m.words} [{m.unit_text(look.units)}]" for m in measures)]
    rows = [
        [label, *(_text(m, one.changes[m.key], look.units) for m in measures)]
        for label, one in zip(labels[1:], found, strict=True)
    ]
    return [Table(heads, rows, f"{found[0].surface}: more or less than {labels[0]}{roads}"), Paragraph(READ)]


def _sized(measure: Measure[Changes], found: Sequence[RunDifference]) -> Measure[Changes]:
    """Return how a change is shown: ways that differ by more than a stride in metres or feet."""
    most = max(abs(change.value) for one in found if (change := one.changes[measure.key]) is not None)
    return replace(measure, kind="far") if measure.kind == "length" and most > STRIDE else measure


def _told(change: Banded | None) -> bool:
    return change is not None and (change.low > 0 or change.high < 0)


def _differs(change: Banded | None) -> bool:
    return change is not None and (change.low, change.high) != (0.0, 0.0)


def _text(measure: Measure[Changes], change: Banded | None, units: Shown) -> str:
    if change is None:
        return "–"
    value, low, high = (_signed(measure.display(units).text(of, unit=False))
                        for of in (change.value, change.low, change.high))  # fmt: skip
    return value if low == high else f"{value} ({low} to {high})"


def _signed(text: str) -> str:
    return text if text.startswith("-") or float(text) == 0 else f"+{text}"
