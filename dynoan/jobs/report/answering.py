"""The question for a report, and its answer."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.errors import LibraryError, LookupFault, QuantityError
from dynoan.jobs.answering import PageAnswer
from dynoan.jobs.report.gathering import Gatherer
from dynoan.jobs.report.parts import Gathered
from dynoan.jobs.report.scope import Scope, scope_of
from dynoan.jobs.travel import TravelQuestion
from dynoan.model.shock import clicks_text

if TYPE_CHECKING:
    from dynoan.workbench import Workbench


@dataclass(frozen=True)
class ReportQuestion:
    """What a report is to be about."""

    what: tuple[str, ...] = ()  #: names of cars, packs or shocks, such as "kestrel" or "pack=gravel"; none: everything
    title: str = ""  #: the heading; empty: what it is about
    launch: bool = True  #: with how the cars leave the line
    travel: tuple[TravelQuestion, ...] = ()  #: of each log of shock travel, all of the one car the report is about

    @classmethod
    def asked(
        cls, *what: str, title: str = "", launch: bool = True, travel: Sequence[TravelQuestion] = ()
    ) -> ReportQuestion:
        """Return the question from names as people give them."""
        return cls(what, title, launch, tuple(travel))


@dataclass(frozen=True)
class ReportAnswer(PageAnswer):
    """A report's parts: runs, packs, shocks, pairs and cars. It is saved as one HTML file."""

    job: ClassVar[str] = "report"
    question: ReportQuestion
    scope: Scope
    parts: Gathered
    team: str = ""

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan report --json`` prints it, without the file that command writes."""
        parts = self.parts
        return {
            "runs": len(parts.runs), "packs": [p.click_map.pack for p in parts.packs],
            "shocks": [s.shock.name for s in parts.shocks], "cars": [c.ratio.car.name for c in parts.cars],
            "travel": [log.to_dict() for log in parts.travel],
            "pairs": [{"shocks": [p.first, p.second], "pack": p.pack, "clicks": p.clicks, "verdict": p.match.verdict}
                      for p in parts.pairs],
        }  # fmt: skip

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a dyno run that the report rests on."""
        return [
            {"id": r.id, "date": r.date, "shock": r.shock, "pack": r.pack, "clicks": clicks_text(r.clicks),
             "layout": r.layout, "temperature_c": r.temperature, "source": r.source}
            for r in self.parts.runs
        ]  # fmt: skip


def answer(bench: Workbench, question: ReportQuestion) -> ReportAnswer:
    """Return all that the library has of what is asked about; what cannot be had is left out with a warning.

    Raises
    ------
    LookupFault
        If the library holds no sweep, or no car, pack or shock of a name.
    CallError
        If a name could mean two of them, travel was logged and it is not told on which car, or a log shows no travel.
    LibraryError, QuantityError
        If nothing of what is named can be had, since a file cannot be read or is wrong.
    """
    if not bench.records and bench.library.faults():
        raise LookupFault(
            "none of the library's sweeps can be read, so there is nothing to report",
            hint="dynoan check says why",
        )
    if not bench.records:
        raise LookupFault(
            "the library holds no sweeps yet, so there is nothing to report", hint="add some with dynoan add"
        )
    scope = scope_of(bench, question.what)
    gatherer = Gatherer(bench, launch=question.launch)
    parts = gatherer.gather(scope, question.travel)
    spoiled = next((error for error in gatherer.failed if isinstance(error, LibraryError | QuantityError)), None)
    if spoiled is not None and not scope.everything and not (parts.cars or parts.packs or parts.shocks):
        raise spoiled
    return ReportAnswer(question, scope, parts, bench.library.team, warnings=tuple(dict.fromkeys(gatherer.said)))
