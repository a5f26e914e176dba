"""Shocks that are no longer what they were, in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dynoan.jobs.health import HealthAnswer
from dynoan.model.car import CORNER_NAMES, Car
from dynoan.show.text.evidence import told_evidence
from dynoan.show.text.sentences import capital
from dynoan.units import Shown


@dataclass(frozen=True)
class Worn:
    """A shock that changed, and where it sits."""

    shock: str
    corners: tuple[str, ...]
    title: str  #: where, which, since when
    short: str  #: which and what, for one line
    findings: tuple[str, ...]  #: each with its evidence
    meanings: tuple[str, ...]  #: what each usually is


def worn_of(answers: Sequence[HealthAnswer], car: Car, units: Shown) -> tuple[Worn, ...]:
    """Return the changed shocks of a car."""
    return tuple(_worn(one, car, units) for one in answers)


def _worn(answer: HealthAnswer, car: Car, units: Shown) -> Worn:
    shock, found = answer.question.what, answer.health
    corners = tuple(c.name for c in car.corners.values() if c.shock == shock)
    where = ", ".join(CORNER_NAMES[name] for name in corners)
    names = ", ".join(f.name for f in found.findings) or "changed"
    findings = tuple(f"{capital(f.name)}: {told_evidence(f, units)}" for f in found.findings)
    meanings = tuple(f"{capital(f.name)}: {f.meaning}." for f in found.findings)
    return Worn(
        shock, corners, f"{capital(where)}: {shock} changed between {found.first} and {found.last}",
        f"{shock}: {names} since {found.first}", findings, meanings,
    )  # fmt: skip
