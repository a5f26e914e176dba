"""A notebook's way: from files to chosen clicks in fifteen lines, with a frame, a figure and an HTML table."""

from __future__ import annotations

import runpy
import shutil
from pathlib import Path

import pytest

import dynoan
from dynoan.errors import CallError, LibraryError
from tests.once import lent_fits

SCRIPT = Path(__file__).with_name("from_files_to_clicks.py")
DEMO = Path(__file__).parents[2] / "fixtures" / "demo"


@pytest.fixture(scope="module")
def ran(tmp_path_factory):
    folder = tmp_path_factory.mktemp("notebook")
    dynoan.open(folder / "team", new=True)
    lent_fits(tmp_path_factory.getbasetemp(), folder / "team")  # the same runs are fitted once, by the demo
    for name in ("cars", "shocks", "dyno"):
        shutil.copytree(DEMO / name, folder / name)
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        return runpy.run_path(str(SCRIPT))


def test_it_takes_fifteen_lines_at_most():
    code = [line for line in SCRIPT.read_text(encoding="utf-8").splitlines() if line.strip()]
    assert len(code) - 1 <= 15  # the docstring aside


def test_the_files_are_kept(ran):
    assert ran["kept"].new == len(list((DEMO / "dyno").iterdir()))


def test_the_frame_has_units_in_its_columns(ran):
    frame = ran["frame"]
    assert list(frame["corner"]) == ["fl", "fr", "rl", "rr"]
    car = ran["lib"].ratio("kestrel").car
    corner = car.corners["fl"]
    # wheel rate: spring rate times the square of spring travel over wheel travel
    assert frame["wheel_rate_n_m"][0] == pytest.approx(corner.spring * corner.spring_ratio**2)


def test_the_figure_is_drawn(ran):
    assert [ax.get_ylabel() for ax in ran["figure"].axes] == ["damping ratio"] * len(ran["figure"].axes)


def test_the_table_is_html_with_the_chosen_pack(ran):
    assert "<table>" in ran["table"]
    assert ran["best"].to_dict()["choices"][0]["pack"] in ran["table"]


def test_the_clicks_are_those_of_the_command_line(ran):
    assert set(ran["clicks"]) == {"lsc", "hsc", "lsr", "hsr"}
    again = dynoan.open(ran["lib"]._bench.library.path).choose("kestrel", axle="front", count=3)
    assert again.to_dict() == ran["best"].to_dict()


def test_a_new_library_needs_a_folder():
    with pytest.raises(CallError, match="needs a folder"):
        dynoan.open(new=True)


def test_a_folder_with_other_things_is_not_taken(tmp_path):
    (tmp_path / "letter.txt").write_text("not ours", encoding="utf-8")
    with pytest.raises(LibraryError):
        dynoan.open(tmp_path, new=True)
