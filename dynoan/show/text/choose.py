"""What `choose` found, as people read it: the ranking, what stands behind the best, and advice."""

from __future__ import annotations

from collections.abc import Sequence

from dynoan.analysis.choosing.choice import Reached, beyond
from dynoan.analysis.corner.ratio_measures import SECANTS
from dynoan.cautions import SHORT
from dynoan.jobs.choose.answering import CHOICE, ChooseAnswer
from dynoan.jobs.choose.ranking import Chosen, ChosenPlan
from dynoan.model.car import CORNER_NAMES
from dynoan.show.text.blocks import Block, Look, Paragraph, Table, blank
from dynoan.show.text.choose_advice import sentences
from dynoan.show.text.counting import counted
from dynoan.show.text.signs import signed
from dynoan.units import Shown, shown

#: a change of ratio that three decimals show as nothing
HALF_A_DIGIT = 5e-4

__all__ = ["blocks", "sentences"]


def blocks(answer: ChooseAnswer, look: Look) -> list[Block]:
    """Return the tables people read, the advice, and the cautions."""
    out: list[Block] = []
    for plans in answer.ranked:
        out += [_ranking(plans, look.units), *_order(plans, answer.question.limits.tolerance), blank()]
        for chosen in plans[0].choices:
            out += [_best(chosen, answer.question.limits.tolerance, look.units), blank(), _per_click(chosen), blank()]
    return [*out, *(Paragraph(line) for line in sentences(answer, look.units)), blank(), Paragraph(SHORT)]


def _ranking(plans: Sequence[ChosenPlan], units: Shown) -> Table:
    rows = [
        [str(i + 1), chosen.choice.where, *(m.text(chosen, units) for m in CHOICE)]
        for i, plan in enumerate(plans) for chosen in plan.choices
    ]  # fmt: skip
    first = plans[0].choices
    where = "each plan" if len(first) > 1 else first[0].choice.where
    shocks = [s for chosen in first for s in chosen.shocks.values()]
    return Table(["", "where", *(m.column(units) for m in CHOICE)], rows, f"Best for {where} ({counted(shocks)})")


def _order(plans: Sequence[ChosenPlan], tolerance: float) -> list[Paragraph]:
    """Return a line on the order, where what a setting is off by does not show it."""
    off = [max(chosen.choice.miss for chosen in plan.choices) for plan in plans]
    fits = [plan.fits for plan in plans]
    nearest = min((o, i) for i, o in enumerate(off) if fits[i] == fits[0])[1]
    said = []
    if True in fits and False in fits:
        said.append(f"those that keep every ratio within {100 * tolerance:.0f} % come first")
    if nearest and f"{100 * off[0]:.0f}" != f"{100 * off[nearest]:.0f}":
        said.append(
            f"1 misses by hardly more than {nearest + 1} and leads because it turns least of what is on the car"
        )
    return [Paragraph(f"The order: {'; '.join(said)}.")] if said and off != sorted(off) else []


def _best(chosen: Chosen, tolerance: float, units: Shown) -> Table:
    velocity, choice = shown("velocity", units), chosen.choice
    rows = [
        [CORNER_NAMES[r.corner], r.wanted.direction, velocity.text(r.wanted.velocity, unit=False),
         f"{r.wanted.ratio:.2f}", f"{r.ratio.value:.2f}", f"{r.ratio.low:.2f}–{r.ratio.high:.2f}",
         signed(100 * r.off), _verdict(r, tolerance)]
        for r in choice.reached
    ]  # fmt: skip
    columns = ["corner", "direction", velocity.unit, "wanted", "gives", "95 % limits", "off %", ""]
    return Table(columns, rows, f"{choice.where}: {choice.pack} {chosen.clicks_text}")


def _verdict(reached: Reached, tolerance: float) -> str:
    out = "out of tolerance" if beyond(reached.off, tolerance) else ""
    return ", ".join(filter(None, (out, "beyond the data" if reached.ratio.extrapolated else "")))


def _per_click(chosen: Chosen) -> Table:
    per, ends = chosen.per_click, chosen.choice.ends
    last = ["stands at"] if any(ends.get(name) for name in per) else []
    rows = [[name, *(_step(per[name][k]) for k in SECANTS), *(ends.get(name, "") for _ in last)] for name in per]
    return Table(["one click up", "comp low", "comp high", "reb low", "reb high", *last], rows)


def _step(change: float) -> str:
    if change != change:
        return "not tested"
    return "0" if abs(change) < HALF_A_DIGIT else f"{change:+.3f}"
