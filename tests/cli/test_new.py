"""``dynoan new``: asked for, and checked."""

from __future__ import annotations

import pytest
from click.testing import CliRunner

from dynoan.cli import main as shell
from dynoan.cli.main import cli
from dynoan.cli.new_asking import ask_for
from dynoan.errors import CallError
from dynoan.jobs.new import NewQuestion
from dynoan.library import Library
from dynoan.workbench import Workbench
from tests.library.made import CAR


def run(*words, typed=""):
    return CliRunner().invoke(cli, list(words), input=typed)


def test_asking_takes_what_is_typed_and_asks_again_where_it_cannot_be(tmp_path):
    team = str(tmp_path / "team")
    typed = "0.55\n0.55 in\n\n4.7 in\n\nc,r\n20\nmany\n24\nsofter\nfrom soft\n"
    done = run("new", "shock", "FL-21", "--ask", "--library", team, "--units", "us", typed=typed)
    assert done.exit_code == 0, done.output
    assert "'0.55' has no unit; write it like '0.55 in'" in done.output
    assert "'softer' is none of from closed, from soft" in done.output
    assert "'many' is no number" in done.output
    text = (tmp_path / "team" / "shocks" / "FL-21.toml").read_text(encoding="utf-8")
    assert 'rod = "0.55 in"' in text
    assert "clicks = 24" in text
    assert text.count('\ncounted = "from soft"') == 2
    assert run("new", "shock", "FL-21", "--library", team).exit_code == 0


def test_a_faulty_file_is_exit_1_and_a_new_one_is_not(tmp_path, capsys):
    words = ["new", "car", "club", "--library", "team"]
    assert shell.run(words, folder=tmp_path) == 0
    assert shell.run(words, folder=tmp_path) == 1
    assert "12 faults" in capsys.readouterr().out


def test_asking_for_a_car_takes_what_a_value_is_uncertain_by_and_leaves_out_what_few_need(tmp_path):
    axle = ["34 kg", "45 N/mm", "0.95", "0.92 ± 0.02", *[""] * 5]
    corners = ["268 kg", "", "262 kg", "", "241 kg", "", "247 kg", ""]
    typed = ["2430 mm", "510 ± kg", "510 ± 20 mm", "rear", "45 +- 15 %", *axle, *axle, *corners]
    done = run("new", "car", "club", "--ask", "--library", str(tmp_path / "team"), "--units", "metric",
               typed="\n".join([*typed, ""]))  # fmt: skip
    assert done.exit_code == 0, done.output
    assert "anti_roll" not in done.output.partition("wrote")[0]
    text = (tmp_path / "team" / "cars" / "club.toml").read_text(encoding="utf-8")
    assert 'shock_ratio = "0.92 ± 0.02"' in text
    assert "spring_ratio = 0.95" in text
    car = Library.find(tmp_path / "team").car("club")
    assert set(car.plus_minus) == {"cg_height", "antisquat", "front.shock_ratio", "rear.shock_ratio"}


def test_a_shock_and_a_pack_that_nothing_knows_are_named_with_what_was_meant(tmp_path, capsys):
    library = Library.create(tmp_path / "team")
    (tmp_path / "team" / "shocks").mkdir(exist_ok=True)
    (tmp_path / "team" / "shocks" / "FL-01.toml").write_text(
        "[adjusters.lsc]\nclicks = 20\n[adjusters.lsr]\nclicks = 20\n"
    )
    car = tmp_path / "team" / "cars" / "zz.toml"
    car.parent.mkdir(exist_ok=True)
    car.write_text(CAR)
    named = CAR.count('shock = "FL-01"')
    assert named
    assert shell.run(["new", "car", "zz"], folder=library.path) in (0, 1)
    before = capsys.readouterr().out
    assert "FL-01" not in before
    car.write_text(CAR.replace('shock = "FL-01"', 'shock = "FL-10"'))
    assert shell.run(["new", "car", "zz"], folder=library.path) == 1
    after = capsys.readouterr().out
    assert after.count("no run and no shock file knows 'FL-10'; did you mean 'FL-01'?") == named
    assert "if the name is right: dynoan new shock FL-10" in after


def test_what_is_empty_is_asked_for_with_an_example_of_that_key(tmp_path, capsys):
    words = ["new", "car", "club", "--library", "team", "--units", "us"]
    assert shell.run(words, folder=tmp_path) == 0
    lines = capsys.readouterr().out.splitlines()
    assert all("'75 lb'" in line for line in lines if ".unsprung" in line)
    assert all("'590 lb'" in line for line in lines if ".mass" in line)
    assert sum(".unsprung" in line for line in lines) == 2


def test_names_are_told_with_the_other_faults_of_a_file(tmp_path, capsys):
    library = Library.create(tmp_path / "team")
    for folder in ("cars", "shocks"):
        (tmp_path / "team" / folder).mkdir(exist_ok=True)
    (tmp_path / "team" / "shocks" / "FL-01.toml").write_text(
        "[adjusters.lsc]\nclicks = 20\n[adjusters.lsr]\nclicks = 20\n"
    )
    text = CAR.replace('shock = "FL-01"', 'shock = "FL-10"').replace('wheelbase = "2430 mm"', "wheelbase = 2430 mm")
    assert "2430 mm\n" in text
    (tmp_path / "team" / "cars" / "zz.toml").write_text(text)
    assert shell.run(["new", "car", "zz"], folder=library.path) == 1
    told = capsys.readouterr().out
    assert "put it in quotes" in told
    assert "'FL-10'" in told


def test_where_nothing_can_be_typed_asking_is_refused(tmp_path, monkeypatch):
    """A shell may start a program with its standard input closed."""
    bench = Workbench(Library.create(tmp_path))
    monkeypatch.setattr("sys.stdin", None)
    with pytest.raises(CallError, match="--ask: nothing can be typed here"):
        ask_for(bench, NewQuestion.asked("car", "otter", {}))


def test_what_an_american_types_makes_a_sound_file_and_wrong_answers_are_asked_again(tmp_path):
    """A number without its naught made a file that was no TOML; a wrong adjuster ended the asking."""
    axle = ["75 lbs", "260 #/in", ".95", ",92", "", "", "", "P1", "c8", "c=8;r=8"]
    corners = ["590 lbs", "", "578#", "", "1,531 lb", "531 lb", "", "545 lb", ""]
    typed = ["95 3/4 in", "95.7 in", "20 ± 1 in", "back", "rear", "60 percent", *axle, *axle, *corners]
    team = str(tmp_path / "team")
    done = run("new", "car", "bug", "--ask", "--library", team, "--units", "us", typed="\n".join([*typed, ""]))
    assert done.exit_code == 0, done.output
    assert "95.7 in is outside 2.0 in to 78.7 in" in done.output  # the wheelbase once more, at the height
    assert "'1,531 lb' can be read in two ways; write 1531 or 1.531" in done.output
    assert done.output.count("'c8' is not like") == 2
    assert "'back' is none of front, rear, all" in done.output
    car = Library.find(tmp_path / "team").car("bug")
    assert car.wheelbase == pytest.approx(95.75 * 0.0254)
    assert [c.spring_ratio for c in car.corners.values()] == [0.95] * 4
    assert car.corners["fl"].spring == pytest.approx(260 * 175.1268, rel=1e-6)
    assert dict(car.corners["rr"].clicks) == {"c": 8, "r": 8}
    typed = ["5/8 in", "", "", "145 psi", "foo", "c;r", "20", ".5.", "18", ""]
    done = run("new", "shock", "LF-1", "--ask", "--library", team, typed="\n".join([*typed, ""]))
    assert done.exit_code == 0, done.output
    assert [a.clicks for a in Library.find(tmp_path / "team").shock("LF-1").adjusters] == [20, 18]


@pytest.mark.parametrize("columns", [60, 80])
def test_questions_stand_in_whole_words_with_room_to_answer(tmp_path, monkeypatch, columns):
    monkeypatch.setenv("COLUMNS", str(columns))
    done = run("new", "car", "bug", "--ask", "--library", str(tmp_path / "team"), "--units", "us", typed="\n" * 60)
    lines = done.output.partition("filled in later.")[2].partition("wrote")[0].splitlines()
    assert len(lines) > 20
    assert max(map(len, lines)) <= columns - 12
    assert not any(line.rstrip().endswith("-") for line in lines)


def test_a_number_without_its_naught_is_told_how_it_is_written(tmp_path, capsys):
    assert shell.run(["new", "car", "zz", "--library", "team"], folder=tmp_path) == 0
    path = tmp_path / "team" / "cars" / "zz.toml"
    text = path.read_text(encoding="utf-8").replace('spring_ratio = ""', "spring_ratio = .95", 1)
    path.write_text(text.replace('shock_ratio = ""', "shock_ratio = 0,9", 1), encoding="utf-8")
    capsys.readouterr()
    assert shell.run(["new", "car", "zz", "--library", "team"], folder=tmp_path) == 1
    told = capsys.readouterr().out
    assert "write it 0.95" in told
    assert "write it 0.9 " in told or "write it 0.9\n" in told
