"""A trial and its verdict, as people read them."""

from __future__ import annotations

from dynoan.cautions import CLOSED_COURSE
from dynoan.jobs.trial.show import TrialShowAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph
from dynoan.show.text.trials import onward_lines, runs_table, settings_line, verdict_line


def blocks(answer: TrialShowAnswer, look: Look) -> list[Block]:
    """Return the question, the runs, the verdict, how to go on, and the caution."""
    trial = answer.found.trial
    return [
        *([Paragraph(trial.question, own=True)] if trial.question else []),
        Paragraph(settings_line(trial), own=True),
        *([runs_table(trial)] if trial.runs else []),
        Paragraph(verdict_line(answer.found)),
        *(Paragraph(line) for line in onward_lines(answer.found)),
        *([Paragraph(_how(answer))] if look.more else []),
        Paragraph(CLOSED_COURSE),
    ]


def _how(answer: TrialShowAnswer) -> str:
    judged, lent = answer.found.judged, answer.found.lent
    told = (
        "Least squares: a level and a steady drift for each day, and the difference; limits by Student's t. A drift "
        "that bends can look like a difference in the order abba: the limits allow there for one that bends by the "
        "scatter of a run; abbabaab takes it out."
    )
    if judged is None or judged.scatter is None:
        return told
    spread = f" One run scatters by {judged.scatter.sd:.3g} (SI), {judged.scatter.dof:.0f} degrees of freedom"
    return told + spread + (" with earlier trials of the same measure." if lent is not None else ".")
