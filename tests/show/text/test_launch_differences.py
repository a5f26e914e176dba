"""What settings change on the same roads, in words: what can be told stands in a table, what cannot in a sentence."""

from __future__ import annotations

from dynoan.jobs.launch.differences import CHANGES, RunDifference
from dynoan.model.banded import Banded
from dynoan.show.text.blocks import Look, Paragraph, Table
from dynoan.show.text.launch_differences import blocks

LABELS = ("as on the car", "firm")


def told(look=None, roads=12, **changes):
    of = {m.key: None for m in CHANGES} | changes
    return blocks([RunDifference("firm", "loose", "as on the car", roads, of)], LABELS, look or Look())


def test_what_can_be_told_has_its_sign_and_its_limits():
    table, _ = told(distance_m=Banded(0.0019, 0.0001, 0.0037), wheelspin_s=Banded(-0.003, -0.005, -0.001))
    assert isinstance(table, Table)
    assert table.title == "loose: more or less than as on the car, all on the same 12 made-up roads"
    assert table.columns == ["", "distance covered [mm]", "time spinning [s]"]
    assert table.rows == [["firm", "+1.9 (+0.1 to +3.7)", "-0.003 (-0.005 to -0.001)"]]


def test_in_inches_and_metres():
    (us, _) = told(Look("us"), distance_m=Banded(0.0254, 0.0127, 0.0381))
    assert us.rows == [["firm", "+1.00 (+0.50 to +1.50)"]]
    (far, _) = told(distance_m=Banded(2.3562, 2.2262, 2.4847))
    assert far.columns == ["", "distance covered [m]"]
    assert far.rows == [["firm", "+2.36 (+2.23 to +2.48)"]]


def test_what_cannot_be_told_is_one_sentence():
    (said,) = told(distance_m=Banded(0.001, -0.002, 0.004))
    assert said == Paragraph("loose: no difference can be told in distance covered, all on the same 12 made-up roads.")


def test_on_a_smooth_surface_no_road_is_named():
    (table, _) = told(roads=0, distance_m=Banded(0.001, 0.001, 0.001))
    assert table.title == "loose: more or less than as on the car"
    assert table.rows == [["firm", "+1.0"]]


def test_nothing_changed_nothing_said():
    assert told(distance_m=Banded(0.0, 0.0, 0.0)) == []
    assert told() == []
