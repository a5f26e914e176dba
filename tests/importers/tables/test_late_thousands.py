"""Marks that group digits where the first thousands of lines hold none."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.reading import read_bytes


def table(force_text):
    x = np.sin(np.arange(8000) / 200.0)
    v = np.cos(np.arange(8000) / 200.0)
    rows = [f"{i / 200:.3f},{20 * a:.3f},{force_text(i, 300 * b + 400 * b * (i > 6000))}"
            for i, (a, b) in enumerate(zip(x, v, strict=True))]  # fmt: skip
    return "\n".join(["Time (s),Position (mm),Force (lbf)", *rows, ""]).encode(), v


def test_a_quoted_thousand_deep_in_a_file_is_a_number():
    data, v = table(lambda _i, f: f'"{2 * f:,.2f}"')
    (sweep,) = read_bytes(data, "late.csv")
    assert sweep.samples == 8000
    assert np.nanmax(np.abs(sweep.channels["force"])) == pytest.approx(
        1400 * 4.4482216 * np.abs(v[6001:]).max(), rel=1e-4
    )


def test_a_row_torn_by_a_comma_is_left_out_and_said():
    data, _ = table(lambda i, f: f"{2 * f + 1500:,.2f}" if i == 3000 else f"{f:.2f}")
    (sweep,) = read_bytes(data, "late.csv")
    assert sweep.samples == 7999
    assert any("line 3002" in w for w in sweep.warnings), sweep.warnings
