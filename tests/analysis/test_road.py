"""Random roads and the weighting of shaking against the published values r01-r11 and against their own spectrum."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.signal import welch

from dynoan.analysis import road
from dynoan.errors import QuantityError
from dynoan.model.car import ROAD_CLASSES
from tests.checks import checks
from tests.oracles import road as closed

RECKONED = {
    "r01": lambda i: [ROAD_CLASSES[letter] for letter in i["class"]],
    "r02": lambda i: [closed.class_limit(letter) for letter in i["class"]],
    "r03": lambda i: road.spectrum(i["Gd_n0_m3"], i["n_per_m"]),
    "r04": lambda i: [road.slope_spectrum(ROAD_CLASSES[letter]) for letter in i["class"]],
    "r05": lambda i: road.velocity_spectrum(i["Gd_n0_m3"], i["speed_m_s"]),
    "r06": lambda i: closed.rms_velocity(i["Gd_n0_m3"], i["speed_m_s"], tuple(i["band_hz"])),
    "r07": lambda i: closed.rms_height(i["Gd_n0_m3"], tuple(i["n_per_m"])),
    "r08": lambda i: closed.walk_step(i["Gd_n0_m3"], 1.0),
    "r09": lambda i: closed.REPORTED,
    "r10": lambda i: 1000 * road.felt_weighting(i["frequency_hz"]),
    "r11": lambda i: road.felt_weighting(i["frequency_hz"]),
}


@checks(list(RECKONED))
def test_published(published):
    published.holds(RECKONED[published.id](published.inputs))


def test_a_made_road_has_the_spectrum_of_its_class():
    place = np.arange(0.0, 4000.0, 0.05)
    height = road.profile(ROAD_CLASSES["C"], place, length=4000.0)
    n, found = welch(height, fs=20.0, nperseg=4096, detrend="linear")
    inside = (n > 0.05) & (n < 2.0)
    share = found[inside] / road.spectrum(ROAD_CLASSES["C"], n[inside])
    assert np.mean(share) == pytest.approx(1.0, abs=0.05)


def test_a_made_road_is_as_high_as_the_band_it_holds():
    place = np.arange(0.0, 4000.0, 0.05)
    height = road.profile(ROAD_CLASSES["D"], place, length=4000.0)
    assert np.std(height) == pytest.approx(closed.rms_height(ROAD_CLASSES["D"], road.PROFILE_BAND), rel=0.03)


def test_the_same_seed_gives_the_same_road_and_another_seed_another():
    place = np.linspace(0.0, 50.0, 500)
    one, same, other = (road.profile(1e-4, place, seed=seed) for seed in (1, 1, 2))
    np.testing.assert_array_equal(one, same)
    assert np.corrcoef(one, other)[0, 1] < 0.9


def test_four_times_the_roughness_is_twice_the_height():
    place = np.linspace(0.0, 50.0, 500)
    np.testing.assert_allclose(road.profile(4e-4, place), 2 * road.profile(1e-4, place), rtol=1e-9, atol=1e-12)


def test_no_roughness_is_a_level_road():
    assert not road.profile(0.0, np.linspace(0, 10, 5)).any()


@pytest.mark.parametrize("roughness", [-1e-6, float("nan"), float("inf")])
def test_a_roughness_no_road_has_is_refused(roughness):
    with pytest.raises(QuantityError, match="class C"):
        road.profile(roughness, np.zeros(3))


def test_a_tone_is_felt_by_its_weight():
    step = 1e-3
    time = np.arange(0.0, 8.0, step)
    felt = road.felt_acceleration(2.0 * np.sin(2 * np.pi * 5.0 * time), step)
    assert felt == pytest.approx(2.0 / np.sqrt(2) * road.felt_weighting(5.0), rel=1e-9)


def test_classes_are_found_again_between_their_limits():
    assert [closed.class_of(v) for v in ROAD_CLASSES.values()] == list(ROAD_CLASSES)
    assert closed.class_of(closed.class_limit("B") * 1.001) == "C"
    assert closed.class_of(10.0) == "H"
