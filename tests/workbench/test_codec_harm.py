"""What a cache gives back: the same, or nothing; never something else."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import array_shapes, arrays

from dynoan.library.caching import cache, cached
from dynoan.model.arrays import FloatArray
from dynoan.workbench.codec import decode, encode

FEW = settings(max_examples=25, deadline=None)


@dataclass(frozen=True)
class Inner:
    """A part that stands in a tuple and in a mapping."""

    name: str
    at: float | None = None


@dataclass(frozen=True)
class Outer:
    """One of everything the caches hold."""

    title: str
    rows: FloatArray
    more: FloatArray | None = None
    pair: tuple[float, float] = (0.0, 0.0)
    parts: tuple[Inner, ...] = ()
    by_name: Mapping[str, Inner] = field(default_factory=dict)
    clicks: tuple[Mapping[str, int], ...] = ()
    sure: bool = False
    count: int = 0


FLOATS = st.floats(width=64)
INNERS = st.builds(Inner, st.text(max_size=8), st.none() | FLOATS)
ROWS = arrays("<f8", array_shapes(max_dims=3, min_side=0, max_side=4), elements=FLOATS)
OUTERS = st.builds(
    Outer,
    st.text(max_size=8),
    ROWS,
    st.none() | ROWS,
    st.tuples(FLOATS, FLOATS),
    st.lists(INNERS, max_size=3).map(tuple),
    st.dictionaries(st.text(max_size=5), INNERS, max_size=3),
    st.lists(st.dictionaries(st.sampled_from(["lsc", "hsr"]), st.integers(0, 99)), max_size=3).map(tuple),
    st.booleans(),
    st.integers(-(2**70), 2**70),
)
SMALL = Outer("a", np.array([[1.0, 2.0], [3.0, np.nan]]), None, (0.5, -1.0), (Inner("x", 2.5),), {"k": Inner("y")})


def same(one: Outer, other: Outer) -> bool:
    """Whether the two are alike to the last bit; NaN is like NaN."""
    return repr(one) == repr(other) and all(
        (a is None and b is None) or (a.shape == b.shape and a.tobytes() == b.tobytes())
        for a, b in ((one.rows, other.rows), (one.more, other.more))
    )


@FEW
@given(OUTERS)
def test_whatever_is_kept_reads_back_to_the_last_bit(value):
    assert same(decode(Outer, encode(value)), value)


def test_no_cut_reads_as_something_shorter():
    data = encode(SMALL)
    for end in range(len(data)):
        with pytest.raises(ValueError):
            decode(Outer, data[:end])


def test_no_flipped_bit_of_the_words_raises_anything_but_a_value_error():
    data = encode(SMALL)
    words = len(data) - SMALL.rows.nbytes
    refused = 0
    for place in range(words):
        for bit in range(8):
            harmed = bytearray(data)
            harmed[place] ^= 1 << bit
            try:
                decode(Outer, bytes(harmed))
            except ValueError:
                refused += 1
    assert refused >= 8 * 16  # the mark and the length at least; what a letter became is the seal's to find


@FEW
@given(data=st.binary(max_size=200), mark=st.booleans())
def test_foreign_bytes_are_a_value_error(data, mark):
    with pytest.raises(ValueError):
        decode(Outer, (b"dynoan1\n" if mark else b"") + data)


@pytest.fixture(scope="module")
def kept(tmp_path_factory):
    folder = tmp_path_factory.mktemp("caches")
    cache(folder, "made", "key", encode(SMALL))
    (path,) = folder.rglob("*.bin")
    return folder, path, path.read_bytes()


@settings(max_examples=80, deadline=None)
@given(st.data())
def test_a_kept_result_with_one_byte_changed_cut_or_added_is_not_used(kept, data):
    folder, path, whole = kept
    place = data.draw(st.integers(0, len(whole) - 1))
    harmed = data.draw(
        st.sampled_from(
            [
                whole[:place] + bytes([whole[place] ^ data.draw(st.integers(1, 255))]) + whole[place + 1 :],
                whole[:place],
                whole[:place] + b"\0" + whole[place:],
                whole + whole[: place + 1],
            ]
        )
    )
    path.write_bytes(harmed)
    assert cached(folder, "made", "key") is None
    path.write_bytes(whole)
    assert cached(folder, "made", "key") == encode(SMALL)


def test_a_kept_result_in_anothers_place_is_not_used(kept):
    folder, path, whole = kept
    cache(folder, "made", "other", b"x")
    (other,) = set(path.parent.glob("*.bin")) - {path}
    other.write_bytes(whole)
    assert cached(folder, "made", "other") is None
    assert cached(folder, "made", "key") == encode(SMALL)
    assert cached(folder, "made", "a third") is None
