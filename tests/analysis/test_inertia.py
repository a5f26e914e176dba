"""The estimate of pitch inertia is the one inertia at which the two ends of the car do not feel one another."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.inertia import estimated_pitch_inertia


def test_a_push_at_one_axle_leaves_the_other_where_it_is():
    """Centre of percussion: a force F over the front axle gives F/m − F·a·b/I = 0 over the rear."""
    front, rear, wheelbase = 460.0, 420.0, 2.43
    inertia = estimated_pitch_inertia(front=front, rear=rear, wheelbase=wheelbase)
    places, masses = np.array([0.0, wheelbase]), np.array([front, rear])
    middle = np.average(places, weights=masses)
    heave, pitch = 1.0 / masses.sum(), middle / inertia
    assert heave - pitch * (wheelbase - middle) == pytest.approx(0.0, abs=1e-15)


def test_it_is_that_of_a_point_mass_over_each_axle():
    places, masses = np.array([0.0, 2.5]), np.array([300.0, 500.0])
    about = np.sum(masses * (places - np.average(places, weights=masses)) ** 2)
    assert estimated_pitch_inertia(front=300.0, rear=500.0, wheelbase=2.5) == pytest.approx(about)
