"""What a curve answers: forces, secants, tangents, bands, and how it shows itself."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_allclose

from dynoan.interface.curves import draw_with_pictures
from dynoan.model.curve import Curve
from dynoan.model.side import Knee, Segment, Side
from tests.made import made_curve


def side(k=1.0, reach=0.4) -> Side:
    """A parabola to 0.1 m/s, then a line."""
    bleed = Segment(0.0, 0.1, 0.0, 500.0 * k, 15_000.0 * k)
    blow = Segment(0.1, reach, 200.0 * k, 1000.0 * k)
    speeds = np.linspace(0, reach, 41)
    force = bleed.force(np.minimum(speeds, 0.1)) + 1000.0 * k * np.maximum(speeds - 0.1, 0)
    return Side((bleed, blow), (Knee(0.1, 0.09, 0.11, 200.0 * k),), speeds, force - 5, force + 5, top_speed=reach)


CURVE = Curve(side(), side(2.0, 0.3), what="made <one>", gas_force=140.0)


def test_force_is_signed_and_zero_at_zero():
    assert_allclose(CURVE([0.0, 0.05, 0.1, 0.3, -0.05, -0.2]), [0, 62.5, 200, 400, -125, -600])


def test_secant_and_tangent():
    assert_allclose(CURVE.secant([0.1, -0.2]), [2000.0, 3000.0])
    assert_allclose(CURVE.secant(0.0), 500.0, rtol=0.01)
    assert_allclose(CURVE.tangent([0.05, 0.3]), [500 + 2 * 15_000 * 0.05, 1000.0], rtol=1e-6)


def test_band_is_around_the_curve_and_turned_over_in_rebound():
    v = np.array([-0.2, 0.2])
    low, high = CURVE.band(v)
    assert_allclose(CURVE(v) - low, 5.0)
    assert_allclose(high - CURVE(v), 5.0)


def test_beyond_the_data_the_slope_goes_on_the_band_widens_and_it_is_said():
    low, high = CURVE.band(0.6)
    assert_allclose(CURVE(0.6), 500.0 + 1000.0 * 0.2)
    assert high - low == pytest.approx(10.0 + 200.0)
    assert CURVE.extrapolated([0.39, 0.41, -0.31]).tolist() == [0.0, 1.0, 1.0]


def test_table_has_units_in_its_columns_and_flags():
    frame = CURVE.table([-0.5, 0.1])
    assert list(frame.columns) == ["velocity_m_s", "force_n", "low_n", "high_n", "extrapolated"]
    assert frame["extrapolated"].tolist() == [True, False]
    assert len(CURVE.table()) == 41


def test_repr_is_one_line_that_a_person_can_read():
    text = repr(CURVE)
    assert "\n" not in text
    assert "knee at 100 mm/s (200 N)" in text
    assert "gas 140 N" in text
    assert "friction not known" in text


def test_notebook_display_holds_forces_and_escapes_names():
    html = CURVE._repr_html_()
    assert "made &lt;one&gt;" in html
    assert "<td>250</td><td>350 ± 5</td><td>700 ± 5</td>" in html


def test_notebook_display_of_a_band_that_leans_holds_both_sides():
    side = replace(CURVE.compression, high=CURVE.compression.high + 9.0)
    html = replace(CURVE, compression=side)._repr_html_()
    assert "<td>250</td><td>350 + 14 − 5</td><td>700 ± 5</td>" in html


def test_plot_draws_the_curve_it_is_given():
    draw_with_pictures()
    curve = made_curve()
    ax = curve.plot()
    lines = {line.get_label(): line.get_xydata() for line in ax.get_lines()}
    drawn = lines["compression"]
    assert_allclose(drawn[-1], [500.0, float(curve(0.5))], rtol=1e-6)
    assert "mm/s" in ax.get_xlabel()
