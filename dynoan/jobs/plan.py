"""Which dyno runs of a pack to pay for next, and what each is worth."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from dynoan.analysis.clickmap.asked.plan import Plan, PlannedRun, plan
from dynoan.errors import CallError
from dynoan.jobs.answering import PageAnswer
from dynoan.jobs.assumptions import TOP_SPEED
from dynoan.jobs.ratio.asked import shock_velocity
from dynoan.model.shock import Shock

if TYPE_CHECKING:
    from dynoan.analysis.clickmap.tested.data import Tested
    from dynoan.model.shock import Adjuster
    from dynoan.workbench import Workbench

SHEETS = (".html", ".txt", ".csv")  #: how the name of a sheet's file may end


def sheet_form(ending: str) -> str:
    """Return the form of a sheet that an ending names.

    Raises
    ------
    CallError
        If a sheet has no such form.
    """
    if ending.lower() not in SHEETS:
        raise CallError(
            f"a sheet is written as {', '.join(SHEETS)}", hint="end the name with one of these", part="sheet"
        )
    return ending.lower()


@dataclass(frozen=True)
class PlanQuestion:
    """How many runs of which pack."""

    pack: str
    runs: int = 4
    shock: str | None = None  #: that carries it; needed where no sweep of the pack is kept yet
    top: float = TOP_SPEED  #: highest speed to run where no sweep of the pack is kept yet [m/s]

    @classmethod
    def asked(
        cls, pack: str, *, runs: int = 4, shock: str | None = None, top: float | str | None = None
    ) -> PlanQuestion:
        """Return the question from values as people give them: SI numbers, or text with a unit.

        Raises
        ------
        QuantityError
            If the highest speed is no speed of a shock.
        """
        return cls(pack, runs, shock, TOP_SPEED if top is None else shock_velocity(top, "top"))


@dataclass(frozen=True)
class PlanAnswer(PageAnswer):
    """The next runs, the most telling first. It is saved as a sheet for the dyno shop: a page, text or CSV."""

    job: ClassVar[str] = "plan"
    forms: ClassVar[tuple[str, ...]] = SHEETS
    question: PlanQuestion
    plan: Plan
    counting: Shock  #: the shock whose counting the clicks are shown in
    team: str = ""

    @property
    def to_run(self) -> tuple[PlannedRun, ...]:
        """The runs for the shop: those worth their money, else all."""
        worth = tuple(run for run in self.plan.runs if run.worth_it)
        return worth or self.plan.runs

    def clicks(self, run: PlannedRun) -> dict[str, int]:
        """Return a run's clicks as the shock counts them."""
        return self.counting.to_counted(run.from_closed)

    def to_dict(self) -> dict[str, Any]:
        """Return the result as ``dynoan plan --json`` prints it."""
        made = self.plan
        return {
            "runs": [{"clicks": self.clicks(run), **_figures(run)} for run in made.runs],
            "error_now_pct": made.error_now, "error_after_pct": made.error_after, "stop_after": made.stop_after,
            "pack": made.pack, "tests": made.tests,
        }  # fmt: skip

    def rows(self) -> Sequence[Mapping[str, Any]]:
        """Return one row a run."""
        return [{"run": i} | self.clicks(run) | _figures(run) for i, run in enumerate(self.plan.runs, start=1)]


def _figures(run: PlannedRun) -> dict[str, Any]:
    return {"expected_gain_pct": run.gain, "error_after_pct": run.error_after, "speeds_m_s": run.speeds,
            "worth_it": run.worth_it}  # fmt: skip


def answer(bench: Workbench, question: PlanQuestion) -> PlanAnswer:
    """Return the runs that lower the expected error of a pack's click map most. [%]

    Raises
    ------
    CallError
        If the pack is new and no shock is named, or the runs are not 1 to 50.
    LookupFault
        If the library knows no such shock.
    """
    counting, adjusters, tested = _known(bench, question)
    made = plan(question.pack, adjusters, tested, count=question.runs, top=question.top)
    said = []
    if not tested:
        said.append(f"no sweep of pack {question.pack} yet: the plan rests on what such valves are usually like; plan "
                    "again after the first runs")  # fmt: skip
    if not adjusters:
        said.append("no adjusters are known for this pack; name its shock, or add shocks/NAME.toml")
    return PlanAnswer(question, made, counting, bench.library.team, warnings=(*said, *_doubts(bench, question.pack)))


def _doubts(bench: Workbench, pack: str) -> tuple[str, ...]:
    """Return what is odd or may be odd about a tested pack, with the runs that would tell."""
    if pack not in bench.library.packs():
        return ()
    map = bench.click_map(pack)
    return tuple(dict.fromkeys((*(odd.words for odd in map.oddities), *map.doubts)))


def _known(bench: Workbench, question: PlanQuestion) -> tuple[Shock, tuple[Adjuster, ...], tuple[Tested, ...]]:
    """Return the counting, the adjusters and the tested settings of a pack; of a new one, those of its shock."""
    pack, packs = question.pack, bench.library.packs()
    if pack in packs:
        map = bench.click_map(pack)
        return bench.counting_of(map, question.shock), map.adjusters, bench.tested(pack=pack)
    if question.shock is None:
        have = ", ".join(packs) or "none"
        raise CallError(
            f"no sweep of pack '{pack}' (packs here: {have})", hint="for a new one name its shock", need="shock"
        )
    named = bench.shock(question.shock)
    return named, named.adjusters, ()
