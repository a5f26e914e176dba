"""A record that lacks a channel says what it is instead; an option that did nothing is said."""

from __future__ import annotations

import time

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.reading import read_bytes

T = np.arange(300) / 100
X = 20 * np.sin(2 * np.pi * T)


def file(header, *columns):
    rows = (",".join(f"{x:.4f}" for x in row) for row in zip(*columns, strict=True))
    return "\n".join([header, *rows, ""]).encode()


def test_a_log_of_travel_says_what_it_is_good_for():
    with pytest.raises(ReadError, match=r"no force column; .*log for 'dynoan travel' or 'dynoan bounce'"):
        read_bytes(file("Time [s],Travel [mm]", T, X), "log.csv")


def test_a_log_of_several_positions_is_not_asked_which_one_it_is():
    with pytest.raises(ReadError, match=r"no force column; .*log for 'dynoan travel' or 'dynoan bounce'"):
        read_bytes(file("Time [s],Front travel [mm],Rear travel [mm]", T, X, X), "log.csv")
    with pytest.raises(ReadError, match="log for 'dynoan travel' or 'dynoan bounce'"):
        read_bytes(file("Time s,Damper FL mm,Damper FR mm", T, X, X), "log.csv")


@pytest.mark.parametrize("there_and_back", [False, True])
def test_force_over_position_without_time_is_a_static_test(there_and_back):
    x = np.arange(0, 65, 5.0)
    x = np.r_[x, x[::-1]] if there_and_back else x
    with pytest.raises(ReadError, match="a static test of gas or spring, which holds no damping"):
        read_bytes(file("Position [mm],Force [N]", x, 180 + 0.7 * x), "gas.csv")


def test_a_loop_without_time_is_asked_for_its_rate():
    with pytest.raises(ReadError, match="give --rate 'NUMBER Hz' or --column time=NAME"):
        read_bytes(file("Position [mm],Force [N]", X, 180 + 0.7 * X), "loop.csv")


@pytest.mark.parametrize(
    "name", ["a [m/s^2]", "Acceleration [g]", "Accel x (m/s²)", "az [g]", "Beschleunigung [m/s^2]"]
)
def test_an_acceleration_is_no_displacement(name):
    with pytest.raises(ReadError, match="is an acceleration, which is no displacement of a shock"):
        read_bytes(file(f"Time [s],{name},Force [N]", T, X / 9.81, 10 * X), "log.csv")


def test_a_rate_of_a_peak_table_had_no_effect():
    table = file("Velocity [mm/s],Compression [N],Rebound [N]", [50, 100, 200], [90, 150, 210], [110, 190, 260])
    assert read_bytes(table, "rig.csv")[0].layout == "peaks"
    with pytest.raises(ReadError, match="--rate had no effect, as the file is a peak table"):
        read_bytes(table, "rig.csv", ReadOptions(rate=1000.0))


@pytest.mark.parametrize("mark", [".", ","])
def test_a_decimal_mark_that_no_number_holds_had_no_effect(mark):
    whole = b"Velocity [mm/s];Compression [N];Rebound [N]\n50;90;110\n100;150;190\n200;210;260\n"
    with pytest.raises(ReadError, match=f"--decimal {mark} had no effect, as no number here holds a decimal mark"):
        read_bytes(whole, "rig.csv", ReadOptions(decimal=mark))
    with_marks = whole.replace(b";90;", f";90{mark}5;".encode())
    forces = read_bytes(with_marks, "rig.csv", ReadOptions(decimal=mark))[0].channels["force"]
    assert 90.5 in forces


@pytest.mark.parametrize(("options", "told"), [(ReadOptions(decimal=","), "--decimal ','"),
                                               (ReadOptions(delimiter="\t"), "--delimiter tab")])  # fmt: skip
def test_a_mark_that_fits_no_row_is_named_and_not_the_file(options, told):
    table = file("Velocity [mm/s],Compression [N],Rebound [N]", [50, 100, 200], [90, 150, 210], [110, 190, 260])
    with pytest.raises(ReadError) as raised:
        read_bytes(table, "rig.csv", options)
    assert f"no rows of numbers stand as {told} says" in str(raised.value)
    assert "leave it out" in str(raised.value)


def test_factors_above_the_numbers_are_not_believed_to_be_used():
    rows = "\n".join(f"D,{t:.3f},{x:.3f},{10 * x:.3f}" for t, x in zip(T, X, strict=True))
    table = f"Name,Time [s],Travel [mm],Force [N]\nScale,1,1,0.01\n{rows}\n".encode()
    with pytest.raises(ReadError, match=r"line 2: a row of 'Scale' \(1, 1, 0.01\) stands above the numbers"):
        read_bytes(table, "rig.csv")


@pytest.mark.parametrize("encoding", ["utf-8", "gb18030"])
@pytest.mark.parametrize("letter", ["a", "速"])
def test_a_word_without_an_end_above_the_rows_costs_no_more_than_its_length(letter, encoding):
    table = f"{letter * 20_000}\nVelocity [mm/s],Compression [N],Rebound [N]\n50,90,110\n100,150,190\n200,210,260\n"
    started = time.process_time()
    assert read_bytes(table.encode(encoding), "rig.csv")[0].layout == "peaks"
    assert time.process_time() - started < 1.0


def test_motion_one_way_at_one_speed_turns_no_channel_round():
    t = np.arange(600) / 100
    noise = np.random.default_rng(4).normal(0, 2, len(t))
    rows = "".join(f"{a:.2f},{10 * a:.3f},{f:.1f}\n" for a, f in zip(t, 255 + 6 * t + noise, strict=True))
    (sweep,) = read_bytes(f"Time [s],Displacement [mm],Force [N]\n{rows}".encode(), "push.csv")
    assert {sweep.decisions[c].sign for c in ("force", "displacement")} == {1}
    assert any("one way only" in warning for warning in sweep.warnings)
    assert not any("hardly follows" in warning for warning in sweep.warnings)


def test_accelerations_alone_are_good_for_bounce():
    rows = "".join(f"{k / 100:.2f},{k % 7 / 10}\n" for k in range(40))
    with pytest.raises(ReadError, match="accelerations of a body that was pushed are a log for 'dynoan bounce'"):
        read_bytes(f"Time [s],Acc z [g]\n{rows}".encode(), "phone.csv")
