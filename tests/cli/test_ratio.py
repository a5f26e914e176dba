"""`dynoan ratio`: the promised keys, tables, pictures, and one line for what is wrong."""

from __future__ import annotations

import json

import numpy as np
import pytest

from dynoan.analysis.corner.ratios import corner_ratios
from dynoan.model.car import Corner
from tests.cli import corner_library
from tests.cli.corner_library import CAR, change, put
from tests.made import made_curve
from tests.often import often

garage, run = corner_library.garage, corner_library.run
pytestmark = pytest.mark.usefixtures("garage")
FL = Corner("fl", 268.0, 34.0, 45e3, 0.95, 0.92, tyre=210e3)


def test_clicks_that_a_car_leaves_out_are_said_with_where_they_are_taken(run, garage):
    assert "clicks are not said" not in run("ratio", "kestrel").err
    put(garage, "cars/bare.toml", CAR.replace('clicks = "lsc=4,hsc=5,lsr=4,hsr=5"\n', "", 1))
    put(garage, "cars/half.toml", CAR.replace("lsc=4,hsc=5,lsr=4,hsr=5", "lsc=4,hsr=5", 1))
    assert "fl, fr: clicks are not said; taken at lsc=3,hsc=5,lsr=3,hsr=5, where most tests" in run("ratio", "bare").err
    assert "fl, fr: clicks are not said; taken at hsc=5,lsr=3" in run("ratio", "half").err


def test_json_holds_the_promised_keys_and_the_truth(run):
    ran = run("ratio", "kestrel", "--json")
    assert ran.code == 0
    assert set(ran.result["corners"]) == {"fl", "fr", "rl", "rr"}
    fl, expected = ran.result["corners"]["fl"], corner_ratios(FL, made_curve("gravel", 4, 5, 4, 5))
    assert fl["wheel_rate_n_m"] == pytest.approx(45e3 * 0.95**2)
    assert fl["sprung_mass_kg"] == pytest.approx(234)
    assert fl["ride_frequency_hz"] == pytest.approx(np.sqrt(45e3 * 0.95**2 / 234) / (2 * np.pi))
    assert fl["critical_damping_wheel_n_s_m"] == pytest.approx(2 * np.sqrt(45e3 * 0.95**2 * 234))
    assert fl["critical_damping_shock_n_s_m"] == pytest.approx(fl["critical_damping_wheel_n_s_m"] / 0.92**2)
    for d in ("compression", "rebound"):
        for at in ("low", "high"):
            banded = getattr(expected.side(d), at)
            assert fl["ratio"][d][at] == pytest.approx(banded.value, rel=1e-9)
            assert fl["ratio_limits"][d][at]["low"] == pytest.approx(banded.low, rel=1e-6)
    assert fl["ratio"]["mean"] == pytest.approx(expected.mean)
    assert not [key for key, value in fl.items() if value is None], "what is known is said"
    assert set(ran.result["modes"]["full"]) >= {"heave", "pitch", "roll"}


def test_speeds_that_no_file_states_are_round_in_the_units_of_who_reads(run):
    assert "at 50 mm/s and 250 mm/s at the shock" in run("ratio", "kestrel").out
    shown = run("ratio", "kestrel", "--units", "us").out
    assert "at 2.0 in/s and 10.0 in/s at the shock" in shown
    assert "swing of ±0.80 in" in shown
    options = (["--units", "us"], ["--low", "2 in/s", "--high", "10 in/s"])
    asked, typed = (run("ratio", "kestrel", "--json", *o).result["corners"]["rr"]["ratio"] for o in options)
    assert asked["rebound"] == pytest.approx(typed["rebound"], rel=1e-12)


def test_velocities_take_units_or_bare_numbers_in_the_unit_shown(run):
    bare = run("ratio", "kestrel", "--json", "--units", "us", "--low", "2", "--high", "10").result["corners"]["rr"][
        "ratio"
    ]
    inches = run("ratio", "kestrel", "--json", "--low", "2 in/s", "--high", "10 in/s").result["corners"]["rr"]["ratio"]
    assert bare["rebound"] == pytest.approx(inches["rebound"], rel=1e-12)


def test_people_see_every_measure_by_its_name(run):
    ran = run("ratio", "kestrel", "-v")
    assert ran.code == 0
    words = ("front left", "body swing", "wheel hop", "rough road", "tangent", "rebound : compression", "together Hz",
             "Why they differ", "pitch_inertia is estimated", "steadiest tyre load at", "at wheel")  # fmt: skip
    for word in words:
        assert word in ran.out, word


def test_sigma_follows_from_a_surface(run):
    motion = run("ratio", "kestrel", "--json", "--surface", "loose", "--speed", "60 km/h").result["corners"]["fl"][
        "motion"
    ]
    fast = run("ratio", "kestrel", "--json", "--surface", "loose", "--speed", "90 km/h").result["corners"]["fl"][
        "motion"
    ]
    assert 0.1 < motion["sigma_m_s"] < fast["sigma_m_s"] < 2


def test_a_corner_without_pack_keeps_its_rates(run, garage):
    put(garage, "cars/bare.toml", change('pack = "gravel"\nclicks = "lsc=4,hsc=5,lsr=4,hsr=5"\n[rear]', "[rear]"))
    ran = run("ratio", "bare", "--json")
    assert ran.code == 0
    assert ran.result["corners"]["fl"]["ratio"] is None
    assert ran.result["corners"]["rl"]["ratio"] is not None
    assert "fl.pack is missing" in ran.out
    shown = run("ratio", "bare")
    assert "fl.pack is missing" in shown.err
    assert "front left" in shown.out


def test_without_tyres_the_modes_are_left_out_and_that_is_said(run, garage):
    put(garage, "cars/bare.toml", change('tyre = "210 N/mm"\n', ""))
    ran = run("ratio", "bare")
    assert ran.code == 0
    assert "fl.tyre is missing" in ran.err


def test_a_speed_beyond_the_data_is_warned_of(run):
    assert "beyond the measured speeds" in run("ratio", "kestrel", "--high", "550").err


@pytest.mark.parametrize("suffix", often(1, ["svg", "png"]))
def test_plot(run, tmp_path, suffix):
    ran = run("ratio", "kestrel", "--plot", f"ratio.{suffix}")
    assert ran.code == 0
    assert (tmp_path / f"ratio.{suffix}").stat().st_size > 10_000


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["kestrle"], "kestrle"),
        (["kestrel", "--low", "300"], "must lie below"),
        (["kestrel", "--low", "fast"], "--low"),
        (["kestrel", "--low", "-1"], "no speed of a shock"),
        (["kestrel", "--low", "0.05"], "--low: '0.05' has no unit and would be 0.05 mm/s; write '0.05 m/s'"),
        (["kestrel", "--high", "50000"], "no speed of a shock"),
        (["kestrel", "--body-amplitude", "20"], "no unit"),
        (["kestrel", "--hop-amplitude", "0 mm"], "--hop-amplitude: must be"),
        (["kestrel", "--surface", "loose"], "go together"),
        (["kestrel", "--surface", "ice", "--speed", "60 km/h"], "has no surface 'ice'"),
        (["kestrel", "--surface", "smooth", "--speed", "60 km/h"], "surfaces.smooth.roughness is missing"),
        (["kestrel", "--plot", "ratio.docx"], ".png"),
    ],
)
def test_a_wrong_call_is_one_line(run, words, told):
    ran = run("ratio", *words)
    assert ran.code == 2
    assert told in ran.err
    assert len([line for line in ran.err.splitlines() if line.startswith("dynoan:")]) == 1
    assert "Traceback" not in ran.err


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ('mass = "268 kg"', 'mass = "-268 kg"', "fl.mass"),
        ('unsprung = "34 kg"', 'unsprung = "280 kg"', "front.unsprung"),
        ("shock_ratio = 0.92", "shock_ratio = 9", "shock_ratio"),
        ('spring = "45 N/mm"', 'spring = "257 kg"', "spring"),
        ('spring = "45 N/mm"', "spring = 257", "spring"),
    ],
)
def test_nonsense_in_the_car_is_refused_with_its_key(run, garage, old, new, key):
    put(garage, "cars/odd.toml", change(old, new))
    ran = run("ratio", "odd")
    assert ran.code == 2
    assert key in ran.err
    assert "odd.toml" in ran.err


def test_what_a_picture_draws_is_what_was_reckoned():
    from dynoan.analysis.corner.secants import ratio_curve
    from dynoan.library.car_file import car_from_text
    from dynoan.show.plots.ratio import draw_ratio, target_points
    from dynoan.show.plots.style import new_figure

    _, ax = new_figure()
    targets = car_from_text(CAR, "kestrel.toml").targets["front"]
    draw_ratio(ax, [("front left", FL, made_curve())], target_points(targets))
    compression = next(line for line in ax.lines if line.get_label() == "front left")
    x, y = compression.get_data()
    np.testing.assert_allclose(y, ratio_curve(FL, made_curve(), np.asarray(x) / 1e3), rtol=1e-9)
    marks = {
        (round(x), y) for line in ax.lines if line.get_marker() == "x" for x, y in zip(*line.get_data(), strict=True)
    }
    assert marks == {(50, 0.38), (250, 0.30), (-50, 0.65), (-250, 0.45)}


def test_a_shock_never_tested_with_its_pack_is_told_and_its_band_is_wider(run):
    """The made-up maps rest on FL-01 alone; the other front corner is the same but for its shock."""
    ran = run("ratio", "kestrel", "--json")
    said = " ".join(json.loads(ran.out)["warnings"])
    assert "fr: FR-02 was never tested with pack" in said
    assert "fl: " not in said
    halves = []
    for name in ("fl", "fr"):
        corner = ran.result["corners"][name]
        limits = corner["ratio_limits"]["rebound"]["high"]
        halves.append((limits["high"] - limits["low"]) / 2 / corner["ratio"]["rebound"]["high"])
    assert halves[1] > 0.05 > halves[0]
