"""Every file of `fixtures` that has a maker is what the maker writes, to the rounding of what it writes."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from fixtures import make_bounce_log, make_demo, make_first, make_launch_logs, make_layouts, make_travel_log

FIXTURES = Path(__file__).parents[2] / "fixtures"
#: each with the folder that it is given, and whether all that lies there is its own
MAKERS = (
    (make_demo, "demo/dyno", True), (make_first, "first/from-the-shop", True), (make_layouts, "layouts", True),
    (make_travel_log, "demo", False), (make_bounce_log, "demo/travel", False), (make_launch_logs, "demo/travel", False),
)  # fmt: skip
DATED = (".xlsx", ".mat")  #: say when they were written
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def alike(made: bytes, kept: bytes) -> bool:
    """Tell whether two files are the same text with the same numbers, the last place of which may differ by one."""
    if made == kept:
        return True
    texts = made.decode("latin-1"), kept.decode("latin-1")
    if NUMBER.sub("", texts[0]) != NUMBER.sub("", texts[1]):
        return False
    return all(
        abs(float(a) - float(b)) <= 1.01 * 10.0 ** -len(b.partition(".")[2])
        for a, b in zip(*map(NUMBER.findall, texts), strict=True)
    )


@pytest.mark.parametrize(("maker", "place", "alone"), [pytest.param(*one, id=one[0].__name__) for one in MAKERS])
def test_a_committed_file_is_what_its_maker_writes(maker, place, alone, tmp_path):
    home, folder = FIXTURES / place, tmp_path / place
    folder.mkdir(parents=True)
    maker.main(folder)
    files = [path for path in tmp_path.rglob("*") if path.is_file()]
    assert files
    for path in files:
        kept = FIXTURES / path.relative_to(tmp_path)
        assert kept.exists(), "made, and not committed"
        assert path.suffix in DATED or alike(path.read_bytes(), kept.read_bytes()), kept.relative_to(FIXTURES)
    if alone:
        assert {p.name for p in home.iterdir()} == {p.name for p in folder.iterdir()}


def test_a_digit_that_differs_by_more_is_seen():
    assert alike(b"1.23,4.50 N", b"1.24,4.50 N")
    assert not alike(b"1.23,4.50 N", b"1.25,4.50 N")
    assert not alike(b"1.23,4.50 N", b"1.23,4.50 lb")
    assert not alike(b"1.23", b"1.23,4")
