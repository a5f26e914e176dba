"""Load transfer, squat and centre of gravity against the published values w01-w16 and against scaling laws."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.launch import load_transfer as lt
from dynoan.analysis.launch.load_transfer import Frame
from dynoan.errors import QuantityError
from tests.checks import checks, ids_of_section
from tests.oracles import load_transfer as closed

#: Barton and Fieldhouse's and the derived examples' car of 1000 kg on equal springs
EVEN = Frame(1000.0, 1.25, 1.25, 0.5)
RATES = {"front_rate": 40e3, "rear_rate": 40e3}


def static_wheels(i):
    frame = Frame(i["mass_kg"], i["cg_to_front_m"], i["wheelbase_m"] - i["cg_to_front_m"], 0.5)
    return [load / 2 for load in closed.static_loads(frame, gravity=i["g_m_s2"])]


def centre(i):
    return lt.centre_of_gravity(front=i["front_wheel_n"], rear=i["rear_wheel_n"], wheelbase=i["wheelbase_m"])


def grip_limits(i):
    frame = Frame(1000.0, i["cg_to_front_m"], i["cg_to_rear_m"], i["cg_height_m"])
    return [closed.grip_limited_acceleration(frame, i["mu"], d, gravity=i["g_m_s2"]) for d in ("front", "rear")]


def steady_loads(i):
    rear = i["wheelbase_m"] - i["cg_to_front_m"]
    frame = Frame(i["mass_kg"], i["cg_to_front_m"], rear, i["cg_height_m"])
    moved = closed.load_transfer(frame, i["acceleration_m_s2"])
    return [moved, *closed.axle_loads(frame, i["acceleration_m_s2"], gravity=i["g_m_s2"])]


def unsprung(i):
    a = i["acceleration_g"] * i["g_m_s2"]
    pairs = zip(i["mass_kg"], i["height_m"], strict=True)
    return [closed.moved_across(mass=m, acceleration=a, height=h, base=i["track_m"]) for m, h in pairs]


def through_links(i):
    a = i["acceleration_g"] * i["g_m_s2"]
    pairs = zip(i["share"], i["link_height_m"], strict=True)
    return [closed.moved_across(mass=i["sprung_kg"] * s, acceleration=a, height=h, base=i["track_m"]) for s, h in pairs]


def lean(i):
    body = {"mass": i["sprung_kg"], "arm": i["arm_m"], "stiffness": i["stiffness_n_m_rad"]}
    gradient = closed.body_angle_gradient(**body, gravity=i["g_m_s2"])
    return [gradient, np.degrees(gradient * i["g_m_s2"])]


def squat(i):
    found = closed.steady_squat(EVEN, i["acceleration_m_s2"], slope=i["slope_e_over_d"], **RATES)
    return [found.rear, found.front, np.degrees(found.pitch), 100 * closed.antisquat_share(EVEN, i["slope_e_over_d"])]


def instant_centre(i):
    frame = Frame(1000.0, i["wheelbase_m"] / 2, i["wheelbase_m"] / 2, i["cg_height_m"])
    slope = lt.instant_centre_slope(i["ic_ahead_of_contact_m"], i["ic_height_m"])
    return 100 * closed.antisquat_share(frame, slope)


def height(i):
    keys = {"mass": "mass_kg", "wheelbase": "wheelbase_m", "raised": "raised_m", "wheel_radius": "wheel_radius_m",
            "front_gain": "front_gain_kg"}  # fmt: skip
    return closed.raised_height(**{ours: i[theirs] for ours, theirs in keys.items()})


def height_per_kilogram(i):
    body = {"mass": i["mass_kg"], "wheelbase": i["wheelbase_m"], "raised": i["raised_m"], "wheel_radius": 0.3}
    return 1e3 * (closed.raised_height(**body, front_gain=11.0) - closed.raised_height(**body, front_gain=10.0))


RECKONED = {
    "w01": static_wheels,
    "w02": centre,
    "w03": lambda i: closed.least_time(i["speed_m_s"], i["mu"], gravity=i["g_m_s2"]),
    "w04": grip_limits,
    "w05": steady_loads,
    "w06": unsprung,
    "w07": through_links,
    "w08": lean,
    "w09": squat,
    "w10": lambda i: closed.no_pitch_slope(EVEN, **RATES),
    "w11": lambda i: i["force_n"] / i["rate_n_mm"],
    "w12": instant_centre,
    "w13": lambda i: np.degrees(closed.steady_squat(EVEN, i["acceleration_m_s2"], **RATES).pitch),
    "w14": height,
    "w15": height_per_kilogram,
    "w16": lambda i: closed.wheelie_acceleration(Frame(1000.0, 1.3, i["cg_to_rear_m"], i["cg_height_m"])) / 9.80665,
}


@checks(list(RECKONED))
def test_published(published):
    published.holds(RECKONED[published.id](published.inputs))


def test_every_value_of_the_section_is_reckoned():
    assert set(RECKONED) == set(ids_of_section(7))


def test_full_antisquat_leaves_the_rear_where_it_is():
    slope = lt.antisquat_slope(EVEN, 1.0)
    found = closed.steady_squat(EVEN, 5.0, slope=slope, **RATES)
    assert found.rear == pytest.approx(0.0, abs=1e-12)
    assert found.front < 0


def test_antisquat_and_slope_are_inverse():
    assert closed.antisquat_share(EVEN, lt.antisquat_slope(EVEN, 0.6, share=0.5), share=0.5) == pytest.approx(0.6)


def test_all_wheel_drive_lies_at_grip_times_gravity():
    assert closed.grip_limited_acceleration(EVEN, 0.8, "all") == pytest.approx(0.8 * 9.80665)


def test_more_grip_than_lifts_the_nose_helps_no_more():
    high = replace(EVEN, height=2.0)
    assert closed.grip_limited_acceleration(high, 2.0, "rear") == closed.wheelie_acceleration(high)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: Frame(-1.0, 1.2, 1.2, 0.5),
        lambda: Frame(1000.0, 1.2, 1.2, float("nan")),
        lambda: lt.instant_centre_slope(0.0, 0.3),
        lambda: closed.body_angle_gradient(mass=1000.0, arm=0.5, stiffness=1000.0),
        lambda: closed.moved_across(mass=1.0, acceleration=1.0, height=1.0, base=0.0),
    ],
)
def test_what_no_car_has_is_refused(wrong):
    with pytest.raises(QuantityError):
        wrong()
