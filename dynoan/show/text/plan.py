"""The runs to test next, as people read them in a terminal."""

from __future__ import annotations

from dynoan.analysis.clickmap.asked.plan import Plan
from dynoan.analysis.clickmap.assumptions.plan import WORTH_A_RUN
from dynoan.jobs.plan import PlanAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.units import Shown, shown

#: a speed so little beside a whole number is asked for as that; rigs hold their speed no better [1]
SAME_SPEED = 0.025
#: what the expected error is, beside the one that `predict` tells
MEANT = (
    "the expected error is the mean over all clicks and speeds, most of them never tested; what predict tells is of "
    "tested settings alone"
)


def blocks(answer: PlanAnswer, look: Look) -> list[Block]:
    """Return the runs, what each is worth, and where to stop."""
    made, counting = answer.plan, answer.counting
    tests = f"{made.tests} tested setting{'s' if made.tests != 1 else ''}"
    now = f"pack {made.pack}, {tests}: expected error now {made.error_now:.1f} %; {counting.counted_words()}"
    return [Paragraph(now), Paragraph(MEANT), _runs(answer, look.units), Paragraph(stop_words(made))]


def _runs(answer: PlanAnswer, units: Shown) -> Table:
    names = list(answer.plan.runs[0].from_closed)
    rows = []
    for i, run in enumerate(answer.plan.runs, start=1):
        clicks = answer.clicks(run)
        rows.append([str(i), *(str(clicks[n]) for n in names), f"{run.gain:.2f} %", f"{run.error_after:.2f} %",
                     "yes" if run.worth_it else "no", speeds_text(run.speeds, units)])  # fmt: skip
    return Table(["run", *names, "error less by", "error left", "worth it", speeds_head(units)], rows)


def speeds_head(units: Shown) -> str:
    """Return the head of the column of speeds."""
    return f"peak velocities {shown('velocity', units).unit}"


def speeds_text(speeds: tuple[float, ...], units: Shown) -> str:
    """Return the speeds [m/s] of a run as a rig is set to them: whole numbers where that is hardly another speed."""
    velocity = shown("velocity", units)
    return " ".join(_as_set(velocity.number(s), 1 if units == "us" else 0) for s in speeds)


def _as_set(speed: float, digits: int) -> str:
    whole = round(speed)
    return f"{whole}" if abs(speed - whole) < SAME_SPEED * speed else f"{speed:.{digits}f}"


def stop_words(made: Plan) -> str:
    """Return after which run to stop."""
    if made.stop_after == 0:
        return "stop: no further run is worth its money"
    if made.stop_after < len(made.runs):
        return f"stop after run {made.stop_after}: what follows takes off less than {WORTH_A_RUN:g} %"
    return f"all {len(made.runs)} are worth running; plan again after them"
