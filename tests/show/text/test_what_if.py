"""Cases side by side in words: what a launch is asked for always stands there, what is alike has its value."""

from __future__ import annotations

from types import SimpleNamespace

from dynoan.jobs.compared_figures import ComparedBlock, ComparedFigure, ComparedVerdict, figure_of
from dynoan.jobs.launch.figures import ASKED_FOR, BY_KEY
from dynoan.jobs.measures import Measure
from dynoan.show.text.blocks import Look, Paragraph
from dynoan.show.text.launch import SPUN
from dynoan.show.text.what_if import block, blocks

LABELS = ("as it is", "stiff")


def figure(key, one, two, *, always=False):
    differs = ("", "sure" if one != two else "")
    return ComparedFigure(key, BY_KEY[key].words, (one, two), (None, None), differs, BY_KEY[key], always)


def test_wheelspin_and_distance_stand_in_the_table_where_they_are_the_same():
    of = ComparedBlock("loose", (
        figure("level_rear_lift_m", 0.0012, 0.0012), figure("level_pitch_peak_rad", 0.01, 0.02),
        figure("wheelspin_s", 2.8, 2.8, always="wheelspin_s" in ASKED_FOR),
        figure("distance_m", 13.31, 13.31, always="distance_m" in ASKED_FOR),
    ))  # fmt: skip
    table, same = block(of, LABELS, Look())
    assert [row[0] for row in table.rows] == [
        "pitch: most nose up, level road [°]", "driven wheels: time spinning [s]", "distance covered [m]",
    ]  # fmt: skip
    assert table.rows[1][1:] == ["2.80", "2.80"]
    assert same == Paragraph("The same in all: rear: highest lift, level road 1.2 mm.")


def test_why_no_case_spins_less_is_said():
    of = ComparedBlock("loose", (), (ComparedVerdict("wheelspin_s", "Least wheelspin", 0, "no difference", True),))
    assert block(of, LABELS, Look())[-1] == Paragraph(f"Least wheelspin: no difference. {SPUN}")


def test_a_percentage_has_no_percentage_of_itself():
    miss = Measure("miss_pct", "off by %", float, digits=1)
    of = ComparedBlock("front", (figure_of(miss, [2.0, 2.7]), figure_of(Measure("hz", "ride", float), [2.0, 2.7])))
    (table,) = block(of, LABELS, Look())
    assert [row[2].rstrip("*") for row in table.rows] == ["2.7", "2.70 (+35 %)"]


def test_the_mark_is_explained_only_where_it_stands():
    def said(one, two):
        of = ComparedBlock("loose", (figure("distance_m", one, two, always=True),))
        answer = SimpleNamespace(heads=LABELS, blocks=[of], found=[])
        return [b.text for b in blocks(answer, Look()) if isinstance(b, Paragraph)]

    assert any("differs from the first" in text for text in said(13.0, 14.0))
    assert not any("differs from the first" in text for text in said(13.0, 13.0))
