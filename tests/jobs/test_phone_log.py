"""Acceleration as phones' loggers write it: names of the axes, other sensors beside them, the clock."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import CallError, QuantityError
from dynoan.jobs.bounce.asked import BounceQuestion, bounce_channel
from dynoan.jobs.log_time import log_time
from dynoan.jobs.phone_log import phone_axes
from dynoan.reading import read_log_bytes

GRAVITY = 9.80665
RATE = 50.0
TIME = np.arange(600) / RATE
UP = 0.8 * np.exp(-((TIME - 4) % 3) * 2) * np.cos(2 * np.pi * 1.8 * ((TIME - 4) % 3)) * (TIME > 4)  # [m/s²]
#: a phone on its side: its y is up, tilted by some degrees
AXIS = np.array([0.10, 0.99, -0.08]) / np.linalg.norm([0.10, 0.99, -0.08])
TOTAL = np.outer(UP + GRAVITY, AXIS)
LINEAR = np.outer(UP, AXIS)
GYRO = 0.01 * np.sin(np.outer(TIME, [1.0, 2.0, 3.0]))
SECONDS = [f"{t:.4f}" for t in TIME]


def stamps(form):
    day = np.datetime64("2026-03-21T10:00:00") + (1e3 * TIME).round().astype("timedelta64[ms]")
    return [form(str(d)) for d in day]


def log(times, **sensors):
    """A log whose keywords are names, {} or <> for the axis, small or large, and arrays of three."""
    names = [time_name for time_name, _ in times]
    columns = [list(values) for _, values in times]
    for name, values in sensors.items():
        names += [name.replace("{}", a).replace("<>", a.upper()) for a in "xyz"]
        columns += [[f"{x:.6f}" for x in values[:, i]] for i in range(3)]
    text = ",".join(f'"{n}"' for n in names) + "\n"
    text += "".join(",".join(row) + "\n" for row in zip(*columns, strict=True))
    return read_log_bytes(text.encode(), "phone.csv")


def channel(made):
    return bounce_channel(BounceQuestion.asked(made, corner="fl"))


PLAIN = [("time [s]", SECONDS)]


@pytest.mark.parametrize("name", [
    "a{}", "{}", "{} [m/s2]", "acc_{}", "accel{} (m/s²)", "Acceleration {} (m/s^2)", "Acceleration (m/s²) {}",
    "{}-Axis", "Acc_<>", "accelerometer<>", "Accelerometer <> (m/s²)", "Beschleunigung {} (m/s²)",
    "a_{} [m s^-2]", "accelerationIncludingGravity.{}",
])  # fmt: skip
def test_axes_are_known_by_many_names(name):
    found = channel(log(PLAIN, **{name: TOTAL}))
    np.testing.assert_allclose(found.values, UP, atol=0.02)
    assert "nearest to its y" in found.how
    assert "by gravity" in found.how


@pytest.mark.parametrize(("name", "factor"), [
    ("gF{}", GRAVITY), ("a{} [g]", GRAVITY), ("accelerometerAcceleration<>(G)", GRAVITY), ("Acc<> [mg]", GRAVITY / 1e3),
    ("{}", GRAVITY), ("g{}", GRAVITY),
])  # fmt: skip
def test_units_of_gravity(name, factor):
    np.testing.assert_allclose(channel(log(PLAIN, **{name: TOTAL / factor})).values, UP, atol=0.02)


def test_other_sensors_are_left_alone_and_gravity_goes_before_none():
    beside = {
        "g{}": GYRO, "gyroscope {} (rad/s)": GYRO, "mag_{} (µT)": 40 + GYRO, "motionGravity<>(G)": TOTAL / GRAVITY,
        "userAcceleration.{}": LINEAR / GRAVITY, "acceleration.{}": TOTAL / GRAVITY,
    }  # fmt: skip
    found = channel(log(PLAIN, **beside))
    np.testing.assert_allclose(found.values, UP, atol=0.02)
    assert "by gravity" in found.how
    assert [c.name for c in phone_axes(log(PLAIN, **beside))] == [f"acceleration.{a}" for a in "xyz"]
    assert phone_axes(log(PLAIN, **{"gyro{}": GYRO, "motionGravity<>(G)": TOTAL / GRAVITY})) == ()


def test_a_phone_held_upside_down_or_that_counts_the_other_way():
    np.testing.assert_allclose(channel(log(PLAIN, **{"a{}": -TOTAL / GRAVITY})).values, UP, atol=0.02)


def test_without_gravity_up_is_the_way_it_moves():
    found = channel(log(PLAIN, **{"Linear Acceleration {} (m/s^2)": LINEAR, "motionGravity<>(G)": TOTAL / GRAVITY}))
    assert "by the way it moves" in found.how
    np.testing.assert_allclose(found.values, UP, atol=0.02)
    with pytest.raises(QuantityError, match=r"phone\.csv: .*no gravity in it tells one; write it in the header"):
        channel(log(PLAIN, **{"a{}": LINEAR / GRAVITY}))


@pytest.mark.parametrize(("name", "values", "says"), [
    ("a{} [m/s2]", TOTAL / GRAVITY, "header says m/s², but at rest the axes show 1.00, gravity in g"),
    ("a{} [g]", TOTAL, "header says g, but at rest the axes show 9.81, gravity in m/s²"),
])  # fmt: skip
def test_a_header_that_gravity_gives_the_lie(name, values, says):
    with pytest.raises(QuantityError, match=says):
        channel(log(PLAIN, **{name: values}))


@pytest.mark.parametrize(("name", "values", "told"), [
    ("time", SECONDS, "s"), ("Timestamp", SECONDS, "s"), ("seconds_elapsed", SECONDS, "s"),
    ("time (ms)", [f"{1e3 * t:.0f}" for t in TIME], ""),
    ("timestamp", [f"{1774087200000 + 1e3 * t:.0f}" for t in TIME], "ms"),
    ("time_us", [f"{1e6 * t:.0f}" for t in TIME], ""), ("time", [f"{1e6 * t:.0f}" for t in TIME], "µs"),
    ("timestamp", [f"{35 * 10**12 + round(1e9 * t)}" for t in TIME], "ns"),
    ("time", [f"{1774087200 * 10**9 + round(1e9 * t)}" for t in TIME], "ns"),
    ("timestamp", stamps(lambda d: d + "Z"), ""), ("time", stamps(lambda d: d + "+02:00"), ""),
    ("Time", stamps(lambda d: d.split("T")[1]), ""),
])  # fmt: skip
def test_clocks(name, values, told):
    made = log([(name, values)], **{"a{}": TOTAL})
    found = log_time(made)
    np.testing.assert_allclose(found.seconds - found.seconds[0], TIME, atol=1e-3)
    assert told in ("", found.told)
    assert channel(made).rate == pytest.approx(RATE, rel=1e-3)


def test_the_finer_of_two_clocks_is_taken():
    """Whole seconds of the day beside the seconds since the start."""
    whole = [f"{1774087200 + int(t)}" for t in TIME]
    made = log([("time", whole), ("seconds_elapsed", SECONDS)], **{"a{}": TOTAL})
    assert channel(made).rate == pytest.approx(RATE)


def test_rows_handed_over_at_once_are_left_out_and_a_clock_that_runs_back_is_refused():
    twice = [SECONDS[n - 1] if n % 100 == 99 else t for n, t in enumerate(SECONDS)]
    found = channel(log([("time [s]", twice)], **{"a{}": TOTAL}))
    assert len(found.time) == len(TIME) - 6
    assert (np.diff(found.time) > 0).all()
    back = [SECONDS[n - n % 4] for n in range(len(TIME))]
    with pytest.raises(CallError, match="does not rise from row to row"):
        channel(log([("time [s]", back)], **{"a{}": TOTAL}))


def test_no_time_is_asked_for():
    with pytest.raises(CallError, match=r"no column is named time; it has Temperature, ax, ay, az"):
        channel(log([("Temperature [°C]", SECONDS)], **{"a{}": TOTAL}))
    with pytest.raises(CallError, match=r"its unit cannot be told; write it in the header, such as 'time \[s\]'"):
        channel(log([("time", [f"{5e4 * t:.0f}" for t in TIME[::-1]])], **{"a{}": TOTAL}))
