"""Where a logger paused: what it wrote there costs no row, and the motion it did not see is none."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.model.importing import ReadOptions
from dynoan.model.record_motion import peaks, velocity
from dynoan.reading import read_bytes

RATE = 500.0
T = np.arange(2000) / RATE
X = 25 * np.sin(2 * np.pi * T)
F = 3000 * 0.025 * 2 * np.pi * np.cos(2 * np.pi * T) + 140
TOP = 0.025 * 2 * np.pi  #: speed of the motion [m/s]
SEEN = np.r_[0:700, 1100:2000]  #: the logger missed two fifths of a cycle


def read(names, columns, note, **stated):
    rows = [",".join(f"{c[i]:.4f}" for c in columns) for i in SEEN]
    return read_bytes(
        "\n".join([names, *rows[:700], *note, *rows[700:], ""]).encode(), "rig.csv", ReadOptions(**stated)
    )


@pytest.mark.parametrize("note", [(), ("--- paused ---",), ("# paused 09:41", "# resumed 09:42"), ("", "")])
def test_a_clock_that_runs_on_over_a_pause_keeps_the_record_whole(note):
    (sweep,) = read("Time [s],Disp [mm],Force [N]", (T, X, F), note)
    assert sweep.samples == len(SEEN)
    assert sweep.rate == pytest.approx(RATE)
    assert any("400 samples were dropped in 1 gap" in w for w in sweep.warnings)
    assert np.nanmax(np.abs(velocity(sweep))) == pytest.approx(TOP, rel=0.01)
    assert peaks(sweep)["compression"].velocity == pytest.approx(TOP, rel=0.01)


@pytest.mark.parametrize("note", [("--- paused ---",), ("# paused 09:41", "# resumed 09:42")])
def test_without_a_clock_a_pause_ends_a_block(note):
    sweeps = read("Disp [mm],Force [N]", (X, F), note, rate=RATE)
    assert [s.samples for s in sweeps] == [700, 900]
    assert all(np.abs(velocity(s)).max() == pytest.approx(TOP, rel=0.01) for s in sweeps)


@pytest.mark.parametrize(("channel", "unit"), [("displacement", "cm"), ("force", "lbf"), ("velocity", "mm/s")])
def test_a_unit_alone_names_the_one_column_that_nothing_else_tells(channel, unit):
    names = {"displacement": "Disp [mm]", "force": "Force [N]", "velocity": "Velocity [mm/s]"}
    v = 25 * 2 * np.pi * np.cos(2 * np.pi * T)
    names[channel] = "Kanal A"
    columns = [T, X / 10 if channel == "displacement" else X, F, v]
    rows = [",".join(f"{c[i]:.4f}" for c in columns) for i in range(len(T))]
    head = f"Time [s],{names['displacement']},{names['force']},{names['velocity']}"
    (sweep,) = read_bytes("\n".join([head, *rows]).encode(), "rig.csv", ReadOptions(units={channel: unit}))
    assert sweep.decisions[channel].column == "Kanal A"
    assert sweep.decisions[channel].unit == unit
    assert any(f"column 'Kanal A' is taken as {channel}" in w for w in sweep.warnings)


def test_a_unit_alone_with_two_open_columns_asks_for_the_column():
    rows = [f"{a:.3f},{b:.3f},{c:.3f},{c:.3f}" for a, b, c in zip(T, X, F, strict=True)]
    data = "\n".join(["Time [s],Kanal A,Kanal B,Force [N]", *rows]).encode()
    with pytest.raises(ReadError, match="--unit displacement=mm had no effect, as no column is displacement"):
        read_bytes(data, "rig.csv", ReadOptions(units={"displacement": "mm"}))


PEAKS = ["50,100,110", "100,200,220", "200,300,330"]


@pytest.mark.parametrize(
    "lines",
    [
        ["Velocity (mm/s),Compression (N),Rebound (N)", *PEAKS],
        ["Direction,Velocity (mm/s),Force (N)", "Comp,50,100", "Comp,100,200", "Reb,50,110", "Reb,100,220"],
    ],
)
def test_a_direction_that_has_no_effect_is_refused(lines):
    data = "\n".join(lines).encode()
    read_bytes(data, "rig.csv")
    with pytest.raises(ReadError, match="--positive had no effect, as the file names the direction of each force"):
        read_bytes(data, "rig.csv", ReadOptions(positive="rebound"))


def test_a_direction_that_settles_signed_rows_is_used():
    data = b"Velocity (mm/s),Force (N)\n-100,-200\n-50,-100\n50,120\n100,240\n"
    (sweep,) = read_bytes(data, "rig.csv", ReadOptions(positive="rebound"))
    assert sweep.channels["force"].tolist() == [200, 100, -120, -240]


@pytest.mark.parametrize(("name", "set_to"), [("Test speed [mm/s]", (50, 100, 250)), ("Step", (1, 2, 3))])
def test_pauses_at_which_the_rig_is_set_anew_are_no_lost_samples(name, set_to):
    rows, start = [], 0.0
    for k, speed in enumerate(set_to):
        t = np.arange(500) / RATE
        x, f = 20 * np.sin(2 * np.pi * (k + 1) * t), 500 * np.cos(2 * np.pi * (k + 1) * t) + 140
        rows += [f"{speed},{start + a:.4f},{b:.3f},{c:.1f}" for a, b, c in zip(t, x, f, strict=True)]
        start += t[-1] + 0.5
    sweeps = read_bytes("\n".join([f"{name},Time [s],Position [mm],Force [N]", *rows, ""]).encode(), "rig.csv")
    said = " | ".join(w for s in sweeps for w in s.warnings)
    assert "dropped" not in said
    assert f"2 pauses of up to 0.5 s, at each of which '{name}' changes" in said


def test_gaps_elsewhere_are_told_as_lost_though_the_rig_is_set_anew():
    rows = [f"{50 if i < 1500 else 100},{T[i]:.4f},{X[i]:.3f},{F[i]:.1f}" for i in SEEN]
    (sweep,) = read_bytes("\n".join(["Test speed [mm/s],Time [s],Disp [mm],Force [N]", *rows]).encode(), "rig.csv")
    assert any("400 samples were dropped in 1 gap" in w for w in sweep.warnings)
