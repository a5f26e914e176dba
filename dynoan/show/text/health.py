"""What became of a shock, as people read it in a terminal."""

from __future__ import annotations

from dynoan.analysis.health.records import Change, Since
from dynoan.cautions import SHORT
from dynoan.jobs.health import HealthAnswer
from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.show.text.evidence import told_evidence
from dynoan.show.text.restated import restated
from dynoan.show.text.signs import signed
from dynoan.units import Shown, percent_places, shown

_NAMES = {
    "gas": "gas force and zero", "friction": "friction", "give": "give of oil and mounts", "fade": "fade per 10 °C",
}  # fmt: skip


def blocks(answer: HealthAnswer, look: Look) -> list[Block]:
    """Return verdict, changes with their intervals, findings with evidence and meaning, and since when."""
    found, units = answer.health, look.units
    out: list[Block] = [
        Paragraph(f"{answer.question.what}, {found.last} against {found.first}: {found.verdict}"),
    ]
    if answer.apart:
        out += [Table(["shock", "verdict", "last", "against"],
                      [[shock, one.verdict, one.last, one.first] for shock, one in answer.apart.items()]),
                Paragraph("All of them together:")]  # fmt: skip
    out.append(Table(["quantity", "change", "95 % limits"], [_row(c, units) for c in found.changes]))
    out += [Paragraph(f"\n{one.name}: {told_evidence(one, units)}\n  usually: {one.meaning}") for one in found.findings]
    out += [Paragraph(f"\n{since_words(step, units)}") for step in found.since]
    if found.verdict == "cannot tell":
        out.append(Paragraph(
            "no change shows, but the tests are too rough to rule one out: repeat them at the same settings"
        ))  # fmt: skip
    if found.findings:
        out.append(Paragraph(f"\n{SHORT}"))
    return out


def _row(change: Change, units: Shown) -> list[str]:
    places = percent_places(change.low, change.high)
    value, low, high = (_amount(change.quantity, n, places, units) for n in (change.value, change.low, change.high))
    return [_quantity(change, units), value, f"{low} to {high}"]


def since_words(step: Since, units: Shown) -> str:
    """Return when a quantity stepped."""
    name = (
        f"{step.direction} force, all speeds together"
        if step.quantity == "force"
        else restated(_NAMES[step.quantity], units)
    )
    by = _amount(step.quantity, step.change, 0, units)
    return (f"{name} stepped by {by} between {step.before} and {step.after} (95 %: after {step.earliest}, before "
            f"{step.latest})")  # fmt: skip


def _quantity(change: Change, units: Shown) -> str:
    if change.quantity == "force" and change.speed is not None:
        return f"{change.direction} force at {shown('velocity', units).text(change.speed)}"
    return restated(_NAMES[change.quantity], units)


def _amount(quantity: str, value: float, places: int, units: Shown) -> str:
    if quantity in ("gas", "friction"):
        force = shown("force", units)
        return f"{signed(value / force.factor, force.digits)} {force.unit}"
    return f"{signed(value, places)} %"
