"""Figures of several cases laid side by side, as data: values, bands, and which differ from the first case."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from dynoan.jobs.launch.differences import RunDifference
from dynoan.jobs.measures import Measure
from dynoan.model.banded import Banded

#: figures closer than this share are the same: less than any table shows
SAME = 1e-6
#: beside nothing at all, less than this is rounding [SI]; numerics
ROUNDING = 1e-9
Value = float | str | None


@dataclass(frozen=True)
class ComparedFigure:
    """One figure in every case, the first case being the one the others are held against."""

    key: str  #: as in the job's own result
    words: str
    values: tuple[Value, ...]  #: SI
    bands: tuple[tuple[float, float] | None, ...]  #: 95 % limits where known
    #: a case: "" for the same as the first, "differs", or "sure" where the difference is beyond what is not known
    differs: tuple[str, ...]
    measure: Measure[Any] | None = None  #: how it is shown; None for text
    always: bool = False  #: whether it is what was asked for, and shown where no case differs too

    @property
    def same(self) -> bool:
        """Whether no case differs."""
        return not any(self.differs)

    @property
    def in_percent(self) -> bool:
        """Whether it is a percentage, of which no percentage is told."""
        return self.measure is not None and (self.measure.percent or "%" in self.measure.words)

    def to_dict(self, labels: Sequence[str]) -> dict[str, Any]:
        """Return it as plain values."""
        rows = zip(labels, self.values, self.bands, self.differs, strict=True)
        return {"key": self.key, "cases": [
            {"label": label, "value": value, "low": band[0] if band else None, "high": band[1] if band else None,
             "differs": bool(differs), "sure": differs == "sure"} for label, value, band, differs in rows
        ]}  # fmt: skip


@dataclass(frozen=True)
class ComparedVerdict:
    """Which case is best in a figure that decides, and whether that is sure."""

    key: str
    words: str
    best: int  #: the case; meaningless where there is no difference
    verdict: str  #: "best", "cannot tell" or "no difference"
    spun_through: bool = False  #: the driven wheels spin nearly all the while in every case


@dataclass(frozen=True)
class ComparedBlock:
    """Figures of one surface, corner or place."""

    title: str
    figures: tuple[ComparedFigure, ...]
    verdicts: tuple[ComparedVerdict, ...] = ()
    changes: tuple[RunDifference, ...] = ()  #: of launches: of what the road decides, each case against the first

    def to_dict(self, labels: Sequence[str]) -> dict[str, Any]:
        """Return it as plain values."""
        return {
            "block": self.title,
            "figures": [figure.to_dict(labels) for figure in self.figures],
            "changes": [one.to_dict() | {"label": label} for label, one in zip(labels[1:], self.changes, strict=False)],
            "verdicts": [{"key": v.key, "best": labels[v.best], "verdict": v.verdict} for v in self.verdicts],
        }


def figure_of(measure: Measure[Any], things: Sequence[Any], key: str = "", words: str = "") -> ComparedFigure:
    """Return a figure of things, one a case, held against the first."""
    found = [None if thing is None else measure.value(thing) for thing in things]
    values = tuple(v.value if isinstance(v, Banded) else v for v in found)
    bands = tuple((v.low, v.high) if isinstance(v, Banded) else None for v in found)
    differs = tuple(differing(values[0], bands[0], v, b) for v, b in zip(values, bands, strict=True))
    return ComparedFigure(key or measure.key, words or measure.words, values, bands, differs, measure)


def differing(
    a: Value, a_band: tuple[float, float] | None, b: Value, b_band: tuple[float, float] | None, same: float = SAME
) -> str:
    """Return "" where b is the same as a, "differs", or "sure" where their bands lie apart."""
    if not isinstance(a, float | int) or not isinstance(b, float | int):
        return "" if a == b else "sure"
    if a == b or (a != a and b != b) or abs(a - b) <= same * max(abs(a), abs(b)) or (a == 0 and abs(b) <= ROUNDING):
        return ""
    if a_band is None or b_band is None:
        return "sure"
    return "sure" if a_band[1] < b_band[0] or b_band[1] < a_band[0] else "differs"
