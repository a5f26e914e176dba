"""Values with their ± put into a car's own file: its remarks and order stay, its unit too."""

from __future__ import annotations

import pytest

from dynoan.errors import QuantityError
from dynoan.library.car_file import car_from_text
from dynoan.library.car_learned import NewValue, with_learned
from tests.cli.launch_library import CAR

TEXT = CAR.replace('cg_height = "510 mm"', 'cg_height = "20.1 in"  # with the driver in').replace(
    '[fl]\n', '[fl]\nspring = "50 N/mm"\n')  # fmt: skip


def test_values_stand_in_the_files_own_unit_and_remarks_stay():
    new = {
        "cg_height": NewValue(0.51054, 0.5588, 0.0254), "antisquat": NewValue(0.45, 0.226, 0.075),
        "surfaces.loose.grip": NewValue(0.65, 0.567, 0.0321), "pitch_inertia": NewValue(1306.0, 1428.7, 175.3),
    }  # fmt: skip
    made, changes = with_learned(TEXT, "cars/kestrel.toml", new)
    assert 'cg_height = "22.0 ± 1.0 in"  # with the driver in' in made
    assert 'antisquat = "22.6 ± 7.5 %"' in made
    assert 'grip = "0.567 ± 0.032"' in made
    assert 'pitch_inertia = "1429 ± 175 kg m2"' in made
    assert [(c.table, c.old) for c in changes] == [
        ("", 'cg_height = "20.1 in"'), ("", 'antisquat = "45 %"'), ("surfaces.loose", "grip = 0.65"), ("", ""),
    ]  # fmt: skip
    car = car_from_text(made, "cars/kestrel.toml")
    assert car.cg_height == pytest.approx(0.5588)
    assert car.plus_minus["surfaces.loose.grip"] == pytest.approx(0.032)
    assert len(made.splitlines()) == len(TEXT.splitlines()) + 1


def test_sliding_grip_goes_with_the_grip():
    text = TEXT.replace("grip = 0.65\n", "grip = 0.65\nsliding_grip = 0.6\n")
    made, changes = with_learned(text, "k.toml", {"surfaces.loose.grip": NewValue(0.65, 0.52, 0.03)})
    assert [c.new for c in changes] == ['grip = "0.520 ± 0.030"', "sliding_grip = 0.48"]
    assert car_from_text(made, "k.toml").surfaces["loose"].sliding_grip == 0.48


def test_corners_that_differ_go_on_to_differ():
    made, changes = with_learned(TEXT, "cars/kestrel.toml", {"front.spring": NewValue(47.5e3, 1.1 * 47.5e3, 2e3)})
    assert [c.new for c in changes] == ['spring = "55.0 ± 2.1 N/mm"', 'spring = "49.5 ± 1.9 N/mm"']
    car = car_from_text(made, "cars/kestrel.toml")
    assert (car.corners["fl"].spring, car.corners["fr"].spring) == (55e3, 49.5e3)


def test_a_second_learning_writes_over_the_first():
    first, _ = with_learned(TEXT, "k.toml", {"antisquat": NewValue(0.45, 0.226, 0.075)})
    second, changes = with_learned(first, "k.toml", {"antisquat": NewValue(0.226, 0.25, 0.05)})
    assert 'antisquat = "25.0 ± 5.0 %"' in second
    assert changes[0].old == 'antisquat = "22.6 ± 7.5 %"'


def test_what_would_be_no_car_is_refused():
    with pytest.raises(QuantityError, match="cg_height"):
        with_learned(TEXT, "k.toml", {"cg_height": NewValue(0.51054, 9.0, 0.1)})


def test_a_height_as_on_a_tape_measure_goes_on_in_decimals():
    text = TEXT.replace("20.1 in", "20 1/4 in")
    made, _ = with_learned(text, "k.toml", {"cg_height": NewValue(0.51435, 0.5588, 0.0254)})
    assert 'cg_height = "22.0 ± 1.0 in"' in made
