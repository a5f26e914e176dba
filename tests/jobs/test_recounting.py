"""Clicks of a rig's file are kept as the shock's file counts and calls them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from dynoan.errors import CallError
from dynoan.jobs.recounting import as_its_shock_counts
from dynoan.library import Library
from dynoan.reading import read_bytes

ROWS = "Velocity (mm/s),Compression (N),Rebound (N)\n50,300,400\n100,450,600\n200,600,800\n"
SHOCK = '[adjusters.c]\nclicks = 24\n[adjusters.r]\nclicks = 20\ncounted = "from soft"\n'


@pytest.fixture(scope="module")
def library(tmp_path_factory):
    made = Library.open_or_create(tmp_path_factory.mktemp("counting") / "library", units="metric")
    (made.path / "shocks" / "FR-9.toml").write_text(SHOCK)
    return made


def read(setting: str):
    (sweep,) = read_bytes(f"Shock: FR-9\n{setting}\n{ROWS}".encode(), "fr9.csv")
    return sweep


@pytest.mark.parametrize(
    ("setting", "clicks", "said"),
    [
        ("Comp: 10 clicks from soft\nReb: 6 from closed", {"c": 14, "r": 14}, ("c=10 from soft", "r=6 from closed")),
        ("Comp: 10 from closed\nReb: 6 from full soft", {"c": 10, "r": 6}, ()),
        ("C10 R6", {"c": 10, "r": 6}, ()),
        ("C10 R6\nClicks counted from soft", {"c": 14, "r": 6}, ("c=10 from soft",)),
        ("Clicks: 8", {"c": 8, "r": 8}, ("cr=8 was kept as c=8,r=8",)),
    ],
)
def test_clicks_are_kept_as_the_shock_counts_them(library, setting, clicks, said):
    kept = as_its_shock_counts(library, read(setting))
    assert (kept.clicks, kept.counted) == (clicks, {})
    assert len(kept.warnings) == len(said)
    assert all(warning.startswith(words) for warning, words in zip(kept.warnings, said, strict=True))


def test_what_is_settled_is_known_by_its_kind_and_not_by_its_words(library):
    sweep = read("C10 R6\nClicks counted from soft")
    plain = replace(sweep, warnings=tuple(str(w) for w in sweep.warnings))
    assert as_its_shock_counts(library, plain).warnings[: len(sweep.warnings)] == sweep.warnings


def test_a_click_beyond_the_last_one_cannot_be_turned(library):
    with pytest.raises(CallError, match="c=30 from soft is outside the clicks of shock FR-9: 0 to 24"):
        as_its_shock_counts(library, read("Comp: 30 clicks from soft"))


def test_a_shock_without_a_file_is_kept_as_the_rigs_file_says(library):
    sweep = replace(read("Comp: 10 clicks from soft"), shock="FR-10")
    kept = as_its_shock_counts(library, sweep)
    assert (kept.clicks, kept.warnings) == ({"c": 10}, sweep.warnings)
