"""What is known of a column's ends is what the column itself says, whole, in pieces and scaled."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from importers.tables.by_arrow import WantedColumns
from importers.tables.extent import Extent, KnownExtents
from importers.tables.numbers import parse_rows
from tests.importers.making import grid_of, quick

numbers = st.floats(-1e6, 1e6) | st.just(float("nan"))


def same(a: Extent, b: Extent) -> bool:
    return np.array_equal(np.array(a, float), np.array(b, float), equal_nan=True)


@quick
@given(st.lists(numbers, min_size=2, max_size=60), st.data())
def test_two_parts_joined_are_the_whole(values, data):
    x = np.array(values)
    cut = data.draw(st.integers(1, len(x) - 1))
    joined = Extent.of(x[:cut]).joined(Extent.of(x[cut:]), rises=bool(x[cut] > x[cut - 1]))
    assert same(joined, Extent.of(x))
    assert joined.complete == bool(np.isfinite(x).all())


@quick
@given(st.lists(numbers, min_size=1, max_size=60), st.sampled_from([1.0, -1.0, 1e-3, -4.448]), st.floats(-300, 300))
def test_scaled_to_the_bit(values, factor, offset):
    x = np.array(values)
    found, wanted = Extent.of(x).scaled(factor, offset), Extent.of(x * factor + offset)
    assert same(Extent(found.high, found.low), Extent(wanted.high, wanted.low))


def test_a_column_of_none_has_no_ends():
    found = Extent.of(np.empty(0))
    assert np.isnan(found.high)
    assert not found.rises
    assert not found.complete


def test_only_the_very_column_is_believed():
    x = np.array([1.0, 2.0, 3.0])
    known = KnownExtents([(x, Extent(9.0, 8.0))])
    assert known.of(x) == (9.0, 8.0, False)
    assert known.of(x.copy()) == (3.0, 1.0, True)


@pytest.mark.parametrize("fault", [None, b"-12345.5", b"", b"1e999"])
def test_a_large_body_in_pieces_tells_the_extents_of_its_columns(fault):
    rows = [b"%d.5,%d,%d" % (k, k % 1000, 500_000 - k) for k in range(250_000)]
    if fault is not None:
        rows[200_001] = b"200001.5," + fault + b",1"
    body = parse_rows(b"\n".join(rows) + b"\n", grid_of(3), WantedColumns((0, 1, 2)))
    assert body.rows == len(rows)
    assert all(same(body.extents[i], Extent.of(body.values[i])) for i in range(3))
    assert [body.extents[i].rises for i in range(3)] == [True, False, False]
    assert body.extents[1].complete == (fault in (None, b"-12345.5"))
