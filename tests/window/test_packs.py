"""What was tested, corrected, renamed, taken out and told apart, each with its way back."""

import re
import tomllib
from dataclasses import replace

import pytest

from dynoan.library import SweepRecord
from dynoan.library.text_edit import with_values
from dynoan.model.setup import Setup
from dynoan.window.grid import grid_of, part_of


def records(window):
    return window.desk.library.records()


def test_an_empty_library_leads_to_files(window):
    assert "Nothing tested yet" in window.get("/packs").text


def test_shocks_stand_by_packs_with_their_tested_settings(demo):
    page = demo.get("/packs").text
    assert "7 settings, 7 runs" in page
    assert "/curves?s=gravel%40lsc%3D10%2Chsc%3D10%2Clsr%3D10%2Chsr%3D10" in page


def test_a_worn_shock_has_a_badge_with_the_reason(demo):
    demo.get("/packs")
    demo.wait()
    page = demo.get("/packs").text
    assert "RR-04: changed" in page
    assert "rebound" in page.split("RR-04: changed")[1].split("</section>")[0]
    assert "2026-03-15 against 2025-10-04" in demo.get("/packs/health?shock=RR-04").text


def test_an_unknown_run_is_told_apart_and_written_down(demo):
    from tests.window.conftest import DEMO

    demo.put("unlabelled.csv", (DEMO / "unlabelled.csv").read_bytes())
    demo.post("/files/keep")
    (unknown,) = [r for r in records(demo) if not r.pack]
    demo.wait()
    page = demo.get(f"/packs?which={unknown.id}").text
    assert "this is <bdi>tarmac" in page
    demo.post("/packs/settle", {"id": unknown.id, "pack": "tarmac", "lsc": "7", "hsc": "12", "lsr": "9", "hsr": "6"})
    (known,) = [r for r in records(demo) if r.id == unknown.id]
    assert (known.pack, known.clicks) == ("tarmac", {"lsc": 7, "hsc": 12, "lsr": 9, "hsr": 6})
    demo.post("/undo")
    assert [r.id for r in records(demo) if not r.pack] == [unknown.id]


def test_runs_are_corrected_and_taken_out_and_both_can_be_undone(demo):
    demo.fit_nothing()
    before = {r.id: r for r in records(demo)}
    ids = [r.id for r in before.values() if r.pack == "mixed"][:2]
    demo.post("/packs/correct", {"id": ids, "pack": "wet", "lsc": "3", "do": "correct"})
    assert {(r.pack, r.clicks["lsc"]) for r in records(demo) if r.id in ids} == {("wet", 3)}
    demo.post("/undo")
    assert {r.id: r for r in records(demo)} == before
    demo.post("/packs/correct", {"id": ids, "do": "remove"})
    assert len(records(demo)) == len(before) - 2
    assert "Taken back" in demo.post("/undo").text
    assert {r.id: r for r in records(demo)} == before


@pytest.mark.thorough
def test_what_changed_again_since_is_not_taken_back(demo):
    (one, *_) = [r.id for r in records(demo)]
    demo.post("/packs/correct", {"id": one, "pack": "wet", "do": "correct"})
    demo.desk.library.edit(one, pack="elsewhere")
    assert "changed again since" in demo.post("/undo").text
    assert demo.desk.library.record(one).pack == "elsewhere"


def test_a_pack_is_renamed_in_runs_cars_and_setups_and_remarks_stay(demo):
    demo.fit_nothing()
    car = demo.desk.path / "cars" / "kestrel.toml"
    before = car.read_text()
    library = demo.desk.library
    library.record_setup(Setup("", library.car("kestrel"), "2026-05-02"), library.car_text("kestrel"))
    setups = {path: path.read_text() for path in (demo.desk.path / "setups").glob("*.toml")}
    assert any('pack = "gravel"' in text for text in setups.values())
    demo.post("/packs/rename", {"pack": "gravel", "to": "stones"})
    for path, text in setups.items():
        assert path.read_text() == text.replace('pack = "gravel"', 'pack = "stones"')
    assert "gravel" not in demo.desk.library.packs()
    after = car.read_text()
    assert after == before.replace('pack = "gravel"', 'pack = "stones"')
    assert "stones already" in demo.post("/packs/rename", {"pack": "mixed", "to": "stones"}).text.replace("&#39;", "")
    demo.post("/undo")
    assert "gravel" in demo.desk.library.packs()
    assert car.read_text() == before
    assert {path: path.read_text() for path in setups} == setups


def test_how_clicks_are_counted_is_written_down(demo):
    demo.fit_nothing()
    demo.post("/packs/counting", {"shock": "FR-02", "last.lsc": "20", "counted.lsc": "from soft"})
    shock = demo.desk.library.shock("FR-02")
    assert shock.adjuster("lsc").counted == "from soft"
    assert shock.adjuster("hsr").clicks == 20
    assert "Invented" in (demo.desk.path / "shocks" / "FR-02.toml").read_text()


def test_the_next_runs_make_a_sheet_for_the_shop(demo):
    page = demo.get("/packs?plan=tarmac&runs=3").text
    assert "Save the sheet" in page
    sheet = demo.get("/packs/sheet?plan=tarmac&runs=3")
    assert sheet.headers["content-disposition"].startswith("attachment")
    assert "<script" not in sheet.text
    rows = demo.get("/api/plan?pack=tarmac&runs=3").json()["result"]["runs"]
    assert f"{rows[0]['expected_gain_pct']:.1f} %" in page


def test_values_are_put_into_a_text_and_nothing_else_changes():
    text = '# mine\na = 1  # one\n[t]  # table\n"b" = "x # y"  # two\n\n[u]\nc = 3\n'
    made = with_values(text, {("a",): 5, ("t", "b"): "z", ("t", "d"): 0.5, ("new", "e"): 'q"', ("u", "c"): None})
    assert made == '# mine\na = 5  # one\n[t]  # table\n"b" = "z"  # two\nd = 0.5\n\n[u]\n\n[new]\ne = "q\\""\n'
    assert tomllib.loads(made)["new"]["e"] == 'q"'


def records_of(shocks, packs):
    one = SweepRecord("0" * 10, "", "", {"lsc": 3}, "trace", "2026-01-01", None, None, 10, "a.csv", "0" * 64)
    return [replace(one, shock=f"S-{s:03}", pack=f"pack {(s + p) % packs:02}") for s in range(shocks) for p in range(2)]


def test_of_many_shocks_a_part_is_shown_with_the_packs_it_has():
    grid = grid_of(records_of(100, 50))
    part = part_of(grid, "", 0)
    assert part.grid.shocks == tuple(f"S-{s:03}" for s in range(30))
    assert part.sparse
    assert part.packs_of("S-007") == ["pack 07", "pack 08"]
    assert (part.found, part.hidden, part.before, part.after) == (100, 0, None, 30)
    last = part_of(grid, "", 90)
    assert (last.grid.shocks[0], len(last.grid.shocks), last.before, last.after) == ("S-090", 10, 60, None)
    assert part_of(grid, "", 5000).first == 0


def test_shocks_and_packs_are_found_by_parts_of_their_names():
    grid = grid_of(records_of(100, 50))
    found = part_of(grid, "PACK 07", 0)
    assert found.grid.shocks == ("S-006", "S-007", "S-056", "S-057")
    assert found.grid.packs == ("pack 07",)
    assert not found.sparse
    assert found.packs_of("S-056") == ["pack 07"]
    assert part_of(grid, "s-057  Pack 08", 0).grid.cells.keys() == {("S-057", "pack 08")}
    assert part_of(grid, "nobody", 0).found == 0


def test_a_large_library_is_searched_on_the_screen_and_no_history_is_looked_at_unasked(window, monkeypatch):
    monkeypatch.setattr("dynoan.window.histories.UNASKED", 3)
    with window.desk.bench() as bench:
        bench.__dict__["records"] = tuple(
            replace(r, date=f"2026-0{1 + i % 2}-01", id=f"{i:010x}") for i, r in enumerate(records_of(40, 20))
        )
    page = window.get("/packs").text
    assert "Shocks 1 to 30 of 40" in page
    assert "has it changed?" in page
    assert not window.desk.works.under_way()
    found = window.get("/packs?find=S-039").text
    assert "Shocks 1 to 1 of 1 with “S-039”" in found
    assert "S-001</th>" not in found
    assert "No shock or pack is called that" in window.get("/packs?find=nobody").text


def test_of_a_shock_with_very_many_packs_the_first_are_shown_and_the_rest_are_counted():
    one = records_of(1, 1)[0]
    grid = grid_of([replace(one, pack=f"pack {i:02}", id=f"{i:010x}") for i in range(20)])
    part = part_of(grid, "", 0)
    assert part.packs_of(one.shock) == [f"pack {i:02}" for i in range(12)]
    assert part.hidden == 8


def test_a_setting_stated_in_another_order_is_the_same_setting():
    one = records_of(1, 1)[0]
    stated = [{"c": 4, "r": 6}, {"r": 6, "c": 4}]
    grid = grid_of([replace(one, clicks=clicks, id=f"{i:010x}") for i, clicks in enumerate(stated)])
    cell = part_of(grid, "", 0).cell(one.shock, one.pack)
    assert (cell.settings, cell.runs, [s.what for s in cell.shown]) == (1, 2, ["c=4,r=6"])


def test_runs_are_sorted_by_what_is_asked(looked_at):
    def column(by, at):
        page = looked_at.get(f"/packs/runs?by={by}").text
        return [re.sub("<.*?>", "", cell) for cell in re.findall(rf'<td data-label="{at}">(.*?)</td>', page)]

    for by, at in (("shock", "Shock"), ("pack", "Pack")):
        found = [name.replace("–", "") for name in column(by, at)]
        assert found == sorted(found)
        assert len(set(found)) > 1
    dates = [date.replace("–", "") for date in column("date", "Date")]
    assert dates == sorted(dates, reverse=True)
    assert len(set(dates)) > 1


def test_a_name_that_turns_writing_round_is_refused_and_shown_by_its_code(window):
    rows = "Time (s),Displacement (mm),Force (N)\n" + "".join(
        f"{i / 500},{12 * ((i % 40) - 20) / 20},{200 * (((i + 10) % 40) - 20) / 20}\n" for i in range(200)
    )
    window.put("odd.csv", f"Shock,S1\nPack,\u202egnp\nClicks,lsc=5\n{rows}".encode())
    page = window.get("/files").text
    assert "\u202e" not in page
    assert "<bdi>\\u202egnp</bdi>" in page
    assert "invisible character U+202E" in window.post("/files/keep").text
    assert window.desk.library.records() == ()
    asked = {"name": "kite", "front.pack": "a\u202eb"}
    assert "invisible character U+202E" in window.post("/car/check", asked).text
