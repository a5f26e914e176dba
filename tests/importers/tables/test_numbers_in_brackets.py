"""A second number in brackets or behind ± in each cell of a table: the first is the value, and the other is told of."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.reading import read_bytes

SPEEDS = (25, 50, 100, 200)
DOWN, UP = (108, 155, 250, 440), (168, 245, 400, 710)
HEAD = "Velocity (mm/s),Compression (N),Rebound (N)"


def table(form: str, head: str = HEAD, mark: str = ",", *, down: str = "") -> bytes:
    rows = [
        mark.join([str(v), (down or form).format(c), form.format(r)]) for v, c, r in zip(SPEEDS, DOWN, UP, strict=True)
    ]
    return "\n".join([head.replace(",", mark), *rows, ""]).encode()


def forces(data: bytes) -> tuple[list[float], list[float], tuple[str, ...]]:
    (sweep,) = read_bytes(data, "rig.csv")
    v, force = sweep.channels["velocity"], sweep.channels["force"]
    return sorted(force[v > 0].tolist()), sorted(np.abs(force[v < 0]).tolist()), sweep.warnings


@pytest.mark.parametrize(
    ("form", "mark", "taken"),
    [
        ("{} (6.3)", ",", "a scatter or a count"),
        ("{} [6.3]", ";", "a scatter or a count"),
        ("{}(6,3)", ";", "a scatter or a count"),
        ("{} (6.3)", "\t", "a scatter or a count"),
        ("{} (6.3)", "   ", "a scatter or a count"),
        ("{} (±6)", ",", "a scatter"),
        ("{} (1.6 %)", ",", "a scatter"),
        ("{} (5)", ",", "how many measurements each is of"),
        ("{} (n=5)", ",", "how many measurements each is of"),
        ("{0} (1-{0})", ",", "a range"),
        ("{0} (9{0})", ",", "which the file does not name"),
        ("{0} (4{0} N)", ",", "in a unit of its own"),
    ],
)
def test_the_first_number_is_the_value_and_the_one_in_brackets_is_told_of(form, mark, taken):
    down, up, warnings = forces(table(form, mark=mark))
    assert (down, up) == ([*DOWN], [*UP])
    (said,) = (w for w in warnings if "brackets" in w)
    assert f"'{form.format(DOWN[0])}'" in said
    assert f"what stands in brackets, {taken}, was left aside" in said


def test_one_column_of_two_may_have_the_form():
    down, up, warnings = forces(table("{}", down="{} (6.3)"))
    assert (down, up) == ([*DOWN], [*UP])
    assert any("'108 (6.3)'" in said for said in warnings)


def test_a_cell_without_a_number_stays_one():
    down, up, warnings = forces(table("{} (6)").replace(b"245 (6)", b"-"))
    assert (down, up) == ([*DOWN], [UP[0], *UP[2:]])
    assert any("missing" in said for said in warnings)


def test_settings_of_so_many_clicks_are_no_such_table():
    data = b"LSC,6 (20)\nLSR,8 (20)\n" + table("{}")
    assert not any("brackets" in said for said in forces(data)[2])


@pytest.mark.parametrize("form", ["{} ± 6", "{}±6", "{} +/- 6 %"])
def test_what_stands_behind_plus_and_minus_is_told_of(form):
    down, up, warnings = forces(table(form))
    assert (down, up) == ([*DOWN], [*UP])
    said = f"what numbers are off by was left aside, the numbers kept: '{form.format(DOWN[0])}'"
    assert any(warning.startswith(said) for warning in warnings)
