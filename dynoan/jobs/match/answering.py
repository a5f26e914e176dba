"""Whether two shocks or settings are a pair within a tolerance, and what to turn so that they are."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.analysis.clickmap.tested.loss_per_kelvin import OilTold
from dynoan.analysis.matching.assumptions import SPEEDS, TOLERANCE_PCT
from dynoan.analysis.matching.match import Match, Verdict
from dynoan.errors import CallError, QuantityError
from dynoan.jobs.answering import Answer
from dynoan.jobs.match.advice import TurnAdvice, advised
from dynoan.jobs.match.held import as_warm, matched
from dynoan.jobs.named import distinct, gas_remarks
from dynoan.jobs.oil import oil_remarks, oil_told
from dynoan.model.shock import clicks_text
from dynoan.units import brief, split_quantity
from dynoan.workbench.resolving import Resolved

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class MatchQuestion:
    """What is held against what, and what a pair may differ by."""

    first: str  #: a rig's file, a sweep's id, or a setting such as "shock=RL-03,pack=gravel"
    second: str
    tolerance: float = TOLERANCE_PCT  #: [%]

    @classmethod
    def asked(cls, first: str, second: str, tolerance: float | str = TOLERANCE_PCT) -> MatchQuestion:
        """Return the question from values as people give them; a tolerance is percent, "5" and "5 %" alike.

        Raises
        ------
        QuantityError
            If the tolerance is not a number of percent.
        """
        return cls(first, second, percent(tolerance))


def percent(tolerance: float | str) -> float:
    """Return a tolerance as people give it: a number of percent, with the sign or without. [%]

    Raises
    ------
    QuantityError
        If it is none.
    """
    try:
        number, unit = split_quantity(str(tolerance))
    except QuantityError:
        number, unit = float("nan"), ""
    if number != number or unit not in ("", "%"):
        raise QuantityError(
            f"'{brief(str(tolerance))}' is no number of percent", hint="write it like '5 %'", part="tolerance"
        )
    return number


@dataclass(frozen=True)
class HeldSetting:
    """Two held against each other in one setting."""

    first: Resolved
    second: Resolved
    match: Match
    oil: OilTold | None = None  #: what their pack's tests tell of damping in warmer oil


@dataclass(frozen=True)
class MatchAnswer(Answer):
    """Whether the two are a pair in every setting they have in common."""

    job: ClassVar[str] = "match"
    question: MatchQuestion
    settings: tuple[HeldSetting, ...]
    advice: tuple[TurnAdvice, ...]  #: for the setting they differ most in; none where they are a pair

    @property
    def verdict(self) -> Verdict:
        """The verdict over all settings."""
        return overall(one.match.verdict for one in self.settings)

    @property
    def no(self) -> bool:
        """Whether they are not a pair, or it cannot be told."""
        return self.verdict != "matched"

    @property
    def worst(self) -> HeldSetting:
        """The setting they differ most in."""
        return _worst(self.settings)

    @property
    def labels(self) -> tuple[str, str]:
        """Labels of that setting's two, which tell them apart."""
        first, second = distinct([self.worst.first, self.worst.second])
        return first, second

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan match --json`` prints it."""
        return {
            "verdict": self.verdict, "tolerance_pct": self.question.tolerance, "bands": self.rows(),
            "advice": [{"what": one.shock, "clicks": one.clicks, "change": one.change,
                        "worst_difference_pct": one.advice.worst} for one in self.advice],
            "settings": [{"what": [one.first.label, one.second.label], "clicks": dict(one.first.clicks),
                          "verdict": one.match.verdict, "worst_difference_pct": one.match.worst.difference,
                          "more_runs_each": one.match.repeats} for one in self.settings],
        }  # fmt: skip

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a setting, direction and speed: the difference, first less second, with its interval."""
        return [bands | {"clicks": dict(one.first.clicks)} for one in self.settings for bands in band_rows(one.match)]


def band_rows(found: Match) -> list[dict[str, Any]]:
    """Return one row a band of a match: where, and the difference with its interval."""
    return [
        {"direction": b.direction, "velocity_m_s": b.speed, "difference_pct": b.difference, "low_pct": b.low,
         "high_pct": b.high, "difference_n": b.newtons}
        for b in found.bands
    ]  # fmt: skip


def answer(bench: Workbench, question: MatchQuestion) -> MatchAnswer:
    """Return whether two are a pair: where both were tested at several settings, in those they have in common.

    Raises
    ------
    LookupFault
        If the library holds nothing of one.
    CallError
        If they have no tested setting in common, or share no speeds.
    QuantityError
        If the tolerance is not above 0 and below 100 %.
    """
    common = in_common(bench.resolve(question.first), bench.resolve(question.second), question)
    told = [oil_told(bench, [a, b]) for a, b in common]
    said = [text for (a, b), oil in zip(common, told, strict=True)
            for text in (*oil_remarks([a, b], oil), *gas_remarks(a, b))]  # fmt: skip
    speeds = SPEEDS[bench.units]
    settings = tuple(HeldSetting(a, b, matched(a, b, question.tolerance, speeds, oil), oil)
                     for (a, b), oil in zip(common, told, strict=True))  # fmt: skip
    worst = _worst(settings)
    pair = (worst.first, replace(worst.second, curve=as_warm(worst.second.curve, worst.first.curve, worst.oil)))
    advice = advised(bench, pair, said) if worst.match.verdict != "matched" else []
    if question.first == question.second:
        said.append(f"'{question.first}' is held against itself, which says nothing of a pair: name two")
    return MatchAnswer(question, settings, tuple(advice), warnings=tuple(dict.fromkeys(said)))


def in_common(a: Sequence[Resolved], b: Sequence[Resolved], question: MatchQuestion) -> list[tuple[Resolved, Resolved]]:
    """Return what is to be held against what: one each, else the settings both were tested at.

    Raises
    ------
    CallError
        If several were named and none has its like.
    """
    if len(a) == len(b) == 1:
        return [(a[0], b[0])]
    common = [(x, y) for x in a for y in b if _same_setting(x, y)]
    if not common:
        way = f"name one setting of each, such as {_example(a[0])}"
        raise CallError(f"'{question.first}' and '{question.second}' have no tested setting in common", hint=way)
    return common


def _same_setting(x: Resolved, y: Resolved) -> bool:
    return x.pack == y.pack and bool(x.from_closed) and dict(x.from_closed) == dict(y.from_closed)


def _example(one: Resolved) -> str:
    facts = (f"shock={one.shock}" if one.shock else "", f"pack={one.pack}" if one.pack else "", clicks_text(one.clicks))
    return ",".join(filter(None, facts))


def overall(verdicts: Iterable[Verdict]) -> Verdict:
    """Return the verdict over several settings: one that is not matched decides, then one that cannot tell."""
    found = set(verdicts)
    if "not matched" in found:
        return "not matched"
    return "cannot tell" if "cannot tell" in found else "matched"


def _worst(settings: Sequence[HeldSetting]) -> HeldSetting:
    order = ("matched", "cannot tell", "not matched")
    return max(settings, key=lambda one: (order.index(one.match.verdict), abs(one.match.worst.difference)))
