"""Caches hold data only and read back as they were."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.model.clickmap import ClickMap
from dynoan.model.curve import Curve
from dynoan.model.side import Knee, Segment
from dynoan.workbench.codec import decode, encode
from tests.made import made_curve, made_map


def test_a_curve_reads_back():
    knee, segment = Knee(0.1, 0.09, 0.11, 400.0), Segment(0.0, 0.1, 0.0, 4000.0, character="digressive")
    curve = made_curve()
    curve = replace(curve, compression=replace(curve.compression, knees=(knee,), segments=(segment,)), sweeps=("a",))
    again = decode(Curve, encode(curve))
    v = np.linspace(-0.6, 0.6, 25)
    np.testing.assert_array_equal(again(v), curve(v))
    np.testing.assert_array_equal(again.band(v), curve.band(v))
    assert again.compression.knees == (knee,)
    assert again.compression.segments == (segment,)
    assert again.sweeps == ("a",)
    assert again.clicks == curve.clicks
    assert np.isnan(again.rms)


def test_a_click_map_reads_back():
    made = made_map(last=4)
    again = decode(ClickMap, encode(made))
    np.testing.assert_array_equal(again.compression.force, made.compression.force)
    assert again.adjusters == made.adjusters
    assert list(again.tested) == list(made.tested)


@pytest.mark.parametrize("harm", [lambda d: b"", lambda d: d[:40], lambda d: d[:-9], lambda d: b"x" + d[1:]])
def test_a_damaged_cache_is_a_value_error(harm):
    with pytest.raises(ValueError, match=r"cache|buffer|line|char|Expecting|Unterminated"):
        decode(Curve, harm(encode(made_curve())))
