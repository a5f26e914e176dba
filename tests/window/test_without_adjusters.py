"""Shocks with nothing to turn: the window and the report show them, and no click's worth is made up."""

import dynoan
from tests.window.conftest import Window

TABLE = """Shock: K-1
Pack: mixed
Velocity (mm/s),Compression (N),Rebound (N)
25,158,323
100,385,755
250,541,974
400,640,1150
"""


def library(folder):
    file = folder / "plain.csv"
    file.write_text(TABLE)
    made = dynoan.open(folder / "team", new=True)
    made.add(file)
    return made


def test_its_curve_is_shown_without_what_a_click_does(tmp_path):
    library(tmp_path)
    window = Window(tmp_path / "team")
    window.get("/curves?s=mixed")
    window.wait()
    page = window.get("/curves?s=mixed")
    assert page.status_code == 200
    assert "Forces" in page.text
    assert "What one click does" not in page.text


def test_the_report_draws_it_as_tested(tmp_path):
    page = library(tmp_path).report().page()
    assert "Pack mixed: force against velocity as tested" in page
    assert "from closed to open" not in page
