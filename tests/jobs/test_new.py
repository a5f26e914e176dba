"""Files to fill in, and everything that is wrong with one, at once."""

from __future__ import annotations

import re

import pytest

from dynoan.errors import CallError
from dynoan.jobs.new import NewQuestion, answer
from dynoan.library import Library, car_keys
from dynoan.library.templates import CAR
from dynoan.show import presenting
from dynoan.show.text.blocks import Look
from dynoan.units import HINTED
from dynoan.workbench import Workbench
from tests.library.made import CAR as KESTREL

WRONG = """wheelbse = "95 in"
cg_height = 20
driven = "back"
[front]
unsprung = 75 lb
spring = "260"
spring_ratio = 0.95
motion_ratio = 0.92
[rear]
unsprung = "75 lb"
spring = "260 lb/in"
spring_ratio = 9.5
shock_ratio = 0.92
clicks = "c=8;x=3"
[fl]
weight = "590 lb"
[fr]
mass = "590 lbs"
[rl]
mass = "530 lb"
[rr]
[surfaces.loose]
mu = 0.6
"""


@pytest.fixture(params=["metric", "us"])
def bench(request, tmp_path):
    token = HINTED.set(request.param)
    yield Workbench(Library.create(tmp_path / "team", units=request.param))
    HINTED.reset(token)


def asked(bench, kind, name, **values):
    adjusters = values.pop("adjusters", None)
    return answer(bench, NewQuestion.asked(kind, name, {k.replace("__", "."): v for k, v in values.items()}, adjusters))


def test_a_new_car_is_written_with_all_it_needs_named(bench):
    found = asked(bench, "car", "club")
    assert (found.written, found.no, found.file) == (True, False, "cars/club.toml")
    assert {f.key for f in found.faults} == {b.key for b in CAR if b.needed}
    text = bench.library.path.joinpath("cars/club.toml").read_text(encoding="utf-8")
    assert ("260 lb/in" in text) == (bench.library.units == "us")
    assert ("45 N/mm" in text) == (bench.library.units == "metric")
    for fault in found.faults:
        assert text.splitlines()[fault.line - 1].startswith(fault.key.split(".")[1])


def test_a_car_filled_in_with_its_own_examples_is_one(bench):
    values = {
        b.key: b.example(bench.library.units) for b in CAR if not b.key.endswith("axle_mass")
    }  # each wheel has its own
    found = answer(bench, NewQuestion("car", "club", values))
    assert found.faults == ()
    car = bench.library.car("club")
    assert car.corners["fl"].mass == pytest.approx(268, rel=0.01)
    assert car.wheelbase == pytest.approx(2.43, rel=0.01)


def test_what_is_commented_out_could_stand_there_too(bench):
    values = {b.key: b.example(bench.library.units) for b in CAR if b.needed}
    answer(bench, NewQuestion("car", "club", values))
    file = bench.library.path / "cars" / "club.toml"
    lines = file.read_text(encoding="utf-8").splitlines()
    sets = re.compile(r"# (\[[\w.]+\]$|\w+ = )")  # a table, or a key with its value
    bare = [line.removeprefix("# ") if sets.match(line) else line for line in lines]
    stand_ins = ("antisquat = ", "axle_mass = ")  # the links stand in its place, the masses of the wheels do
    bare = [line for line in bare if not line.startswith(stand_ins)]
    file.write_text("\n".join(bare), encoding="utf-8")
    again = answer(bench, NewQuestion("car", "club"))
    assert (again.written, again.faults) == (False, ())
    car = bench.library.car("club")
    assert set(car.targets) == {"front", "rear"}
    assert list(car.links.members["lower"].body) == ["1", "2"]
    assert (car.extras.engine.ratio, car.extras.bar.behind) == (10.4, pytest.approx(1.2, rel=0.01))
    assert car.surfaces["loose"].sliding_grip == 0.55
    assert car.extras.anti_roll["rear"] == pytest.approx(9e3, rel=0.05)


def test_every_key_that_a_car_file_knows_stands_in_a_new_one(bench):
    answer(bench, NewQuestion("car", "club", {}))
    text = bench.library.path.joinpath("cars/club.toml").read_text(encoding="utf-8")
    known = {*car_keys.TOP, *car_keys.CORNER, *car_keys.OF_AXLE} - {"front", "rear", "instant_centre"}
    assert [key for key in sorted(known) if not re.search(rf"\b{key}\b", text)] == []


def test_all_faults_are_named_at_once_with_line_and_nearest_key(bench):
    (bench.library.path / "cars" / "bad.toml").write_text(WRONG, encoding="utf-8")
    found = asked(bench, "car", "bad")
    assert found.no
    by_line = {f.line: f"{f.key}: {f.text}" for f in found.faults}
    assert {1, 2, 3, 5, 6, 8, 14, 16, 21, 23} <= set(by_line)
    for line, words in {
        1: "'wheelbase'",
        5: '"75 lb"',
        6: "no unit",
        8: "'shock_ratio'",
        16: "'mass'",
        23: "'grip'",
    }.items():
        assert words in by_line[line]
    assert by_line[12].startswith("rear.spring_ratio: 9.5 is outside")  # as it stands there, not "rl.spring_ratio"
    assert len(found.faults) == 11


def test_another_word_at_the_top_is_told_where_its_key_stands_and_no_fault_follows_from_it(bench):
    text = WRONG.partition("[surfaces")[0].replace('wheelbse = "95 in"', 'weight = "820 lb"')
    (bench.library.path / "cars" / "bad.toml").write_text(text, encoding="utf-8")
    faults = {f.key: f.text for f in asked(bench, "car", "bad").faults}
    assert "did you mean 'mass'?" in faults["weight"]
    assert "[fl]" in faults["weight"]
    assert faults["cg_height"].startswith("'20' has no unit")


def test_a_shock_gets_the_adjusters_named_and_says_what_is_missing(bench):
    found = asked(bench, "shock", "FL-21", adjusters="c,r")
    assert {f.key for f in found.faults} == {"adjusters.c.clicks", "adjusters.r.clicks"}
    sound = asked(bench, "shock", "FL-22", adjusters="c,r", c__clicks="20", r__clicks="24", r__counted="from soft")
    assert sound.faults == ()
    shock = bench.library.shock("FL-22")
    assert [(a.name, a.clicks, a.counted) for a in shock.adjusters] == [
        ("c", 20, "from closed"),
        ("r", 24, "from soft"),
    ]


def test_a_rod_as_thick_as_its_piston_is_refused(bench):
    (bench.library.path / "shocks" / "X.toml").write_text('rod = "50 mm"\npiston = "1.8 in"\n', encoding="utf-8")
    assert [f.key for f in asked(bench, "shock", "X").faults] == ["rod"]


def test_an_unknown_adjuster_is_refused(bench):
    with pytest.raises(CallError, match="no adjuster"):
        asked(bench, "shock", "FL-21", adjusters="knob")


def test_hopeless_text_is_one_fault(bench):
    (bench.library.path / "cars" / "odd.toml").write_text("[[[\n", encoding="utf-8")
    assert len(asked(bench, "car", "odd").faults) == 1


def test_check_names_every_fault_of_a_file(bench):
    (bench.library.path / "cars" / "bad.toml").write_text(WRONG, encoding="utf-8")
    faults = bench.library.check().faults
    assert {f.file for f in faults} == {"cars/bad.toml"}
    assert len(faults) == 11


def test_limits_are_told_in_the_units_people_are_shown(tmp_path):
    folder = tmp_path / "team"
    Library.create(folder)
    (folder / "cars").mkdir(exist_ok=True)
    (folder / "cars" / "club.toml").write_text(WRONG.replace('"590 lbs"', '"-5 lb"'))
    found = answer(Workbench.find(folder), NewQuestion("car", "club"))
    text = {units: str(presenting.blocks(found, Look(units))) for units in ("us", "metric")}
    assert "-5.000 lb is outside 44 lb to 4409 lb" in text["us"]
    assert "-2.268 kg is outside 20 kg to 2000 kg" in text["metric"]


def faults_of(bench, text):
    (bench.library.path / "cars" / "kestrel.toml").write_text(text)
    return answer(bench, NewQuestion("car", "kestrel"))


def test_a_bare_percentage_hides_no_other_fault_and_is_told_as_it_stands(bench):
    text = "\nantisquat = 30\n" + KESTREL.replace("shock_ratio = 0.92", "shock_ratio = 92")
    found = faults_of(bench, text).faults
    assert {(f.line, f.key) for f in found} >= {(2, "antisquat")}
    assert 'write "30 %"' in found[0].text
    assert "3000" not in found[0].text
    assert any("shock_ratio" in f.key for f in found)
    over = faults_of(bench, text.replace("antisquat = 30\n", 'antisquat = "3000 %"\n')).faults
    assert (2, "antisquat") in {(f.line, f.key) for f in over}
    assert len(over) == len(found)


def test_what_is_doubtful_but_no_fault_is_said_where_a_file_is_checked(bench):
    sound = faults_of(bench, KESTREL)
    assert not sound.faults
    assert not sound.warnings
    text = KESTREL.replace('mass = "262 kg"', 'mass = "320 kg"').replace("spring_ratio = 0.95", "spring_ratio = 1.6")
    odd = faults_of(bench, text.replace("510 mm", "52 in"))
    assert not odd.faults
    for says in ("268 and 320 kg", "is 54 % of the wheelbase", "the inverse, 1/1.6"):
        assert any(says in warning for warning in odd.warnings), says
    assert "nothing is wrong" not in str(presenting.blocks(odd, Look()))


def changed(bench, *pairs, name="kestrel"):
    """The faults and warnings of a sound car's file with pieces of its text replaced."""
    text = f"{KESTREL}[surfaces.loose]\ngrip = 0.65\n"
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    bench.library.write_text_file("cars", name, text)
    return asked(bench, "car", name)


class TestAllAtOnce:
    """Slips of the pen, impossible values and doubtful ones are told in one go, each once."""

    def test_what_mending_does_not_help_is_told_once_and_the_rest_too(self, bench):
        found = changed(
            bench, ('mass = "262 kg"', 'mass = "26.8 kg"'), ('spring = "38 N/mm"', 'spring = "38 N"'),
            ("grip = 0.65", "grip = 4.5"), ("spring_ratio = 0.95", "spring_ratio = 1.35"),
        )  # fmt: skip
        assert [f.key for f in found.faults] == ["front.unsprung", "rear.spring", "surfaces.loose.grip"]
        assert "1.35 would be more travel there than at the wheel" in " ".join(found.warnings)

    def test_a_table_that_cannot_be_mended_hides_nothing_behind_it(self, bench):
        engine = '[engine]\ntorque = [["9000 rpm", "170 N m"], ["1500 rpm", "225 N m"]]\nratio = 10\n'
        found = changed(bench, ("grip = 0.65", "grip = 4.5"), ("[fl]", f"{engine}[fl]"))
        assert [f.key for f in found.faults] == ["engine.torque", "surfaces.loose.grip"]

    def test_clicks_that_the_shock_does_not_have(self, bench):
        clicks = "".join(f'[adjusters.{a}]\nclicks = 12\ncounted = "from closed"\n' for a in ("lsc", "lsr"))
        bench.library.write_text_file("shocks", "FL-01", clicks)
        text = re.sub(r"clicks = .*", 'clicks = "lsc=40,lsr=3"', KESTREL)
        bench.library.write_text_file("cars", "far", text)
        told = [f for f in asked(Workbench(bench.library), "car", "far").faults if "lsc=40" in f.text]
        assert [f.key.rpartition(".")[2] for f in told] == ["clicks"]
        assert "0 to 12" in told[0].text
