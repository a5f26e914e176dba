"""The direction that is positive, from evidence: damping takes energy out, and gas pushes out."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.model.motion import derived_velocity
from importers.channels.agreement import Stretch, agreement
from importers.channels.rest_force import CountedMotion, rest_force
from importers.channels.sign import orient
from importers.stated import statements

T = np.arange(4000) / 1000
W = 2 * np.pi
X = 0.03 * np.sin(W * T)
V = 0.03 * W * np.cos(W * T)
F = 2000 * V / (1 + np.abs(V)) + 140 + 300 * X


@pytest.mark.parametrize("force", [1, -1])
@pytest.mark.parametrize("motion", [1, -1])
def test_gas_and_power_turn_every_convention_to_compression(force, motion):
    signs = orient(CountedMotion(force * F, motion * V, motion * X), {})
    assert (signs.force, signs.velocity, signs.displacement) == (force, motion, motion)
    assert "gas force" in signs.evidence
    assert signs.warnings == ()


def test_a_statement_wins_over_gas():
    assert orient(CountedMotion(F, V, X), {"all": "rebound"}).force == -1


def test_displacement_that_counts_against_velocity_is_turned():
    signs = orient(CountedMotion(F, V, -X), {}, x_follows=-1)
    assert (signs.velocity, signs.displacement) == (1, -1)


def test_no_evidence_assumes_compression_and_warns():
    signs = orient(CountedMotion(F - 140 - 300 * X, V, X), {})
    assert signs.force == 1
    assert "--positive" in signs.warnings[0]


def test_gas_taken_out_is_no_evidence():
    assert "assumed" in orient(CountedMotion(F, V, X), {}, gas_removed=True).evidence


def test_gas_offset_is_the_mid_stroke_gas_force():
    assert rest_force(CountedMotion(F, V, X)).force == pytest.approx(140, abs=3)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("Sign: compression positive", {"all": "compression"}),
        ("Force: rebound = negative", {"force": "compression"}),
        ("Load cell: tension positive", {"force": "rebound"}),
        ("Druck positiv", {"all": "compression"}),
        ("Zugkraft positiv", {"force": "rebound"}),
        ("+ = rebound", {"all": "rebound"}),
        ("compression +, rebound -", {"all": "compression"}),
        ("The rod is positive of nothing", {}),
    ],
)
def test_statements(line, said):
    assert statements([line]) == said


def test_agreement_gives_scale_and_sign():
    found = agreement([Stretch(-1000 * X, V, 1e-3)])
    assert found.scale == pytest.approx(-1000, rel=1e-3)
    assert found.fit == pytest.approx(-1, abs=1e-3)


def test_derived_velocity_keeps_the_peaks_through_noise():
    noisy = X + np.random.default_rng(2).normal(0, 1e-5, len(X))
    assert np.max(derived_velocity(noisy, 1e-3)) == pytest.approx(np.max(V), rel=0.02)


def test_gas_and_spring_alone_show_which_way_motion_counts():
    where = 0.025 * np.sin(np.linspace(0, 8 * np.pi, 801))
    slow = CountedMotion(150 - 1000 * where, np.gradient(where), where)
    signs = orient(slow, {})
    assert (signs.force, signs.displacement, signs.by, signs.warnings) == (1, -1, "gas", ())


def test_a_record_at_rest_before_the_motion_shows_gas_rise_all_the_same():
    phase = np.linspace(0, 16 * np.pi, 3201)
    pushed = 150 - 35 * np.cos(phase) + 400 * np.sin(phase)
    force, speed = np.r_[np.full(900, 115.0), pushed], np.r_[np.zeros(900), np.sin(phase)]
    signs = orient(CountedMotion(force, 0.3 * speed), {})
    assert (signs.by, signs.warnings) == ("gas", ())


def test_one_speed_each_way_through_an_unlike_valve_shows_no_gas_force():
    """Half way between what a valve makes in and out is no force at rest."""
    way = np.repeat([1.0, -1.0] * 20, 25)
    force = np.where(way > 0, 300.0, -900.0) + 150.0
    signs = orient(CountedMotion(force, 0.1 * way), {})
    assert (signs.force, signs.by) == (1, "assumed")
