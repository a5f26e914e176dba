"""A cell of a peak table far off both neighbours is told with its row and with them; curves as they are, not."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes

SPEEDS = (25, 50, 100, 150, 200, 300)
COMP = (158.0, 258.0, 385.0, 450.0, 502.0, 590.0)
REB = (323.0, 524.0, 755.0, 853.0, 917.0, 1026.0)


def doubts(speeds=SPEEDS, comp=COMP, reb=REB, head="Speed (mm/s),Comp (N),Reb (N)") -> list[str]:
    rows = (f"{v},{c},{r}" for v, c, r in zip(speeds, comp, reb, strict=True))
    sweeps = read_bytes("\n".join((head, *rows, "")).encode(), "run.csv")
    return [said for sweep in sweeps for said in sweep.warnings if "decimal mark right" in said]


def with_cell(values, at: int, factor: float):
    return tuple(x * factor if i == at else x for i, x in enumerate(values))


@pytest.mark.parametrize("at", range(len(SPEEDS)))
@pytest.mark.parametrize("factor", [10, 100, 0.1])
def test_a_slipped_decimal_in_any_row(at, factor):
    if (at, factor) == (0, 0.1):
        return  # at the slowest speed a bleed may open so
    (said,) = doubts(comp=with_cell(COMP, at, factor))
    assert f"compression force of {COMP[at] * factor:.4g} N at {SPEEDS[at]} mm/s" in said
    assert f"{COMP[at - 1 if at else 1]:.4g} N" in said


def test_each_direction_is_told():
    (said,) = doubts(reb=tuple(-r for r in with_cell(REB, 3, 10)))
    assert "rebound force of 8530 N at 150 mm/s lies far off those beside it, 755 N and 917 N" in said


def test_a_row_is_told_in_the_units_of_the_file():
    (said,) = doubts(comp=with_cell(COMP, 2, 10), head="in/s,Comp (lbf),Reb (lbf)", speeds=(1, 2, 4, 6, 8, 10))
    assert "at 4 in/s" in said


def test_a_slipped_speed():
    found = doubts(speeds=(25, 50, 1000, 150, 200, 300))
    assert any("speed of 1000 mm/s stands between 50 and 150 mm/s" in said for said in found)


@pytest.mark.parametrize(
    "comp",
    [
        (20, 80, 320, 450, 502, 590),  # a bleed that closes
        (158, 900, 950, 980, 1000, 1010),  # a valve that holds up to one force
        (10, 40, 160, 360, 640, 1440),  # a bare hole
        (400, 420, 390, 410, 405, 415),  # friction
        (590, 502, 450, 385, 258, 158),  # another order of rows, and speeds as they are
        (3, 1, 160, 360, 640, 1440),  # almost nothing at the slowest
    ],
)
def test_curves_as_they_are(comp):
    assert not doubts(comp=comp)


def test_speeds_out_of_order_are_no_slip():
    assert not doubts(
        speeds=(300, 25, 150, 50, 200, 100),
        comp=(590.0, 158.0, 450.0, 258.0, 502.0, 385.0),
        reb=(1026.0, 323.0, 853.0, 524.0, 917.0, 755.0),
    )
