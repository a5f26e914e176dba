"""What tells that a shock changed, in the units people are shown, rounded as in the table above it."""

from __future__ import annotations

from dynoan.analysis.health.records import Finding
from dynoan.analysis.health.words import told_force
from dynoan.show.text.restated import restated
from dynoan.show.text.signs import signed
from dynoan.units import Shown, shown


def told_evidence(finding: Finding, units: Shown) -> str:
    """Return a finding's evidence: a force from what was reckoned, since one that was rounded in N rounds otherwise."""
    text, change = finding.evidence, finding.change
    if units != "metric" and change is not None:
        force = shown("force", units)
        value, low, high = (signed(n / force.factor, force.digits) for n in (change.value, change.low, change.high))
        text = text.replace(told_force(change), f"{value} {force.unit} ({low} to {high})")
    return restated(text, units)
