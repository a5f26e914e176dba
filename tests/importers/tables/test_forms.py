"""Forms around a table: keys over values, beside it, and side by side with a table each."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes

V, C, R = (25, 50, 100, 200, 300), (210, 380, 560, 810, 1010), (330, 610, 980, 1450, 1880)
TABLE = [["mm/s", "Comp N", "Reb N"], *([v, c, r] for v, c, r in zip(V, C, R, strict=True))]


def text(rows, mark: str = "\t") -> bytes:
    return "\n".join([*(mark.join(str("" if c is None else c) for c in row) for row in rows), ""]).encode()


def beside(*blocks, gap: int = 1):
    """Rows of blocks next to one another."""
    widths = [max(map(len, block)) for block in blocks]
    return [
        [
            c
            for block, w in zip(blocks, widths, strict=True)
            for c in [*(block[k] if k < len(block) else []), *[""] * (w + gap)][: w + gap]
        ]
        for k in range(max(map(len, blocks)))
    ]


def form(k: int):
    return [["Damper", f"RL-0{k}"], ["Valve pack", "gravel"], ["LSC", 4 + k], ["LSR", 6 + k], ["Gas (bar)", 8 + k]]


def told(sweeps):
    return [(s.shock, s.pack, dict(s.clicks), s.gas_pressure, int(s.channels["force"].max())) for s in sweeps]


@pytest.mark.parametrize("mark", ["\t", ";", ","])
@pytest.mark.parametrize("between", [[], [[]]])
def test_two_forms_side_by_side_each_over_its_table(mark, between):
    other = [TABLE[0], *([v, c - 10, r - 20] for v, c, r in TABLE[1:])]
    blocks = beside([["Left rear"], *form(1), *between, *TABLE], [["Right rear"], *form(2), *between, *other])
    assert told(read_bytes(text(blocks, mark), "two.csv")) == [
        ("RL-01", "gravel", {"lsc": 5, "lsr": 7}, 9e5, 1010),
        ("RL-02", "gravel", {"lsc": 6, "lsr": 8}, 1e6, 1000),
    ]


def test_two_forms_that_touch():
    other = [TABLE[0], *([v, c - 10, r - 20] for v, c, r in TABLE[1:])]
    forms = [[["Damper:", "", "RL-02"], ["Comp clicks:", "", 2 * k], ["Reb clicks:", "", 3 * k]] for k in (1, 2)]
    blocks = beside([*forms[0], *TABLE], [*forms[1], *other], gap=0)
    assert told(read_bytes(text(blocks), "two.csv")) == [
        ("RL-02", None, {"c": 2, "r": 3}, None, 1010),
        ("RL-02", None, {"c": 4, "r": 6}, None, 1000),
    ]


def test_clicks_twice_in_a_line_with_blank_cells_are_of_neither():
    (sweep,) = read_bytes(text([["Comp clicks:", "", 2, "Comp clicks:", "", 4], *TABLE]), "a.csv")
    assert not sweep.clicks
    assert any("stands twice in a line, as 2 and 4" in w for w in sweep.warnings)


@pytest.mark.parametrize("rows", [5, 3, 8])
def test_a_form_to_the_left_of_its_table(rows):
    body = [TABLE[0], *([10 * k, 100 * k, 150 * k] for k in range(1, rows + 1))]
    (sweep,) = read_bytes(text(beside(form(1), body)), "left.csv")
    assert (sweep.shock, sweep.pack, dict(sweep.clicks)) == ("RL-01", "gravel", {"lsc": 5, "lsr": 7})
    assert sweep.gas_pressure == 9e5
    assert sweep.samples == 2 * rows


def test_a_form_to_the_left_of_a_long_record():
    body = [["Time (s)", "Disp (mm)", "Force (N)"], *([f"{k / 500:.3f}", k % 50, 3 * (k % 50)] for k in range(600))]
    (sweep,) = read_bytes(text(beside(form(1), body)), "left.csv")
    assert (sweep.shock, sweep.samples, sweep.rate) == ("RL-01", 600, pytest.approx(500))


def test_values_below_their_keys():
    above = [["Damper"], ["RL-02"], ["Valve pack"], ["gravel"], ["Clicks"], ["LSC 6 LSR 8"], ["Date"], ["14/06/2025"]]
    (sweep,) = read_bytes(text([*above, *TABLE]), "a.csv")
    assert (sweep.shock, sweep.pack, dict(sweep.clicks)) == ("RL-02", "gravel", {"lsc": 6, "lsr": 8})
    assert sweep.date == "2025-06-14"


def test_a_title_over_one_line_is_no_key_over_its_value():
    (sweep,) = read_bytes(text([["Damper"], ["club evening"], ["LSC 6 LSR 8"], *TABLE]), "a.csv")
    assert sweep.shock is None
    assert sweep.clicks == {"lsc": 6, "lsr": 8}


def test_a_value_in_the_last_column_behind_its_key_is_no_note():
    box = [["Damper", "RL-02"], ["LSC", 6], ["LSR", 8], ["Gas", "12 bar"]]
    (sweep,) = read_bytes(text([*beside(TABLE, box)[:4], *TABLE[4:]]), "a.csv")
    assert (sweep.shock, sweep.gas_pressure, sweep.warnings) == ("RL-02", 1.2e6, ())
