"""``dynoan bounce``: a pushed corner, by a phone and by the shock's own sensor, held against the car's file."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.jobs.phone_log import phone_axes
from dynoan.reading import read_log_bytes
from tests.library.calling import dynoan
from tests.worlds.track.decays import Corner, driven, pushes, turned

CORNER = Corner(234.0, 34.0, 40600.0, 210000.0, 120.0, (1500.0, 2900.0), (1000.0, 1500.0), 0.1, 35.0, 0.92)


@pytest.fixture(scope="module")
def logs(tmp_path_factory):
    folder = tmp_path_factory.mktemp("logs")
    random = np.random.default_rng(20)
    t, travel, up = driven(CORNER, *pushes(random, CORNER, 2))
    at = np.arange(0.0, t[-1], 0.01)
    axes = turned(random, np.interp(at, t, up), 12.0, gravity=True) / 9.80665
    rows = "".join(f"{w:.2f};{x:.4f};{y:.4f};{z:.4f}\n" for w, (x, y, z) in zip(at, axes, strict=True))
    (folder / "phone.csv").write_text("time [s];ax;ay;az\n" + rows)
    shock = np.interp(at, t, travel) * 920 + 40
    (folder / "shock.csv").write_text(
        "time [s],FL [mm]\n" + "".join(f"{w:.2f},{x:.2f}\n" for w, x in zip(at, shock, strict=True))
    )
    return folder


def test_a_phone_and_a_sensor_say_the_same(logs):
    found = {name: dynoan("bounce", logs / f"{name}.csv", "--corner", "fl", "--json") for name in ("phone", "shock")}
    ratios = [done.result["measured"]["ratio"] for done in found.values()]
    frequencies = [done.result["measured"]["frequency_hz"]["value"] for done in found.values()]
    assert frequencies[0] == pytest.approx(frequencies[1], rel=0.03)
    assert ratios[0]["low"] < ratios[1]["high"]
    assert ratios[1]["low"] < ratios[0]["high"]
    result = found["phone"].result
    assert (result["verdict"], result["predicted"], result["pushes"], result["corner"]) == (
        "cannot tell",
        None,
        2,
        "fl",
    )
    assert result["frequency_stated"]
    assert "stands on its own wheels" in result["caution"]


def test_a_swing_that_stops_at_once_states_no_frequency(tmp_path):
    """So much friction that a corner comes to rest after half a swing: limits, and no figure."""
    random = np.random.default_rng(3)
    dry = replace(CORNER, friction=330.0)
    t, travel, _ = driven(dry, *pushes(random, dry, 2))
    at = np.arange(0.0, t[-1], 0.02)
    rows = "".join(f"{w:.2f},{x:.1f}\n" for w, x in zip(at, np.interp(at, t, travel) * 920 + 40, strict=True))
    (tmp_path / "dry.csv").write_text("time [s],FL [mm]\n" + rows)
    found = dynoan("bounce", tmp_path / "dry.csv", "--corner", "fl")
    assert "cannot tell (" in found.out
    assert "cannot be told within 2 %" in found.err


@pytest.mark.parametrize("names", [("ax", "ay", "az"), tuple(f"Acceleration {a} (m/s^2)" for a in "xyz"),
                                   ("accX [g]", "accY [g]", "accZ [g]"), ("x", "y", "z")])  # fmt: skip
def test_axes_as_phones_name_them(names):
    text = "time [s]," + ",".join(names) + "\n" + "".join(f"{n / 50},0.1,0.2,{9.8 + n % 2}\n" for n in range(60))
    assert len(phone_axes(read_log_bytes(text.encode(), "phone.csv"))) == 3


@pytest.mark.parametrize(("words", "says"), [
    ([], "--corner fl or --axle front"), (["--corner", "xx"], "no corner"), (["--axle", "left"], "no axle"),
    (["--corner", "rr"], "no column for rr"),
])  # fmt: skip
def test_refusals(logs, words, says):
    done = dynoan("bounce", logs / "shock.csv", *words)
    assert (done.code, says in done.err) == (2, True), done.err


def test_a_still_log_says_what_to_do(tmp_path):
    (tmp_path / "still.csv").write_text("time [s],FL [mm]\n" + "".join(f"{n / 50},40.0\n" for n in range(300)))
    done = dynoan("bounce", tmp_path / "still.csv", "--corner", "fl")
    assert (done.code, "push the corner down" in done.err) == (2, True)


def test_travel_that_falls_as_the_shock_gets_shorter_is_turned_round(logs):
    head, *rows = (logs / "shock.csv").read_text().splitlines()
    turned_rows = [f"{t},{80 - float(x):.2f}" for t, x in (row.split(",") for row in rows)]
    (logs / "falls.csv").write_text("\n".join([head, *turned_rows]) + "\n")
    found = [dynoan("bounce", logs / f"{name}.csv", "--corner", "fl", "--json").result for name in ("shock", "falls")]
    assert "it is turned round" in found[1]["understood"]
    assert "turned round" not in found[0]["understood"]
    assert found[1]["measured"]["ratio"]["value"] == pytest.approx(found[0]["measured"]["ratio"]["value"], rel=0.01)
