"""Dropping files, looking at them, saying what is missing, keeping, and taking back."""

import shutil
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from dynoan.library import Library
from dynoan.window.dropped import Dropped
from dynoan.window.dropped_file import SaidOfFile
from dynoan.window.looks import spoken
from tests.window.conftest import DEMO, Window

RUN = DEMO / "dyno" / "FL-01_gravel_lsc10_hsc10_lsr10_hsr10.csv"
OTHER = DEMO / "dyno" / "FL-01_gravel_lsc10_hsc2_lsr2_hsr10.csv"
UNKNOWN = DEMO / "unlabelled.csv"
HOSTILE = "<script>alert(1)</script>'\"&.csv"


def drop(window, *paths):
    return [window.put(p.name, p.read_bytes()).json()["id"] for p in paths]


def test_an_empty_library_says_what_to_do_and_offers_the_demo(window):
    page = window.get("/").text
    assert "Nothing here yet" in page
    assert "demo" in page
    page = window.post("/files/demo").text
    assert "23 files looked at, 23 can be kept" in page
    assert window.desk.library.cars() == ("kestrel", "kestrel-winter")
    assert window.desk.library.records() == ()


def test_a_file_is_shown_and_kept_only_when_told_so(window):
    drop(window, RUN)
    page = window.get("/files").text
    assert "FL-01 · gravel · lsc 10, hsc 10, lsr 10, hsr 10" in page
    assert "stated at the column" in page
    assert window.desk.library.records() == ()
    assert "1 new run kept" in window.post("/files/keep").text
    (record,) = window.desk.library.records()
    assert (record.shock, record.pack, record.clicks["lsc"]) == ("FL-01", "gravel", 10)
    assert window.desk.dropped.files() == []


def test_the_same_file_again_adds_nothing_and_says_so(window):
    drop(window, RUN)
    window.post("/files/keep")
    drop(window, RUN)
    assert "In the library already" in window.get("/files").text
    assert "Nothing new: 1 run was in the library before" in window.post("/files/keep").text
    assert len(window.desk.library.records()) == 1


def test_keeping_is_taken_back_and_the_files_lie_there_again(window):
    ids = drop(window, RUN, UNKNOWN)
    window.post(f"/files/{ids[1]}/say", {"shock": "RL-03"})
    window.post("/files/keep")
    assert len(window.desk.library.records()) == 2
    assert "Taken back: 2 files kept" in window.post("/undo").text
    assert window.desk.library.records() == ()
    back = {f.name: f.facts.plain for f in window.desk.dropped.files()}
    assert back == {RUN.name: {}, UNKNOWN.name: {"shock": "RL-03"}}


def test_what_is_missing_is_asked_and_the_answer_changes_the_card(window):
    text = RUN.read_text().replace("Force [N]", "Force")
    window.put("bare.csv", text.encode())
    page = window.get("/files").text
    assert "In which unit is the force?" in page
    assert "0 can be kept" in page
    (file,) = window.desk.dropped.files()
    page = window.post(f"/files/{file.id}/say", {"unit.force": "N"}).text
    assert "1 can be kept" in page
    assert "In which unit" not in page


def test_which_day_a_date_means_is_asked_by_both_days(window):
    text = "Shock,FL-01\nPack,gravel\nClicks,r=4 c=6\nTest date,05/02/2026\nVelocity (mm/s),Force (N)\n"
    rows = "\n".join(f"{v},{v * 3}" for v in (-300, -200, -100, -50, 50, 100, 200, 300))
    window.put("run.csv", f"{text}{rows}\n".encode())
    page = window.get("/files").text
    assert "Which day was it?" in page
    assert "FL-01 · gravel · c 6, r 4" in page
    assert "--dates" not in page
    assert "Everything is known" not in page
    assert [day in page for day in ("5 February 2026", "2 May 2026")] == [True, True]
    (file,) = window.desk.dropped.files()
    page = window.post(f"/files/{file.id}/say", {"date": "2026-02-05"}).text
    assert "Which day" not in page
    window.post("/files/keep", {"id": file.id})
    (record,) = window.desk.library.records()
    assert record.date == "2026-02-05"
    assert not [text for text in window.desk.library.load(record.id).warnings if "--dates" in text]


def test_the_table_fills_empty_cells_down_a_column(window):
    window.fit_nothing()
    text = "time [s],displacement [mm],force [N]\n" + "\n".join(
        f"{i / 500},{10 * __import__('math').sin(i / 20):.4f},{300 * __import__('math').cos(i / 20):.2f}"
        for i in range(1500)
    )
    for i in range(3):
        window.put(f"run {i}.csv", f"{text}\n# {i}".encode())
    ids = [f.id for f in window.desk.dropped.files()]
    rows = {f"row.{i}.{part}": "" for i in ids for part in ("shock", "pack", "lsc", "date")}
    rows[f"row.{ids[0]}.pack"] = "wet"
    fill = {"fill.shock": "RL-03", "fill.pack": "gravel", "fill.lsc": "8", "fill.date": "2026-03-01"}
    window.post("/files/many", rows | fill)
    said = [f.facts.plain for f in window.desk.dropped.files()]
    assert [s["pack"] for s in said] == ["wet", "gravel", "gravel"]
    assert {(s["shock"], s["clicks"], s["date"]) for s in said} == {("RL-03", "lsc=8", "2026-03-01")}
    window.post("/files/keep")
    assert {(r.shock, r.clicks["lsc"], r.date[:10]) for r in window.desk.library.records()} == {
        ("RL-03", 8, "2026-03-01")
    }


def test_the_row_above_writes_over_nothing_that_a_file_says(window):
    (first,) = drop(window, RUN)
    rows = {f"row.{first}.{part}": "" for part in ("shock", "pack", "lsc")}
    window.post("/files/many", rows | {"fill.shock": "RL-03", "fill.pack": "wet", "fill.lsc": "1"})
    assert window.desk.dropped.get(first).facts.plain == {}


def test_what_is_written_beside_a_file_is_said_of_it_when_it_is_kept(window):
    """Written and not set before Keep was pressed, a shock and a pack were gone, the run kept as unknown."""
    window.fit_nothing()
    (file_id,) = drop(window, UNKNOWN)
    window.post("/files/keep", {"id": file_id, "shock": "RL-07", "pack": "wet", "lsc": "3", "lsr": ""})
    (record,) = window.desk.library.records()
    assert (record.shock, record.pack, dict(record.clicks)) == ("RL-07", "wet", {"lsc": 3})


def test_keep_all_takes_what_stands_in_the_table(window):
    window.fit_nothing()
    ids = drop(window, RUN, UNKNOWN)
    rows = {f"row.{i}.{part}": "" for i in ids for part in ("shock", "pack", "date")}
    window.post("/files/keep", rows | {"fill.shock": "RL-07", "fill.pack": "wet"})
    assert {r.pack for r in window.desk.library.records()} == {"gravel", "wet"}


def test_an_answer_pressed_counts_beside_a_field_left_empty(window):
    (file_id,) = drop(window, UNKNOWN)
    window.post(f"/files/{file_id}/say", {"unit.force": ["lbf", ""]})
    assert window.desk.dropped.get(file_id).facts.units == {"force": "lbf"}


def test_nothing_dropped_is_lost_by_a_restart(window):
    (file_id,) = drop(window, UNKNOWN)
    window.post(f"/files/{file_id}/say", {"shock": "RL-03"})
    again = Window(window.desk.path)
    page = again.get("/files").text
    assert UNKNOWN.name in page
    assert "RL-03" in page


def test_hostile_names_are_text(window):
    window.put("%3Cscript%3Ealert(1)%3C%2Fscript%3E.csv", RUN.read_bytes())
    (file,) = window.desk.dropped.files()
    window.post(f"/files/{file.id}/say", {"shock": HOSTILE, "pack": "<img src=x onerror=alert(2)>"})
    page = window.get("/files").text
    assert "<script>alert" not in page
    assert "<img src=x" not in page
    assert "&lt;script&gt;alert(1)" in page
    window.post("/files/keep")
    for path in ("/files", "/packs", "/curves", "/car", "/log"):
        assert "<img src=x" not in window.get(path).text


@pytest.mark.parametrize("data", [b"\0" * 5000, b"PK\x03\x04" + b"\0" * 100, b"\xff\xfe" * 999, b"a,b\n1,2\n", b"["])
def test_a_wrong_file_is_told_and_cannot_be_kept(window, data):
    window.put("wrong.csv", data)
    page = window.get("/files")
    assert page.status_code == 200
    assert 'class="fault"' in page.text
    assert "0 can be kept" in page.text
    assert "nothing to keep" in window.post("/files/keep").text


def test_a_full_disk_keeps_nothing_and_says_so(window, monkeypatch):
    drop(window, RUN)

    def full(*_args, **_kw):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("dynoan.library.files.os.fsync", full)
    page = window.post("/files/keep").text
    assert "No space left" in page or "full" in page
    monkeypatch.undo()
    assert Library(window.desk.path).records() == ()
    assert [f.name for f in window.desk.dropped.files()] == [RUN.name]


def test_a_drop_onto_a_full_disk_is_told(window, monkeypatch):
    def full(*_args, **_kw):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("dynoan.library.files.os.fsync", full)
    answer = window.put(RUN.name, RUN.read_bytes())
    assert answer.status_code == 400
    monkeypatch.undo()
    assert window.desk.dropped.files() == []


def test_half_a_dropped_file_is_not_shown(window):
    folder = window.desk.path / "cache" / "dropped"
    folder.mkdir(parents=True)
    (folder / ".tmp-1-abc").write_bytes(b"half")
    (folder / "0123456789abcdef.bin").write_bytes(b"no card yet")
    (folder / "fedcba9876543210.json").write_text("{")
    assert Dropped(window.desk.path).files() == []
    assert window.get("/files").status_code == 200


@pytest.mark.parametrize("damage", ["a click", "half", "nothing"])
def test_what_was_said_of_a_dropped_file_is_believed_whole_or_not_at_all(window, damage):
    drop(window, RUN)
    shelf = window.desk.dropped
    (file,) = shelf.files()
    shelf.state(file.id, SaidOfFile({"clicks": "lsc=6", "pack": "gravel"}))
    assert shelf.get(file.id).facts.plain["clicks"] == "lsc=6"
    card = window.desk.path / "cache" / "dropped" / f"{file.id}.json"
    text = card.read_text()
    card.write_text({"a click": text.replace("lsc=6", "lsc=7"), "half": text[:40], "nothing": ""}[damage])
    (found,) = shelf.files()
    assert (found.facts, found.size) == (SaidOfFile(), file.size)
    assert "what was said of it is damaged" in found.name
    assert "what was said of it is damaged" in window.get("/files").text


def test_two_windows_on_one_library_see_the_same(window):
    other = Window(window.desk.path)
    drop(window, RUN)
    assert RUN.name in other.get("/files").text
    other.post("/files/keep")
    before = window.get("/state").json()["stamp"]
    assert before == other.get("/state").json()["stamp"]
    assert "Nothing here yet" not in window.get("/files").text
    assert [r.pack for r in window.desk.library.records()] == ["gravel"]


def test_a_tab_that_is_behind_can_tell(window):
    before = window.get("/state").json()["stamp"]
    shutil.copy(DEMO / "cars" / "kestrel.toml", window.desk.path / "cars" / "kestrel.toml")
    assert window.get("/state").json()["stamp"] != before


def test_a_library_that_is_gone_is_told_and_the_window_lives(window):
    drop(window, RUN)
    away = window.desk.path.with_name("away")
    window.desk.path.rename(away)
    for path in ("/files", "/packs"):
        assert window.get(path).status_code in (200, 400, 500)
    assert "kept" not in window.post("/files/keep").text.split("</header>")[-1].split("<footer")[0].replace(
        "kept when you say so", ""
    ).replace("kept before you say so", "")
    away.rename(window.desk.path)
    assert RUN.name in window.get("/files").text


def test_files_taken_off_are_laid_there_again_with_what_was_said(window):
    ids = drop(window, RUN, UNKNOWN)
    window.post(f"/files/{ids[1]}/say", {"shock": "RL-03"})
    assert "2 files taken off" in window.post("/files/off", {"id": ids}).text
    assert window.desk.dropped.files() == []
    later = Window(window.desk.path)
    assert "Taken back: 2 files taken off" in later.post("/undo").text
    assert {f.id: f.facts.plain for f in later.desk.dropped.files()} == {ids[0]: {}, ids[1]: {"shock": "RL-03"}}
    later.post("/files/off", {"id": ids[0]})
    drop(later, RUN)
    later.post("/undo")
    assert len(later.desk.dropped.files()) == 2, "dropped again meanwhile: there once"


def test_what_was_taken_off_does_not_fill_the_disk(window, monkeypatch):
    monkeypatch.setattr("dynoan.window.dropped.MOST_ASIDE", RUN.stat().st_size + 10)
    ids = drop(window, RUN, OTHER, UNKNOWN)
    for one in ids[:2]:
        window.post("/files/off", {"id": one})
    window.post("/files/off", {"id": ids[2]})
    lying = {p.name for p in (window.desk.path / "cache" / "dropped").iterdir()}
    assert f"{ids[0]}.bin.off" not in lying
    assert f"{ids[2]}.bin.off" in lying
    window.post("/undo")
    window.post("/undo")
    assert "Of 1 file nothing is left here: drop them again" in window.post("/undo").text


def test_what_reads_files_is_loaded_before_the_first_is_dropped(window, monkeypatch):
    loaded = threading.Event()
    monkeypatch.setattr("dynoan.window.files.load_ahead", loaded.set)
    monkeypatch.setattr(window.desk.workers, "warm", lambda: None)
    del window.desk.ready_to_read  # the real one
    window.get("/files")
    assert loaded.wait(300)


def test_what_was_looked_at_is_kept_without_reading_it_again(window, monkeypatch):
    (file_id,) = drop(window, RUN)
    window.get("/files")
    monkeypatch.setattr("dynoan.jobs.read.look.understand", None)
    window.post("/files/keep", {"id": file_id})
    assert len(window.desk.library.records()) == 1


def test_a_card_says_whether_gas_force_is_still_in(window):
    shop = Path(__file__).parents[2] / "fixtures" / "first" / "from-the-shop"
    window.put("table.csv", (shop / "FL-21_gravel_c10_r10.csv").read_bytes())
    page = window.get("/files").text
    assert "(as read)" in page
    assert "gas force still in" not in page, "the table says it was taken out"


def test_a_car_is_asked_for_the_clicks_that_its_shocks_have(window):
    shop = Path(__file__).parents[2] / "fixtures" / "first" / "from-the-shop"
    window.put("table.csv", (shop / "FL-21_gravel_c10_r10.csv").read_bytes())
    assert "front.clicks.lsc" in window.get("/car/edit").text
    window.post("/files/keep")
    page = window.get("/car/edit").text
    assert "front.clicks.c" in page
    assert "front.clicks.lsc" not in page


def test_an_option_in_brackets_goes_with_them():
    said = "what would fit: each side its own clicks: rl gravel lsc=6 (--per-corner); where one is worn, see to it"
    assert spoken(said) == "what would fit: each side its own clicks: rl gravel lsc=6; where one is worn, see to it"


def test_a_word_that_led_to_an_option_goes_with_it():
    said = "say which is which by --column velocity=NAME or --column force=NAME, and their units by --unit force=UNIT"
    assert spoken(said) == "say which is which, and their units"


def test_which_column_is_asked_before_its_unit(window):
    rows = "".join(f"{i},{2 * i},{3 * i}\n" for i in range(50))
    window.put("numbers.csv", f"a,b,c\n{rows}".encode())
    page = window.get("/files").text
    asked = [page.index(question) for question in ("Which column is the velocity?", "In which unit is the velocity?")]
    assert asked == sorted(asked)
    assert "units by" not in page


def test_one_file_is_it_and_two_are_they(window):
    drop(window, RUN)
    one = window.get("/files").text
    drop(window, OTHER)
    two = window.get("/files").text
    for page, known, button in ((one, "known of it.", "Remove it"), (two, "known of them.", "Remove all")):
        assert known in page
        assert f"<button>{button}</button>" in page


def test_one_more_file_costs_no_look_at_those_that_lie_here(window, monkeypatch):
    for i in range(5):
        window.desk.dropped.put(f"{i}.csv", b"a,b\n" + b"1,2\n" * i, float(i))
    monkeypatch.setattr("dynoan.window.dropped.files.read_bounded", None)
    assert window.desk.dropped.put("one more.csv", b"c,d\n", 9.0).name == "one more.csv"


_PATTERNS = """
import re._compiler, sys
from pathlib import Path
from dynoan.reading import read
from dynoan.window import ahead
if sys.argv[2] == "ahead":
    ahead.load_ahead()
before, compiled, compile = set(sys.modules), [], re._compiler.compile
re._compiler.compile = lambda *given: compiled.append(given) or compile(*given)
read(Path(sys.argv[1]))
print(len(compiled), *(name for name in ("pyarrow", "h5py") if name not in before))
"""


def test_the_first_dropped_file_waits_for_no_pattern_and_no_library():
    def left(how):
        told = subprocess.run(
            [sys.executable, "-c", _PATTERNS, str(RUN), how], capture_output=True, text=True, check=True
        )
        return told.stdout.split()

    patterns, *lacking = left("ahead")
    assert not lacking
    assert 20 * int(patterns) < int(left("not")[0])
