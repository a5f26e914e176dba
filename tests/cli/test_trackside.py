"""``dynoan trackside``: what it writes, says and refuses, and that its data are the library's."""

import json
import re

import pytest

from tests.cli.pages import small_library
from tests.library.calling import dynoan

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def library(tmp_path_factory):
    return small_library(tmp_path_factory.getbasetemp())


@pytest.fixture(scope="module")
def data(library):
    out = library / "page.html"
    done = dynoan("trackside", "kestrel", "--out", out, "--library", library, "--json")
    assert (done.code, done.result["car"], done.result["packs"]) == (0, "kestrel", ["gravel", "mixed"])
    assert done.result["bytes"] == out.stat().st_size < 2_000_000
    return json.loads(re.search(r'id="data">(.*?)</script>', out.read_text(encoding="utf-8"), re.DOTALL)[1])


def test_people_are_told_file_size_and_packs(library, tmp_path):
    done = dynoan("trackside", "kestrel", "--pack", "mixed", "--no-launch", "--out", tmp_path / "k.html",
                  "--library", library)  # fmt: skip
    assert re.search(r"k\.html: \d+ kB, packs mixed; open it in the phone's browser", done.out)
    assert [p.name for p in tmp_path.iterdir()] == ["k.html"]


def test_choices_are_those_of_choose_as_each_shock_counts(library, data):
    ranked = dynoan("choose", "kestrel", "--packs", "gravel,mixed", "--library", library, "--json").result["choices"]
    for axle in ("front", "rear"):
        page = [c for c in data["choices"] if c["where"] == axle]
        wanted = [c for c in ranked if c["where"] == axle][: len(page)]
        assert len(page) == 5
        assert [c["pack"] for c in page] == [c["pack"] for c in wanted]
        assert [c["miss"] for c in page] == pytest.approx([c["miss"] for c in wanted])
        for mine, other in zip(page, wanted, strict=True):
            left = next(iter(mine["clicks"].values()))
            assert left == other["clicks"]
            assert mine["standing"] == other["standing"]


def test_counting_is_that_of_the_shocks_files(library):
    path = library / "shocks" / "RL-03.toml"
    text = path.read_text(encoding="utf-8")
    assert isinstance(text, str)
    path.write_text(re.sub(r"(\[adjusters\.lsr\]\n)", r'\1counted = "from soft"\n', text), encoding="utf-8")
    try:
        out = library / "soft.html"
        assert dynoan("trackside", "kestrel", "--no-launch", "--out", out, "--library", library).code == 0
        found = json.loads(re.search(r'id="data">(.*?)</script>', out.read_text("utf-8"), re.DOTALL)[1])
    finally:
        path.write_text(text, encoding="utf-8")
    assert found["corners"]["rl"]["counting"]["gravel"]["lsr"]["soft"] is True
    assert found["corners"]["fl"]["counting"]["gravel"]["lsr"]["soft"] is False


def test_a_recorded_setup_shows_and_one_noted_on_the_page_is_recorded(library, data, tmp_path):
    day = ("--surface", "loose", "--good", "--result", "P1", "--date", "2026-05-02")
    done = dynoan("setup", "record", "kestrel", *day, "--library", library, "--json")
    assert done.code == 0
    out = library / "with.html"
    dynoan("trackside", "kestrel", "--no-launch", "--out", out, "--library", library)
    found = json.loads(re.search(r'id="data">(.*?)</script>', out.read_text("utf-8"), re.DOTALL)[1])
    assert (found["setups"][0]["date"], found["setups"][0]["good"]) == ("2026-05-02", True)
    noted = tmp_path / "noted.toml"
    rows = ['setup.car = "kestrel"', 'setup.date = "2026-06-13"', "", found["car_text"]]
    for name, corner in found["corners"].items():
        clicks = ",".join(f"{a}={c}" for a, c in corner["clicks"].items())
        rows += [found["corner_text"][name], f'mass = "{corner["mass"]} kg"', f'spring = "{corner["spring"]} N/m"',
                 f'pack = "{corner["pack"]}"', f'clicks = "{clicks}"', ""]  # fmt: skip
    noted.write_text("\n".join(rows), encoding="utf-8")
    kept = dynoan("setup", "record", "--from", noted, "--library", library, "--json")
    assert kept.code == 0, kept.err


@pytest.mark.parametrize(
    ("words", "said"),
    [(("nobody",), "kestrel"), (("kestrel", "--pack", "ice"), "gravel, mixed"),
     (("kestrel", "--no-launch", "--out", "/nowhere/at/all.html"), "there is no folder")],
)  # fmt: skip
def test_what_cannot_be_done_is_one_line_that_helps(library, words, said):
    done = dynoan("trackside", *words, "--library", library)
    assert done.code == 2
    assert said in done.err
    assert "\n" not in done.err
