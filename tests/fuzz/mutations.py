"""Byte-level mutations of the corpus: what a bad cable, editor, mail program or stick does to a file."""

from __future__ import annotations

from pathlib import Path

from hypothesis import strategies as st

CORPUS = Path(__file__).parents[2] / "fixtures" / "layouts"
SEEDS = tuple(p.read_bytes() for p in sorted(CORPUS.iterdir()) if not p.name.endswith(".truth.json"))
TOKENS = (
    b",",
    b";",
    b"\t",
    b"|",
    b"\n",
    b"\r",
    b"\r\n",
    b"\0",
    b'"',
    b"'",
    b".",
    b"-",
    b"+",
    b"e",
    b"E9",
    b"1e999",
    b"NaN",
    b"OVER",
    b"---",
    b"\xff",
    b"\xfe\xff",
    b"\xef\xbb\xbf",
    b" ",
    b"#",
    b"LSC 6",
    b"C6 R8",
    b"Force [N]",
    b"Time [s]",
    b"Velocity [mm/s]",
    b"[",
    b"]",
    b"(",
    b"/",
    b"0",
    b"1",
    b"9" * 40,
    b"\xc2\xa0",
    b"Units: ",
    b"Sample rate: 0 Hz",
    b"Sample rate: -5 Hz",
    b"Run 2",
    b"=",
    b":",
    b"\x0c",
    b"\x1a",
)


@st.composite
def mutated(draw: st.DrawFn) -> bytes:
    """A file of the corpus, shortened, with pieces changed, dropped, doubled or swapped."""
    data = bytearray(draw(st.sampled_from(SEEDS)))
    limit = draw(st.sampled_from((400, 2000, 8000, 1 << 30)))
    if len(data) > limit:
        data = data[:limit]
    for _ in range(draw(st.integers(1, 8))):
        at = draw(st.integers(0, max(0, len(data) - 1)))
        size = draw(st.integers(0, 60))
        kind = draw(st.sampled_from(("put", "replace", "drop", "double", "flip", "cut", "move", "join")))
        data = _changed(data, kind, at, size, draw)
    return bytes(data)


def _changed(data: bytearray, kind: str, at: int, size: int, draw: st.DrawFn) -> bytearray:
    piece = data[at : at + size]
    if kind == "put":
        return data[:at] + draw(st.sampled_from(TOKENS)) + data[at:]
    if kind == "replace":
        return data[:at] + draw(st.binary(max_size=20)) + data[at + size :]
    if kind == "drop":
        return data[:at] + data[at + size :]
    if kind == "double":
        return data[:at] + piece + data[at:]
    if kind == "flip" and data:
        data[at] ^= 1 << draw(st.integers(0, 7))
        return data
    if kind == "cut":
        return data[:at]
    if kind == "join":
        return data[: at + size] + draw(st.sampled_from(SEEDS))[at:]
    return piece + data[:at] + data[at + size :]


@st.composite
def token_soup(draw: st.DrawFn) -> bytes:
    """Pieces of tables in no order."""
    some = st.sampled_from(TOKENS)
    number = st.floats(allow_nan=False, width=32).map(lambda v: f"{v:g}".encode())
    return b"".join(draw(st.lists(st.one_of(some, number, some), max_size=120)))


FILES = st.one_of(mutated(), mutated(), mutated(), token_soup(), st.binary(max_size=600))
