"""What `match` says of what it cannot tell names why: scatter, nearness to the tolerance, or what records hold."""

from __future__ import annotations

from dynoan.analysis.matching.match import Band, Match
from dynoan.show.text.match import known_part, more_runs


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


def test_where_two_are_a_pair_is_said_though_at_rest_it_cannot_be_told():
    speeds = (0.05, 0.1, 0.25, 0.5)
    bands = [Band("compression", v, 0.5, -w, w, 3.0) for v, w in zip(speeds, (17.0, 4.0, 3.0, 2.0), strict=True)]
    bands += [Band("rebound", v, 0.5, -w, w, 3.0) for v, w in zip(speeds, (4.0, 9.0, 3.0, 2.0), strict=True)]
    (said,) = known_part([Match("cannot tell", 5.0, tuple(bands))], "metric")
    assert said == ("they are a pair in compression at 100 to 500 mm/s and in rebound at 50 to 500 mm/s but for 100; "
                    "at the other speeds it cannot be told")  # fmt: skip
    assert known_part([untold(-40.0, 62.0)], "metric") == []
