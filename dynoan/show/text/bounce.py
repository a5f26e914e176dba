"""What a pushed corner tells, as people read it."""

from __future__ import annotations

from dynoan.analysis.bounce.limits import SwingFit
from dynoan.cautions import PUSHING
from dynoan.jobs.bounce import BounceAnswer
from dynoan.jobs.bounce.explained import Explanation
from dynoan.model.banded import Banded
from dynoan.model.car import CORNER_NAMES
from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.units import Shown, shown

VERDICTS = {
    "agrees": "It agrees: the car swings as the curves and the car's file say.",
    "differs": "It differs from what the curves and the car's file say.",
    "cannot tell": "Cannot tell: the limits are too wide to hold it against the prediction; push more often.",
}


def blocks(answer: BounceAnswer, look: Look) -> list[Block]:
    """Return how the log was understood, measured beside predicted, friction, the verdict, and the caution."""
    fit = answer.measured
    place = CORNER_NAMES.get(answer.question.place, f"{answer.question.place} axle")
    pushes = f"{len(fit.swings)} push{'es' * (len(fit.swings) != 1)}"
    return [
        Paragraph(f"{place}: {answer.channel.how}, {answer.channel.rate:.0f} Hz, {pushes}"),
        _table(answer, look.units),
        Paragraph(_friction(answer, look.units)),
        *([Paragraph(VERDICTS[answer.verdict])] if answer.predicted else []),
        *_explained(answer, look.units),
        Paragraph(PUSHING),
    ]


def _table(answer: BounceAnswer, units: Shown) -> Table:
    length = shown("length", units).text(answer.measured.amplitude)
    pairs = [("measured", answer.measured)]
    if answer.predicted is not None:
        pairs.append(("predicted", answer.predicted.fit))
    rows = [[what, *_row_of(f, measured=what == "measured")] for what, f in pairs]
    if answer.predicted is not None:
        factors = [_banded(h.factor) for h in (answer.predicted.frequency, answer.predicted.ratio)]
        rows.append(["measured over predicted", factors[1], "", "", factors[0]])
    heads = [
        "",
        f"damping ratio at {length} at the wheel",
        "frequency [Hz]",
        "as it swings [Hz]",
        "without the shock [Hz]",
    ]
    return Table(heads, rows)


def _row_of(fit: SwingFit, *, measured: bool) -> list[str]:
    """Return ratio and frequencies; a prediction is what it is, a log may tell too little to state them."""
    told = fit.frequency_shown or not measured
    return [
        _banded(fit.ratio, stated=fit.ratio_stated or not measured), _banded(fit.frequency, stated=told),
        f"{fit.damped:.2f}" if told else "cannot tell", _banded(fit.free, stated=told),
    ]  # fmt: skip


def _banded(value: Banded, *, stated: bool = True) -> str:
    return f"{f'{value.value:.2f}' if stated else 'cannot tell'} ({value.low:.2f}–{value.high:.2f})"


def _friction(answer: BounceAnswer, units: Shown) -> str:
    force = shown("force", units)
    if not answer.measured.told:
        return "Friction cannot be told from damping in this log: some of what the ratio says may be friction."
    if answer.friction is None:
        return "Friction is told from damping; how large it is takes the car's weight (--car)."
    f = answer.friction
    own = f"{force.text(f.value)} at the wheel ({force.text(f.low, unit=False)}–{force.text(f.high, unit=False)})"
    dyno = "" if answer.dyno_friction is None else f"; the shocks alone {force.text(answer.dyno_friction)} on the dyno"
    stop = answer.measured.friction.value / answer.measured.parameters[0]
    early = f" It stops the swing up to {shown('length', units).text(stop)} beside the middle."
    return f"Friction, told from damping: {own}{dyno}.{early}"


#: where the search for what explains a difference comes to nothing
UNEXPLAINED = (
    "No click, and no single value of the car that may well be, explains it: was this corner pushed, are pack and "
    "shock those that are written, does nothing rub?"
)


def _explained(answer: BounceAnswer, units: Shown) -> list[Block]:
    if answer.predicted is None or not answer.no:
        return []
    rows = [_row(e, units) for e in answer.predicted.explained_by]
    if not rows:
        return [Paragraph(UNEXPLAINED)]
    return [Table(["what", "as written", "would have to be"], rows, "What alone would explain it")]


def _row(e: Explanation, units: Shown) -> list[str]:
    if e.kind == "clicks":
        return [e.what, f"{e.now:.0f}", f"{e.value:.0f}"]
    if e.kind == "turn":
        return [e.what, "as they are", f"{e.value:+.0f}"]
    if not e.kind:
        return [e.what, f"{e.now:.3f}", f"{e.value:.3f}"]
    return [e.what, shown("stiffness" if e.kind == "stiffness" else "mass", units).text(e.now),
            shown("stiffness" if e.kind == "stiffness" else "mass", units).text(e.value)]  # fmt: skip
