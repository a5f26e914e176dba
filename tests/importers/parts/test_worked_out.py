"""Columns that follow from others: counts with a scale, a crank's angle with its stroke, two branches, two cells."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import ReadError
from dynoan.model.record_motion import velocity
from dynoan.reading import read_bytes
from tests.importers.making import F, T, X, part_of, quick, trace


def read(lines, columns):
    rows = (",".join(f"{x:.6g}" for x in row) for row in zip(*columns, strict=True))
    return read_bytes("\n".join([*lines, *rows, ""]).encode(), "rig.csv")


@quick
@given(
    st.floats(0.05, 5.0),
    st.integers(-3000, 3000),
    st.sampled_from(["load: {k} N per count, zero at {z}", "# Load scale {k} N/count (offset {z} counts)",
                     "Kraft: {k} N pro Digit, Null bei {z}", "Load cell: {k} N/digit, zero: {z}"]),
)  # fmt: skip
def test_counts_become_force_by_the_scale_that_a_line_states(factor, zero, form):
    factor = float(f"{factor:.4g}")
    counts = np.round(F / factor) + zero
    names = "Time [s],Position [m],Load"
    (sweep,) = read([form.format(k=factor, z=zero), names], (T, X, counts))
    np.testing.assert_allclose(sweep.channels["force"], (counts - zero) * factor, atol=1e-3 * np.abs(F).max())
    assert sweep.decisions["force"].column == "Load"
    assert any("as the file says" in w and "per" in w for w in sweep.warnings)


@pytest.mark.parametrize("decimal", [".", ","])
def test_volts_become_travel_and_force(decimal):
    lines = [f"LVDT scale: 12{decimal}5 mm/V", "Load cell scale: 500 N/V", "Time (s),LVDT (V),Load cell (V)"]
    (sweep,) = read(lines, (T, X / 0.0125, F / 500))
    np.testing.assert_allclose(sweep.channels["displacement"], X, atol=1e-7)
    np.testing.assert_allclose(sweep.channels["force"], F, rtol=1e-4, atol=1e-2)


def test_a_scale_of_a_column_that_is_in_units_already_changes_nothing():
    (sweep,) = read(["Load cell scale: 500 N/V", "Time (s),Disp (mm),Load (N)"], (T, 1e3 * X, F))
    np.testing.assert_allclose(sweep.channels["force"], F, rtol=1e-4, atol=1e-2)


@pytest.mark.parametrize("line", ["Load scale: 500 N", "Sensitivity 2 mV/V", "Damping 3 N/mm", "Rate: 500 counts/s"])
def test_other_lines_are_no_scale(line):
    with pytest.raises(ReadError, match="column 'Load': force has no unit and nothing tells it"):
        read([line, "Time (s),Disp (mm),Load"], (T, 1e3 * X, F))


@pytest.mark.parametrize("raw", ["V", "mV", "counts"])
def test_a_force_in_volts_without_a_scale_is_asked_for_its_scale(raw):
    said = rf"it is in {raw}: write a line such as 'force scale: 500 N per {raw}' above, or export it in N"
    with pytest.raises(ReadError, match=said):
        read([f"Time (s),Disp (mm),Force ({raw})"], (T, 1e3 * X, F / 500))
    (sweep,) = read([f"force scale: 500 N per {raw}", f"Time (s),Disp (mm),Force ({raw})"], (T, 1e3 * X, F / 500))
    np.testing.assert_allclose(sweep.channels["force"], F, rtol=1e-4, atol=1e-2)


ANGLE = np.arange(0, 360 * 4, 2.0)
RADIUS = 0.025


def crank(ratio: float | None):
    """Travel of the piston of a crank from its geometry: the law of cosines for rod and radius."""
    a = np.radians(ANGLE)
    if ratio is None:
        return RADIUS - RADIUS * np.cos(a)
    rod = ratio * RADIUS
    pin = RADIUS * np.cos(a) + np.sqrt(rod**2 - (RADIUS * np.sin(a)) ** 2)
    return RADIUS + rod - pin


@pytest.mark.parametrize("ratio", [None, 4.0, 10.0])
@pytest.mark.parametrize("wrapped", [True, False])
def test_a_crank_s_angle_is_travel_and_time(ratio, wrapped):
    x = crank(ratio)
    v = np.gradient(x, 2 / 720)
    lines = [
        "Stroke: 50 mm",
        "Speed: 120 rpm",
        *([f"Rod ratio: {ratio}"] if ratio else []),
        "Crank angle (deg),Force (N)",
    ]
    (sweep,) = read(lines, (ANGLE % 360 if wrapped else ANGLE, 2000 * v + 150 + 400 * x))
    np.testing.assert_allclose(sweep.channels["displacement"], x, atol=1e-6)
    assert sweep.rate == pytest.approx(360)
    assert np.abs(velocity(sweep)).max() == pytest.approx(np.abs(v).max(), rel=0.01)
    assert any("dead centre at 0°" in w for w in sweep.warnings)


@pytest.mark.parametrize(
    ("lines", "why"),
    [
        (["Speed: 120 rpm", "Crank angle (deg),Force (N)"], "no velocity and no displacement column"),
        (["Stroke: 50 mm", "Crank angle (deg),Force (N)"], "no velocity, no time and no sample rate"),
    ],
)
def test_an_angle_without_stroke_or_speed_is_refused(lines, why):
    with pytest.raises(ReadError, match=why):
        read(lines, (ANGLE, 2000 * np.gradient(crank(None)) + 150))


SPEEDS = np.array([50.0, 100, 200, 300])


@pytest.mark.parametrize("words", [("accel", "decel"), ("opening", "closing"), ("accelerating", "decelerating")])
def test_the_mean_of_speeding_up_and_slowing_down_is_the_force(words):
    up, down = words
    names = ["Speed (mm/s)", *(f"{way} {word} (N)" for way in ("Comp", "Reb") for word in (up, down))]
    (sweep,) = read([",".join(names)], (SPEEDS, 4 * SPEEDS + 9, 4 * SPEEDS - 9, 6 * SPEEDS + 7, 6 * SPEEDS - 7))
    v, f = sweep.channels["velocity"], sweep.channels["force"]
    np.testing.assert_allclose(f[v > 0], 4000 * v[v > 0])
    np.testing.assert_allclose(f[v < 0], 6000 * v[v < 0])
    assert sum("is the mean of" in w for w in sweep.warnings) == 2


def cells(share, off=0.0):
    return {"Time [s]": T, "Displacement [m]": X, "Cell 1 [N]": share * F, "Cell 2 [N]": (1 - share) * F + off,
            "Total force [N]": F}  # fmt: skip


@quick
@given(st.floats(0.1, 0.9))
def test_the_sum_of_several_cells_is_the_force(share):
    part = part_of(cells(share))
    assert part.roles.channels["force"].text == "Total force [N]"


def test_a_total_that_is_not_the_sum_of_the_others_is_asked_for():
    with pytest.raises(ReadError, match=r"force could be 'Cell 1 .*', 'Cell 2 .*', 'Total force"):
        part_of(cells(0.5, off=300.0))


@pytest.mark.parametrize("names", [("F+ N", "F- N"), ("Max force (N)", "Min force (N)"), ("Fmax [N]", "Fmin [N]")])
def test_the_highest_and_the_lowest_force_of_a_row_are_its_directions_and_the_gas_says_which(names):
    def peaks(gas, way):
        up, down = (4 * SPEEDS, 6 * SPEEDS) if way == "compression" else (6 * SPEEDS, 4 * SPEEDS)
        (sweep,) = read([",".join(["v mm/s", *names])], (SPEEDS, up + gas, gas - down))
        return float(sweep.channels["force"].max()), next(w for w in sweep.warnings if "were taken as the forces" in w)

    top = SPEEDS.max()
    most, said = peaks(180.0, "compression")
    assert most == pytest.approx(4 * top + 180)
    assert "as gas pushes out" in said
    most, said = peaks(-180.0, "rebound")
    assert most == pytest.approx(4 * top + 180)
    assert "forces of rebound and compression" in said
    most, said = peaks(0.0, "compression")
    assert most == pytest.approx(4 * top)
    assert "assumed" in said
    assert "--positive rebound" in said


def test_two_forces_that_are_no_extremes_are_asked_for():
    with pytest.raises(ReadError, match="if they are the two directions, name them with --column compression=NAME"):
        read(["v mm/s,F1 N,F2 N"], (SPEEDS, 4 * SPEEDS, -6 * SPEEDS))


def test_a_valve_in_per_cent_is_no_pack():
    part = part_of(trace() | {"Valve [%]": np.round(100 * X)})
    assert "pack" not in part.roles.keys
    assert part.rows == len(T)
