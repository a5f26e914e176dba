"""A batch of shocks sorted into the pairs with the smallest worst difference."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING, Any, ClassVar

import numpy as np

from dynoan.analysis.matching.advice import best_pairs
from dynoan.analysis.matching.assumptions import SPEEDS, TOLERANCE_PCT
from dynoan.analysis.matching.match import Band, Match, Verdict
from dynoan.errors import CallError
from dynoan.jobs.answering import Answer
from dynoan.jobs.match.answering import band_rows, overall, percent
from dynoan.jobs.match.held import matched
from dynoan.jobs.oil import oil_told
from dynoan.model.setting import RunSetting
from dynoan.workbench.resolving import Resolved

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

#: what stands for the difference of two that were never held against each other: no pair [%]
NEVER = 1e6
#: the tested settings of one shock
Tests = Mapping[RunSetting | None, Resolved]


@dataclass(frozen=True)
class PairsQuestion:
    """What is sorted into pairs, and what a pair may differ by."""

    what: tuple[str, ...]  #: each a rig's file, a sweep's id, or settings such as "pack=gravel,lsc=10"
    tolerance: float = TOLERANCE_PCT  #: [%]

    @classmethod
    def asked(cls, what: Sequence[str], tolerance: float | str = TOLERANCE_PCT) -> PairsQuestion:
        """Return the question from values as people give them; a tolerance is percent, "5" and "5 %" alike.

        Raises
        ------
        QuantityError
            If the tolerance is not a number of percent.
        """
        return cls(tuple(what), percent(tolerance))


@dataclass(frozen=True)
class Pair:
    """Two shocks that go together, held against each other in each setting they have in common."""

    first: str
    second: str
    matches: tuple[Match, ...]

    @property
    def verdict(self) -> Verdict:
        """The verdict over all settings."""
        return overall(m.verdict for m in self.matches)

    @property
    def worst(self) -> Band:
        """The band with the largest difference."""
        return max(self.matches, key=lambda m: abs(m.worst.difference)).worst


@dataclass(frozen=True)
class PairsAnswer(Answer):
    """The best pairs, most alike first, and who is left over."""

    job: ClassVar[str] = "pairs"
    question: PairsQuestion
    pairs: tuple[Pair, ...]
    left_over: tuple[str, ...]

    @property
    def verdict(self) -> Verdict:
        """The verdict over all pairs."""
        return overall(pair.verdict for pair in self.pairs)

    @property
    def no(self) -> bool:
        """Whether one of the pairs is none, or it cannot be told."""
        return self.verdict != "matched"

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan match --pairs … --json`` prints it."""
        rows = [_row(pair) | {"bands": _bands(pair)} for pair in self.pairs]
        bands = [band for row in rows for band in row["bands"]]
        return {"verdict": self.verdict, "tolerance_pct": self.question.tolerance, "bands": bands, "advice": [],
                "pairs": rows, "left_over": list(self.left_over)}  # fmt: skip

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a pair, most alike first."""
        return [_row(pair) for pair in self.pairs]


def _row(pair: Pair) -> dict[str, Any]:
    worst = pair.worst
    return {"a": pair.first, "b": pair.second, "verdict": pair.verdict, "worst_difference_pct": worst.difference,
            "worst_direction": worst.direction, "worst_velocity_m_s": worst.speed}  # fmt: skip


def _bands(pair: Pair) -> list[dict[str, Any]]:
    names = {"pair": [pair.first, pair.second]}
    return [names | {k: v for k, v in row.items() if k != "difference_n"}
            for m in pair.matches for row in band_rows(m)]  # fmt: skip


def answer(bench: Workbench, question: PairsQuestion) -> PairsAnswer:
    """Return everything named as the pairs with the smallest worst difference.

    Raises
    ------
    LookupFault
        If the library holds nothing of one.
    CallError
        If fewer than two shocks are named, or they share no tested setting.
    QuantityError
        If the tolerance is not above 0 and below 100 %.
    """
    shocks = _shocks([one for what in question.what for one in bench.resolve(what)])
    names = list(shocks)
    matches: dict[tuple[int, int], tuple[Match, ...]] = {}
    worst = np.zeros((len(names), len(names)))
    for i, j in combinations(range(len(names)), 2):
        matches[i, j] = _held(bench, (shocks[names[i]], shocks[names[j]]), question.tolerance)
        worst[i, j] = worst[j, i] = max((abs(m.worst.difference) for m in matches[i, j]), default=NEVER)
    chosen = best_pairs(worst)
    paired = {i for pair in chosen for i in pair}
    left = tuple(name for i, name in enumerate(names) if i not in paired)
    return PairsAnswer(question, tuple(Pair(names[i], names[j], matches[i, j]) for i, j in chosen), left)


def _shocks(found: Sequence[Resolved]) -> dict[str, Tests]:
    """Return the settings of each shock; what has no shock's name stands by its own label."""
    groups: dict[str, dict[RunSetting | None, Resolved]] = {}
    for one in found:
        setting = RunSetting(None, one.pack, tuple(sorted(one.from_closed.items()))) if one.shock else None
        groups.setdefault(one.shock or one.label, {})[setting] = one
    if len(groups) < 2:
        raise CallError("two or more shocks are needed for pairs", hint="name several, or a pack as pack=NAME")
    shared = set.intersection(*(set(group) for group in groups.values()))
    if shared or all(len(group) == 1 for group in groups.values()):
        return dict(groups)
    raise CallError(
        "the shocks named share no tested setting", hint="test them all at one setting, or name it: pack=gravel,lsc=10"
    )


def _held(bench: Workbench, shocks: tuple[Tests, Tests], tolerance: float) -> tuple[Match, ...]:
    a, b = shocks
    couples = [(a[s], b[s]) for s in a if s in b] or [(next(iter(a.values())), next(iter(b.values())))]
    return tuple(matched(*two, tolerance, SPEEDS[bench.units], oil_told(bench, two)) for two in couples)
