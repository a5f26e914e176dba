"""Figures of an answer, each declared once: its key in JSON and frames, its words for people, its unit, its place.

A job that shows a table of things lists its measures; terminal, JSON, report, frame and window are made from that list.
A new figure is computed in `analysis` and gets one line in its job's list.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Generic, Literal, TypeVar

from dynoan.model.banded import Banded
from dynoan.units import Display, Shown, shown

T = TypeVar("T")
Place = Literal["always", "more", "never"]


@dataclass(frozen=True)
class Measure(Generic[T]):
    """One figure of each thing in a table."""

    key: str  #: in JSON and frames, the unit in it
    words: str  #: at its column, the unit aside
    value: Callable[[T], float | Banded | str | None]  #: SI; None where it is not known
    kind: str | None = None  #: of quantity, a key of `units.shown`; None for a plain number
    unit: str = ""  #: of a plain number, as people read it
    digits: int = 2  #: of a plain number
    percent: bool = False  #: a share, which people read as "12 %"
    terminal: Place = "always"  #: "more" with -v
    report: bool = True

    def display(self, units: Shown) -> Display:
        """Return how its numbers are shown."""
        return shown(self.kind, units) if self.kind else Display(self.unit, 1.0, self.digits)

    def column(self, units: Shown) -> str:
        """Return the head of its column, with the unit."""
        return f"{self.words} {self.unit_text(units)}".strip()

    def unit_text(self, units: Shown) -> str:
        """Return the unit people see; nothing for a plain number without one."""
        return self.display(units).unit

    def text(self, thing: T, units: Shown) -> str:
        """Return a thing's figure as people read it; a dash where it is not known."""
        value = self.value(thing)
        if value is None or value != value:
            return "–"
        if isinstance(value, str):
            return value
        if isinstance(value, Banded):
            return value.text(self.digits)
        if self.percent:
            return f"{100 * value:.0f} %"
        return self.display(units).text(value, unit=False)


def as_dict(measures: Iterable[Measure[T]], thing: T) -> dict[str, Any]:
    """Return all figures of a thing by key, in SI."""
    return {m.key: m.value(thing) for m in measures}


def cells(
    measures: Sequence[Measure[T]], things: Mapping[str, T], units: Shown, places: Sequence[Place]
) -> tuple[list[str], list[list[str]]]:
    """Return column heads and rows of text, a row a thing with its name first, of the measures shown at `places`."""
    here = [m for m in measures if m.terminal in places]
    return [m.column(units) for m in here], [[name, *(m.text(t, units) for m in here)] for name, t in things.items()]
