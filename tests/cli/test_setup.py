"""``dynoan setup``: recording, listing, comparing and recalling what was on the car."""

from __future__ import annotations

import datetime

import pytest

from dynoan.library import Library
from tests.library.calling import dynoan
from tests.library.made import CAR


@pytest.fixture
def library(tmp_path, monkeypatch):
    library = Library.create(tmp_path / "lib")
    (library.path / "cars" / "kestrel.toml").write_text(CAR)
    monkeypatch.chdir(library.path)
    monkeypatch.delenv("DYNOAN_LIBRARY", raising=False)
    return library


def record(*words):
    done = dynoan("setup", "record", "kestrel", *words, "--json")
    assert done.code == 0, done.err
    return done.result["setup"]


def test_a_setup_is_kept_word_for_word_with_the_days_facts(library):
    how = ("--surface", "loose", "--temperature", "18 °C", "--result", "2nd of 9", "--good")
    kept = record(*how, "--date", "2026-05-02", "--remarks", 'rear loose on exit\n"worse" when hot')
    assert (kept["name"], kept["good"], kept["temperature_c"]) == ("2026-05-02-kestrel", True, 18.0)
    text = (library.path / kept["file"]).read_text()
    assert text.endswith(CAR)
    assert 'spring = "275 lb/in"   # US springs' in text
    setup = library.setup(kept["name"])
    assert setup.remarks == 'rear loose on exit\n"worse" when hot'
    assert setup.car.corners["fl"].clicks == {"lsc": 8, "lsr": 10}


def test_today_is_the_day_where_none_is_given(library):
    before = datetime.datetime.now().replace(microsecond=0)
    assert before <= datetime.datetime.fromisoformat(record()["date"]) <= datetime.datetime.now()


def test_setups_of_one_day_get_names_of_their_own_and_stay_in_order(library):
    names = [record("--date", "2026-05-02", "--remarks", str(n))["name"] for n in range(12)]
    assert names[:2] == ["2026-05-02-kestrel", "2026-05-02-kestrel-2"]
    listed = dynoan("setup", "list", "--json").result["setups"]
    assert [s["remarks"] for s in listed] == [str(n) for n in range(12)]


def test_the_last_good_one_for_a_surface_is_recalled(library):
    record("--surface", "loose", "--good", "--date", "2026-05-02")
    record("--surface", "sticky", "--good", "--date", "2026-06-02")
    record("--surface", "loose", "--bad", "--date", "2026-07-02")
    record("--surface", "loose", "--date", "2026-08-02")
    assert dynoan("setup", "recall", "--surface", "Loose", "--json").result["setup"]["date"] == "2026-05-02"
    assert dynoan("setup", "recall", "--json").result["setup"]["date"] == "2026-06-02"
    assert dynoan("setup", "recall", "2026-07-02-kestrel", "--json").result["setup"]["good"] is False
    done = dynoan("setup", "recall", "--surface", "wet", "--json")
    assert (done.code, done.result["setup"]) == (1, None)


def test_a_surface_that_is_nearly_a_known_one_is_doubted_and_kept(library):
    record("--surface", "loose", "--date", "2026-05-02")
    slip = dynoan("setup", "record", "kestrel", "--surface", "lose", "--date", "2026-06-02")
    assert "surface 'lose' is new (did you mean 'loose'?)" in slip.err
    assert [day.surface for day in library.setups()] == ["loose", "lose"]
    for sure in ("LOOSE", "wet grass", "lose"):
        done = dynoan("setup", "record", "kestrel", "--surface", sure)
        assert (done.code, "did you mean" in done.err) == (0, False)


def test_a_recalled_car_is_the_text_its_team_wrote_and_nothing_is_written_over(library):
    record("--surface", "loose", "--good")
    (library.path / "cars" / "kestrel.toml").write_text(CAR.replace("2430", "2500"))
    done = dynoan("setup", "recall", "--to", "cars/kestrel.toml")
    assert done.code == 2
    assert "--force" in done.err
    assert "2500" in (library.path / "cars" / "kestrel.toml").read_text()
    assert dynoan("setup", "recall", "--to", "cars/again.toml").code == 0
    assert (library.path / "cars" / "again.toml").read_text() == CAR
    assert dynoan("setup", "recall", "--to", "cars/kestrel.toml", "--force").code == 2, "the library's own stay"
    assert "2500" in (library.path / "cars" / "kestrel.toml").read_text()
    (library.path / "mine.toml").write_text("else")
    assert dynoan("setup", "recall", "--to", "mine.toml").code == 2
    assert dynoan("setup", "recall", "--to", "mine.toml", "--force").code == 0
    assert (library.path / "mine.toml").read_text() == CAR
    assert dynoan("setup", "recall", "--to", "cars/kestrel.txt").code == 2


def test_compare_shows_what_differs_and_only_that(library):
    record("--date", "2026-05-02", "--surface", "loose")
    changed = CAR.replace("lsc=8,lsr=10", "lsc=9,lsr=10").replace("38 N/mm", "42 N/mm")
    (library.path / "cars" / "kestrel.toml").write_text(changed)
    record("--date", "2026-05-02", "--surface", "loose")
    done = dynoan("setup", "compare", "2026-05-02-kestrel", "2026-05-02-kestrel-2", "--json")
    found = {d["what"]: (d["a"], d["b"]) for d in done.result["differences"]}
    assert found == {
        "front left lsc": (8, 9),
        "rear left spring": (38_000.0, 42_000.0),
        "rear right spring": (38_000.0, 42_000.0),
    }
    shown = dynoan("setup", "compare", "2026-05-02-kestrel", "2026-05-02-kestrel-2", "--units", "us").out
    assert "217 lb/in" in shown  # 38 N/mm / (0.45359237 · 9.80665 / 0.0254 N/m), NIST SP 811
    same = dynoan("setup", "compare", "2026-05-02-kestrel", "2026-05-02-kestrel")
    assert "do not differ" in same.out


def test_a_setup_from_the_phone_is_taken_in(library, tmp_path):
    page = 'setup.car = "kestrel"\nsetup.date = "2026-05-03"\nsetup.surface = "loose"\nsetup.good = true\n\n' + CAR
    (tmp_path / "from phone.toml").write_text(page)
    done = dynoan("setup", "record", "--from", tmp_path / "from phone.toml", "--result", "P3", "--json")
    kept = done.result["setup"]
    assert (kept["name"], kept["result"], kept["surface"]) == ("2026-05-03-kestrel", "P3", "loose")
    assert (library.path / kept["file"]).read_text().endswith(CAR)


def test_a_setup_with_its_facts_in_a_table_at_the_end_is_read_too(library, tmp_path):
    (tmp_path / "typed.toml").write_text(CAR + '\n[setup]\ncar = "kestrel"\ndate = 2026-05-04\nextra.tyres = "soft"\n')
    kept = dynoan("setup", "record", "--from", tmp_path / "typed.toml", "--json").result["setup"]
    setup = library.setup(kept["name"])
    assert (setup.date, setup.extra) == ("2026-05-04", {"tyres": "soft"})
    assert dynoan("setup", "recall", kept["name"], "--to", "cars/back.toml").code == 0
    assert library.car("back").corners == setup.car.corners


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("record",), "name either a CAR or a file"),
        (("record", "kestrel", "--from", "cars/kestrel.toml"), "name either a CAR or a file"),
        (("record", "kestral"), "did you mean 'kestrel'"),
        (("record", "kestrel", "--date", "yesterday"), "write it like 2026-05-02"),
        (("record", "kestrel", "--temperature", "18"), "has no unit"),
        (("record", "kestrel", "--temperature", "180 °C"), "no weather"),
        (("record", "kestrel", "--remarks", "x" * 30_000), "shorten"),
        (("record", "--from", "cars/kestrel.toml"), "setup.date: missing"),
        (("record", "--from", "/dev/zero"), "not a regular file"),
        (("recall", "nothing"), "no setup 'nothing'"),
        (("compare", "a", "../../etc/passwd"), "no setup 'a'"),
    ],
)
def test_a_call_that_cannot_be_is_one_line_and_keeps_nothing(library, words, says):
    done = dynoan("setup", *words)
    assert done.code == 2
    assert says in done.err
    assert "\n" not in done.err.strip()
    assert library.setups() == ()


def test_a_setup_that_was_edited_wrongly_is_named_and_the_rest_listed(library):
    record("--date", "2026-05-02")
    (library.path / "setups" / "2026-05-09-kestrel.toml").write_text(CAR)
    done = dynoan("setup", "list", "--json")
    assert [s["name"] for s in done.result["setups"]] == ["2026-05-02-kestrel"]
    assert "setups/2026-05-09-kestrel.toml" in done.warnings[0]
    assert "setup.date" in done.warnings[0]


def test_the_days_temperature_stands_in_the_librarys_units(library):
    marker = library.path / "dynoan.toml"
    marker.write_text(marker.read_text().replace('"metric"', '"us"'))
    kept = record("--temperature", "64 F", "--date", "2026-05-02")
    path = library.path / kept["file"]
    assert 'setup.temperature = "64 °F"' in path.read_text()
    assert kept["temperature_c"] == pytest.approx(32 / 1.8)
    assert dynoan("setup", "edit", kept["name"], "--temperature", "72 deg F").code == 0
    text = path.read_text()
    assert 'setup.temperature = "72 °F"' in text
    assert "°C" not in text
