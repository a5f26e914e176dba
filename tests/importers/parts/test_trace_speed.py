"""A trace's column of speed that is no sample of the motion beside its displacement and time."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.model.importing import ReadOptions
from tests.importers.making import T, V, part_of, trace


@pytest.mark.parametrize(
    ("speed", "said"),
    [
        (np.full(len(T), 0.13), "'Velocity [m/s]' stands still while the shock moves"),
        (np.repeat([0.05, 0.13], len(T) // 2), "'Velocity [m/s]' stands still while the shock moves"),
        (np.abs(V), "'Velocity [m/s]' is a magnitude, of no direction: left out"),
    ],
)
def test_a_speed_that_is_no_sample_of_the_motion_is_left_out_and_said(speed, said):
    part = part_of(trace(velocity=speed))
    assert "velocity" not in part.roles.channels
    assert any(warning.startswith(said) for warning in part.table.warnings)


def test_a_speed_the_user_names_is_kept():
    part = part_of(trace(velocity=np.abs(V)), ReadOptions(columns={"velocity": "Velocity [m/s]"}))
    assert part.roles.channels["velocity"].text == "Velocity [m/s]"


def test_a_record_of_one_direction_keeps_its_speed():
    on = V > 0
    part = part_of({name: values[on] for name, values in trace().items()})
    assert part.roles.channels["velocity"].text == "Velocity [m/s]"


def test_results_beside_a_whole_trace_are_no_channels():
    peaks = {"Peak Comp [N]": np.full(len(T), 900.0), "Peak Reb [N]": np.full(len(T), 1200.0)}
    part = part_of(trace(velocity=None) | peaks)
    assert part.roles.forces == {}
    assert part.roles.channels["force"].text == "Force [N]"
