"""What `predict` found, as people read it in a terminal."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from dynoan.analysis.clickmap.asked.authority import Authority
from dynoan.cautions import SHORT
from dynoan.jobs.predict import PredictAnswer
from dynoan.model.shock import clicks_text
from dynoan.show.text.blocks import Block, Look, Paragraph, Table, blank
from dynoan.show.text.forces import forces
from dynoan.show.text.signs import signed
from dynoan.units import Shown, degrees, shown

STANDING = {
    "tested": "tested",
    "between": "between tested clicks",
    "outside": "outside the tested clicks: a guess, the worse the farther",
}

#: how clicks between tests are known
VIEW = {
    "hydraulic": "a hydraulic model through", "interpolated": "interpolated between", "single": "one curve from",
}  # fmt: skip


def blocks(answer: PredictAnswer, look: Look) -> list[Block]:
    """Return what people read: what the map rests on, each curve, what a click is worth, and the cautions."""
    out: list[Block] = [Paragraph(line) for line in _basis(answer)]
    for clicks, curve in zip(answer.question.clicks, answer.curves, strict=True):
        oil = "" if curve.temperature is None else f", oil at {degrees(curve.temperature, look.units)}"
        out.append(Paragraph(f"\n{curve.what}: {STANDING[curve.standing]}{oil}"))
        out += [Paragraph(filled_words(answer, clicks))] if answer.filled(clicks) else []
        out += forces(curve, answer.question.at, look.units)
    out += worth(answer.worth_in(look.units), look.units)
    for run in answer.dead:
        out.append(Paragraph(f"{run.adjuster}: clicks {run.first} to {run.last} from closed change nothing"))
    return [*out, Paragraph(f"\n{SHORT}")]


def filled_words(answer: PredictAnswer, clicks: Mapping[str, int]) -> str:
    """Return which clicks were taken where none were given, and why there."""
    taken = answer.filled(clicks)
    were = "was" if len(taken) == 1 else "were"
    return f"{clicks_text(taken)} {were} not given: taken where most tests of this pack sat"


def _basis(answer: PredictAnswer) -> list[str]:
    map, tests = answer.map, len(answer.map.tested)
    known = map.loo_error_pct == map.loo_error_pct
    error = (
        f"; a tested one guessed from the others alone is off by {map.loo_error_pct:.1f} % (median)" if known else ""
    )
    settings = f"{tests} tested setting{'s' if tests != 1 else ''} of {', '.join(map.shocks)}"
    lines = [f"pack {map.pack}: {VIEW[map.view]} {settings}{error}; {answer.counting.counted_words()}"]
    if map.spread_pct == map.spread_pct:
        lines.append(f"its shocks differ among themselves by {map.spread_pct:.1f} % (standard deviation)")
    return lines


def worth(found: Sequence[Authority], units: Shown) -> list[Block]:
    """Return what a click of each adjuster is worth, by direction and speed; nothing where there is no adjuster."""
    if not found:
        return []
    velocity = shown("velocity", units)
    columns = ["a click out of", "acts on", *(velocity.text(s) for s in found[0].speeds)]
    return [blank(), Table(columns, [_row(one, units) for one in found])]


def _row(one: Authority, units: Shown) -> list[str]:
    force = shown("force", units)
    cells = [f"{signed(-n / force.factor, 1)} {force.unit} ({signed(-p, 1)} %)" if one.known else "not tested"
             for n, p in zip(one.newtons, one.percent, strict=True)]  # fmt: skip
    acts = one.direction + ("" if one.intended else " (cross-talk)")
    return [one.adjuster, acts, *cells]
