"""A trial just planned, as people read it."""

from __future__ import annotations

from dynoan.cautions import CLOSED_COURSE
from dynoan.errors import typed
from dynoan.jobs.trial.judged import JudgedTrial
from dynoan.jobs.trial.new import TrialNewAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph
from dynoan.show.text.signs import percent
from dynoan.show.text.trials import amount, settings_line


def blocks(answer: TrialNewAnswer, _look: Look) -> list[Block]:
    """Return where it is kept, the order of runs, what that can tell, and the caution."""
    trial = answer.found.trial
    return [
        Paragraph(f"kept as {trial.name} ({trial.file})"),
        Paragraph(settings_line(trial), own=True),
        Paragraph(f"Drive in this order: {'-'.join(trial.plan)}. Note each run: dynoan trial run {typed(trial.name)} "
                  f"{answer.found.next} RESULT"),
        Paragraph(_told(answer.found)),
        Paragraph(CLOSED_COURSE),
    ]  # fmt: skip


def _told(found: JudgedTrial) -> str:
    trial = found.trial
    if found.power is not None and found.sought is not None and found.lent is not None:
        runs = "" if found.more_runs is None else f"; {found.more_runs} runs would on 80 % of days"
        return (f"Runs of this measure have scattered by {amount(trial, found.lent.sd)}: these {len(trial.plan)} runs "
                f"find a difference of {amount(trial, found.sought)} on {percent(found.power)} of days{runs}."
                )  # fmt: skip
    return ("How much runs scatter is not known yet, so how many are needed is not either; it is said once some are "
            "noted.")  # fmt: skip
