"""The trials kept, as people read them."""

from __future__ import annotations

from dynoan.jobs.trial.judged import JudgedTrial
from dynoan.jobs.trial.listing import TrialListAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.show.text.setups import unreadable_line
from dynoan.show.text.trials import amount

COLUMNS = ("name", "date", "surface", "a", "b", "runs", "b minus a", "low", "high", "verdict", "more runs")


def blocks(answer: TrialListAnswer, _look: Look) -> list[Block]:
    """Return the trials as a table, or that there are none."""
    rest: list[Block] = [Paragraph(unreadable_line(answer.unreadable))] if answer.unreadable else []
    if not answer.trials and rest:
        return rest
    if not answer.trials:
        return [Paragraph('no trials yet; plan one with: dynoan trial new NAME --a "rear=@lsr=6" --b "rear=@lsr=10"')]
    return [trials_table(answer.trials), *rest]


def trials_table(trials: tuple[JudgedTrial, ...], title: str = "") -> Table:
    """Return trials as a table, one line each."""
    return Table(COLUMNS, [_row(found) for found in trials], title)


def _row(found: JudgedTrial) -> list[str]:
    trial = found.trial
    limits = None if found.judged is None else found.judged.found
    span = ["–"] * 3 if limits is None else [
        amount(trial, limits.difference, signed=True), amount(trial, limits.low, signed=True, unit=False),
        amount(trial, limits.high, signed=True, unit=False),
    ]  # fmt: skip
    more = "" if found.verdict != "cannot tell" else "too many" if found.more_runs is None else str(found.more_runs)
    day = [trial.name, trial.date[:10], trial.surface or ""]
    return [*day, trial.a, trial.b, str(len(trial.counted)), *span, _verdict(found), more]


def _verdict(found: JudgedTrial) -> str:
    """Return the verdict, and what it cannot be put down to where that is doubtful."""
    if found.verdict == "cannot tell":
        return found.verdict
    doubts = []
    if found.changed.known and len(found.changed.what) != 1:
        doubts.append(f"{len(found.changed.what)} things differ" if found.changed.what else "nothing differs")
    if found.changed_once:
        doubts.append("changed once")
    return ": ".join([found.verdict, *([", ".join(doubts)] if doubts else [])])
