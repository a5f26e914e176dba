"""A run just noted, as people read it."""

from __future__ import annotations

from dynoan.jobs.trial.run import TrialRunAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph
from dynoan.show.text.trials import amount, onward_lines, runs_table, verdict_line


def blocks(answer: TrialRunAnswer, _look: Look) -> list[Block]:
    """Return what was noted, all runs, the verdict so far, and the next run."""
    return [
        Paragraph(_done(answer)),
        runs_table(answer.found.trial),
        Paragraph(verdict_line(answer.found)),
        *(Paragraph(line) for line in onward_lines(answer.found)),
    ]


def _done(answer: TrialRunAnswer) -> str:
    trial = answer.found.trial
    if answer.question.strike is not None:
        reason = answer.question.reason
        return f"run {answer.question.strike} {f'is struck out: {reason}' if reason else 'counts again'}"
    noted = ", ".join(f"{run.setting} {amount(trial, run.result)}" for run in answer.noted)
    return f"noted in {trial.name}: {answer.how or noted}"
