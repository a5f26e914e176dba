"""What `match` says of what it cannot tell names why: scatter, nearness to the tolerance, or what records hold."""

from __future__ import annotations

from dynoan.analysis.matching.match import Band, Match
from dynoan.show.text.match import more_runs


def untold(low: float, high: float, repeats: int | None = None) -> Match:
    band = Band("rebound", 0.05, (low + high) / 2, low, high, 3.0)
    return Match("cannot tell", 5.0, (band,), repeats)


def test_more_runs_where_they_would_settle_it():
    assert more_runs([untold(-5.5, 6.3, 4)]) == "about 4 more runs of each would settle it"


def test_a_difference_at_the_tolerance_is_said_to_lie_there():
    assert "so near the tolerance" in more_runs([untold(3.5, 6.3)])


def test_wide_intervals_are_laid_at_the_door_of_the_records():
    said = more_runs([untold(3.5, 6.3), untold(-40.0, 62.0)])
    assert "tolerance" not in said
    assert "(± 51 % at worst, in rebound)" in said
    assert "traces of both over several speeds would tell" in said
