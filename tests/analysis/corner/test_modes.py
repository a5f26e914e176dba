"""Modes of the half and the full car: a published body, and limits that must hold."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.linalg import eigh

from dynoan.analysis.corner.car_modes import body, car_modes
from dynoan.analysis.corner.modes import modes
from dynoan.errors import QuantityError
from dynoan.model.car import CORNERS, Car, Corner
from tests.checks import Check, checks


def car(**change) -> Car:
    masses = {"fl": 268.0, "fr": 262.0, "rl": 231.0, "rr": 235.0}
    rates = {"f": 45e3, "r": 38e3}
    corners = {n: Corner(n, masses[n], 34.0, rates[n[0]], 0.95, 0.92, tyre=210e3) for n in CORNERS}
    return replace(
        Car("kestrel", corners, wheelbase=2.43, cg_height=0.51, driven="rear", file="kestrel.toml"), **change
    )


@checks(["q21"])
def test_bounce_and_pitch_of_a_body_on_springs(published: Check):
    kf, kr, a, b = 38e3, 34e3, 1.3, 1.6
    mass = np.diag([1600.0, 1600 * 0.95**2])
    stiffness = np.array([[kf + kr, kr * b - kf * a], [kr * b - kf * a, kf * a**2 + kr * b**2]])
    published.holds([mode.frequency for mode in modes(mass, np.zeros((2, 2)), stiffness)])


def test_the_same_body_as_a_car_on_stiff_tyres():
    """Axle rates and masses of q21 through the car model; tyres and wheels so stiff and light that they drop out."""
    front, rear = 1600 * 1.6 / 2.9 / 2, 1600 * 1.3 / 2.9 / 2
    rates = {"f": 19e3, "r": 17e3}
    corners = {
        n: Corner(n, (front if n[0] == "f" else rear) + 0.5, 0.5, rates[n[0]], 1.0, 1.0, tyre=1e8) for n in CORNERS
    }
    found = car_modes(Car("q21", corners, wheelbase=2.9, pitch_inertia=1600 * 0.95**2), {})
    assert [found.half[n].frequency for n in ("heave", "pitch")] == pytest.approx([1.06549984, 1.630318817], rel=1e-3)


def test_undamped_frequencies_equal_the_symmetric_eigenproblem():
    rng = np.random.default_rng(4)
    for _ in range(20):
        a, b = rng.normal(size=(2, 5, 5))
        mass, stiffness = a @ a.T + 5 * np.eye(5), b @ b.T + np.eye(5)
        expected = np.sqrt(eigh(stiffness, mass, eigvals_only=True)) / (2 * np.pi)
        found = modes(mass, np.zeros((5, 5)), stiffness)
        np.testing.assert_allclose([m.frequency for m in found], expected, rtol=1e-9)
        np.testing.assert_allclose([m.ratio for m in found], 0, atol=1e-9)


@pytest.mark.parametrize("ratio", [0.1, 0.99, 1.01, 1.0, 4.0])
def test_one_mass_keeps_its_ratio_beyond_critical(ratio):
    mass, rate = 200.0, 30e3
    (mode,) = modes(np.diag([mass]), np.diag([ratio * 2 * np.sqrt(mass * rate)]), np.diag([rate]))
    assert mode.ratio == pytest.approx(ratio, rel=1e-6)
    assert mode.frequency == pytest.approx(np.sqrt(rate / mass) / (2 * np.pi), rel=1e-6)


def test_modes_that_creep_keep_their_frequency_and_ratio():
    """Two masses that do not touch, both far beyond critical: four real eigenvalues, two modes."""
    mass, rate, ratios = np.array([200.0, 30.0]), np.array([30e3, 240e3]), np.array([3.0, 1.5])
    damping = ratios * 2 * np.sqrt(mass * rate)
    found = modes(np.diag(mass), np.diag(damping), np.diag(rate))
    np.testing.assert_allclose([m.ratio for m in found], ratios, rtol=1e-6)
    np.testing.assert_allclose([m.frequency for m in found], np.sqrt(rate / mass) / (2 * np.pi), rtol=1e-6)


def test_a_car_of_equal_sides_has_the_modes_of_its_half_among_the_full():
    even = {n: replace(c, mass=260.0 if n[0] == "f" else 235.0) for n, c in car().corners.items()}
    found = car_modes(car(corners=even), dict.fromkeys(CORNERS, 2500.0))
    full = [(m.frequency, m.ratio) for m in found.full.values()]
    for mode in found.half.values():
        assert min(abs(f - mode.frequency) + abs(z - mode.ratio) for f, z in full) < 1e-8


def test_names_and_order():
    found = car_modes(car(), dict.fromkeys(CORNERS, 2500.0))
    assert set(found.full) == {"heave", "pitch", "roll", "front hop", "front tramp", "rear hop", "rear tramp"}
    assert set(found.half) == {"heave", "pitch", "front hop", "rear hop"}
    for group in (found.full, found.half):
        frequencies = [m.frequency for m in group.values()]
        assert frequencies == sorted(frequencies)
    for name in found.full:
        assert found.simple[name] == pytest.approx(found.full[name].frequency, rel=0.35), name


def test_simple_formulas_hold_where_nothing_is_coupled():
    """Equal corners, centre of gravity in the middle, wheels almost without mass."""
    corners = {n: Corner(n, 250.5, 0.5, 40e3, 1.0, 1.0, tyre=200e3) for n in CORNERS}
    found = car_modes(Car("even", corners, wheelbase=2.5, track={"front": 1.5, "rear": 1.5}), {})
    for name in ("heave", "pitch", "roll"):
        assert found.full[name].frequency == pytest.approx(found.simple[name], rel=2e-3), name


def test_damping_of_the_modes_has_the_energy_of_the_corners():
    """Trace of the damping matrix: the sum of all decay rates is the sum over masses of c/m; nothing gets lost."""
    sprung = body(car())
    found = car_modes(car(), dict.fromkeys(CORNERS, 1000.0))
    rates = sum(2 * m.ratio * 2 * np.pi * m.frequency for m in found.full.values())
    arms = sum(
        1000
        * (1 / sprung.mass + sprung.ahead[n] ** 2 / sprung.pitch_inertia + sprung.left[n] ** 2 / sprung.roll_inertia)
        for n in CORNERS
    )
    assert rates == pytest.approx(arms + 4 * 1000 / 34.0, rel=1e-9)


def test_what_is_missing_is_named_and_what_is_estimated_is_said():
    with pytest.raises(QuantityError, match=r"kestrel\.toml: wheelbase is missing"):
        car_modes(car(wheelbase=None), {})
    corners = dict(car().corners)
    with pytest.raises(QuantityError, match=r"rr\.tyre is missing"):
        car_modes(car(corners=corners | {"rr": replace(corners["rr"], tyre=None)}), {})
    with pytest.raises(QuantityError, match=r"\[rl\] is missing"):
        body(car(corners={n: c for n, c in car().corners.items() if n != "rl"}))
    assert len(body(car()).estimated) == 2
    assert body(car(pitch_inertia=1150.0, roll_inertia=300.0)).estimated == ()


def test_a_wrong_track_does_not_move_an_estimated_roll_frequency():
    narrow, wide = (car_modes(car(track={"front": t, "rear": t}), {}).full["roll"].frequency for t in (1.3, 1.7))
    assert narrow == pytest.approx(wide, rel=1e-3)
