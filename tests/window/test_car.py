"""The car: its form, its ratios, what is put on, what if, and its file, which is shown before it is written."""

import random
import re
import threading
from itertools import product

import pytest

from dynoan.library import car_changes
from dynoan.library.text_edit import with_values
from dynoan.model.car import ROAD_CLASSES, Surface
from dynoan.window.launching import road_words
from dynoan.window.saying_cars import doubts_of
from tests.cli.launch_library import make
from tests.often import often_together
from tests.window.conftest import Window

FORM = {
    "name": "kite", "front.spring": "45 N/mm", "rear.spring": "217 lb/in", "front.unsprung": "34 kg",
    "rear.unsprung": "32 kg", "front.spring_ratio": "0.95", "rear.spring_ratio": "0.9", "front.shock_ratio": "0.92",
    "rear.shock_ratio": "0.88", "front.pack": "gravel", "rear.pack": "gravel", "front.clicks": "lsc=8,lsr=10",
    "rear.clicks": "lsc=8,lsr=10", **{f"{c}.mass": "255 kg" for c in ("fl", "fr", "rl", "rr")},
}  # fmt: skip
LEVELS = [(d, level) for d in ("compression", "rebound") for level in ("low", "high")]


def text(window, name="kestrel"):
    return (window.desk.path / "cars" / f"{name}.toml").read_text()


def shown(page):
    """The form that a page of a change holds."""
    import html

    mark = re.search(r'name="mark" value="([0-9a-f]+)"', page)[1]
    body = re.search(r'<textarea name="text" hidden>\n?(.*?)</textarea>', page, re.DOTALL)[1]
    return {"mark": mark, "text": html.unescape(body)}


def test_without_a_car_the_form_is_offered(window):
    page = window.get("/car").text
    assert "No car yet" in page
    assert "What is measured where" in window.get("/car/edit").text


def test_all_that_is_wrong_with_a_form_stands_at_its_fields_at_once(demo):
    wrong = {"fl.mass": "268 N", "rl.mass": "2410", "front.spring": "-45", "front.spring_ratio": "12"}
    page = demo.post("/car/check", FORM | wrong).text
    assert "4 things to put right" in page
    for said in ("no unit of mass", "2410 kg is outside", "-45 N/mm is outside", "many people quote the inverse"):
        assert page.count(said) == 1, said
    assert "kite" not in demo.desk.library.cars()


def test_a_car_is_made_from_the_form_and_taken_back(demo):
    assert "Car kite is in the library" in demo.post("/car/check", FORM).text
    car = demo.desk.library.car("kite")
    assert car.corners["rl"].spring == pytest.approx(217 * 175.126835)
    assert "Damping ratios now" in demo.get("/car?car=kite").text
    demo.post("/undo")
    assert "kite" not in demo.desk.library.cars()


@pytest.mark.parametrize(
    ("key", "value", "said"),
    [
        ("front.spring", "45 kg", "N/mm"), ("fl.mass", "", "needed"), ("rear.spring_ratio", "much", "no number"),
        ("front.clicks", "lsc=x", "lsc"), ("fl.mass", "8000 kg", "outside"), ("front.unsprung", "400 kg", "outside"),
    ],
)  # fmt: skip
def test_a_fault_stands_at_its_field_and_nothing_is_written(looked_at, key, value, said):
    answer = looked_at.post("/car/check", FORM | {key: value})
    assert answer.status_code == 422
    at = answer.text.split(f'id="x-{key}">')[1].split("<")[0]
    assert said in at
    assert 'value="217 lb/in"' in answer.text
    assert "kite" not in looked_at.desk.library.cars()


def test_a_known_car_is_changed_only_after_the_change_was_shown(demo):
    before = text(demo)
    page = demo.post("/car/check", {"name": "kestrel", "front.spring": "50 N/mm"}).text
    assert "50 N/mm" in page
    assert text(demo) == before
    demo.post("/car/keep", {"car": "kestrel", **shown(page)})
    assert text(demo) == before.replace('spring = "45 N/mm"', 'spring = "50 N/mm"')
    demo.post("/undo")
    assert text(demo) == before


def test_a_file_changed_elsewhere_meanwhile_is_not_overwritten(demo):
    page = demo.post("/car/put-on", {"car": "kestrel", "front.spring": "50 N/mm"}).text
    path = demo.desk.path / "cars" / "kestrel.toml"
    path.write_text(text(demo) + "# mine\n")
    assert "changed elsewhere" in demo.post("/car/keep", {"car": "kestrel", **shown(page)}).text
    assert text(demo).endswith("# mine\n")


def test_a_change_that_is_shown_has_an_address_of_its_own(demo):
    """Back, forward and reload find it again; once it is written the address leads to the car."""
    answer = demo.post("/car/put-on", {"car": "kestrel", "front.spring": "50 N/mm"})
    assert answer.url.path == "/car/change"
    again = demo.get(f"{answer.url.path}?{answer.url.query.decode()}")
    assert shown(again.text) == shown(answer.text)
    demo.post("/car/keep", {"car": "kestrel", **shown(again.text)})
    later = demo.get(f"{answer.url.path}?{answer.url.query.decode()}")
    assert later.url.path == "/car"
    assert "begin with how the car is now" in later.text


def test_what_is_kept_must_be_a_car(demo):
    page = demo.post("/car/put-on", {"car": "kestrel", "front.spring": "50 N/mm"}).text
    before = text(demo)
    demo.post("/car/keep", {"car": "kestrel", **shown(page), "text": "nonsense = ["})
    assert text(demo) == before


def test_the_ranked_setting_is_put_on(demo):
    best = demo.get("/api/choose?car=kestrel&count=6").json()["result"]["choices"][0]
    page = demo.get("/car?car=kestrel").text
    clicks = ", ".join(f"{k} {v}" for k, v in best["clicks"].items())
    assert f"Use this on {best['where']}: {best['pack']} {clicks}" in page
    written = ",".join(f"{k}={v}" for k, v in best["clicks"].items())
    asked = {f"{c}.clicks": written for c in best["clicks_by_corner"]}
    asked |= {f"{c}.pack": best["pack"] for c in best["clicks_by_corner"]}
    demo.post("/car/keep", {"car": "kestrel", **shown(demo.post("/car/put-on", {"car": "kestrel", **asked}).text)})
    car = demo.desk.library.car("kestrel")
    assert {car.corners[c].pack for c in best["clicks_by_corner"]} == {best["pack"]}
    assert all(dict(car.corners[c].clicks) == best["clicks"] for c in best["clicks_by_corner"])
    assert "# The Kestrel" in text(demo)


def changes(count, seed):
    rng = random.Random(seed)
    for _ in range(count):
        yield {
            "front.spring": f"{rng.randint(30, 70)} N/mm", "rear.spring": f"{rng.randint(180, 320)} lb/in",
            "fl.mass": f"{rng.randint(220, 300)} kg", "rear.pack": rng.choice(["gravel", "mixed", "tarmac"]),
            "front.clicks": f"lsc={rng.randint(0, 20)},hsr={rng.randint(0, 20)}",
        }  # fmt: skip


def held_against(demo, changed):
    mine = demo.get("/car/data", params={"car": "kestrel", **changed}).json()["corners"]
    what = ";".join(f"{k}={v}" for k, v in changed.items())
    told = demo.get("/api/ratio", params={"car": "kestrel", "what": what}).json()["result"]["what"][1]["result"]
    for name, corner in told["corners"].items():
        for d, level in LEVELS:
            assert mine[name]["ratio"][d][level] == pytest.approx(corner["ratio"][d][level], rel=1e-12)
            assert mine[name]["ratio_limits"][d][level] == pytest.approx(corner["ratio_limits"][d][level], rel=1e-12)
        assert mine[name]["wheel_rate_n_m"] == corner["wheel_rate_n_m"]


def corner_facts(car):
    return {c.name: (c.spring, c.mass, c.pack, dict(c.clicks)) for c in car.corners.values()}


@pytest.mark.parametrize(
    ("tried", "own"),
    [(next(changes(1, seed=5)), False), ({"fl.clicks": "lsr=3"}, True),
     *(pytest.param(*both, marks=pytest.mark.thorough)
       for both in product([*changes(5, seed=5), {"fl.clicks": "lsr=3"}, {"rear.clicks": "hsc=0"}], (False, True)))],
)  # fmt: skip
def test_what_is_written_is_the_car_that_what_if_showed(demo, tried, own):
    """A click turned alone leaves the other clicks of the file, be they the axle's or the corner's own."""
    if own:
        at = demo.desk.path / "cars" / "kestrel.toml"
        at.write_text(with_values(at.read_text(), {("fl", "clicks"): "lsc=1,hsc=2,lsr=5,hsr=4"}))
    was = demo.desk.library.car("kestrel")
    demo.post("/car/keep", {"car": "kestrel", **shown(demo.post("/car/put-on", {"car": "kestrel", **tried}).text)})
    now = demo.desk.library.car("kestrel")
    assert corner_facts(now) == corner_facts(car_changes.changed(was, tried))
    assert all(len(c.clicks) == 4 for c in now.corners.values())


@pytest.mark.parametrize("changed", list(changes(2, seed=3)))
def test_what_if_is_the_command_lines(looked_at, changed):
    held_against(looked_at, changed)


@pytest.mark.thorough
def test_fifty_times_what_if_is_the_command_lines(looked_at):
    for changed in changes(50, seed=4):
        held_against(looked_at, changed)


def test_the_page_shows_the_command_lines_ratios(looked_at):
    page = looked_at.get("/car?car=kestrel").text
    for corner in looked_at.get("/api/ratio?car=kestrel").json()["result"]["corners"].values():
        for d, level in LEVELS:
            limits = corner["ratio_limits"][d][level]
            assert f'<b class="ratio">{corner["ratio"][d][level]:.2f}</b>' in page
            assert f"{limits['low']:.2f} to {limits['high']:.2f}" in page


@pytest.mark.parametrize(
    ("units", "unit", "rate"), often_together(1, [("us", "lb/in", 45 * 175.126835), ("metric", "N/mm", 45e3)])
)
def test_a_form_takes_bare_numbers_in_the_unit_behind_the_field(demo, units, unit, rate):
    demo.post("/units", {"units": units, "then": "/car"})
    page = demo.get("/car/edit").text
    assert f'<span class="unit">{unit}</span>' in page
    assert "placeholder" not in page
    demo.post("/car/check", {"rear.shock_ratio": "", **{k: v for k, v in FORM.items() if "shock_ratio" not in k},
                             "front.shock_ratio": "0.92", "front.spring": "45"})  # fmt: skip
    corners = demo.desk.library.car("kite").corners
    assert corners["fl"].spring == pytest.approx(rate)
    assert (corners["fl"].shock_ratio, corners["rl"].shock_ratio) == (0.92, corners["rl"].spring_ratio)


def test_a_new_car_has_its_shocks_where_their_names_say_and_clicks_from_a_field_each(demo):
    page = demo.get("/car/edit").text
    assert re.search(r'name="rr.shock"[^>]*><option value=""></option>.*?<option selected>RR-04', page, re.DOTALL)
    asked = {k: v for k, v in FORM.items() if "clicks" not in k} | {"front.clicks.lsc": "7", "front.clicks.hsr": "3"}
    demo.post("/car/check", asked)
    assert dict(demo.desk.library.car("kite").corners["fr"].clicks) == {"lsc": 7, "hsr": 3}


@pytest.mark.parametrize("evil", ["front.spring=hard", "front.spring=-1 N/mm", "fl.mass=1e999 kg", "rear.pack=none"])
def test_a_change_that_cannot_be_is_told(looked_at, evil):
    key, _, value = evil.partition("=")
    answer = looked_at.get("/car/data", params={"car": "kestrel", key: value})
    assert answer.status_code == 400
    assert answer.json()["error"]


@pytest.mark.parametrize(("units", "written"), often_together(1, [("us", "55 lb/in"), ("metric", "55 N/mm")]))
def test_a_bare_number_is_in_the_unit_of_its_field(demo, units, written):
    demo.post("/units", {"units": units, "then": "/car"})
    bare = demo.get("/car/data", params={"car": "kestrel", "front.spring": "55"}).json()
    assert bare == demo.get("/car/data", params={"car": "kestrel", "front.spring": written}).json()
    assert f"Spring [{written.split()[1]}]" in demo.get("/car?car=kestrel").text


def test_what_is_refused_is_named_as_its_field_is(looked_at):
    told = looked_at.get("/car/data", params={"car": "kestrel", "front.spring": "hard"}).json()["error"]
    assert told.startswith("Spring front: 'hard' is not a number with a unit; write it like '")


def test_a_change_is_shown_in_words(looked_at):
    tried = {"car": "kestrel", "front.spring": "55 N/mm", "fl.mass": "270 kg", "rear.clicks": "lsc=3"}
    page = looked_at.post("/car/put-on", tried).text
    rows = re.findall(r'<th scope="row">(.*?)</th>.*?<bdi>(.*?)</bdi>.*?<bdi>(.*?)</bdi>', page)
    assert ("Spring rate, front axle", "45 N/mm", "55 N/mm") in rows
    assert ("Weight, front left", "268 kg", "270 kg") in rows
    assert ("Clicks, rear axle", "lsc 8, hsc 12, lsr 10, hsr 12", "lsc 3, hsc 12, lsr 10, hsr 12") in rows
    seen = re.sub(r"<textarea.*?</textarea>", "", page, flags=re.DOTALL)
    assert not any(sign in seen for sign in ("[front]", "spring =", "lsc=3"))


@pytest.mark.thorough
def test_a_bar_hole_is_tried_in_the_launch_and_written(demo):
    page = demo.get("/car?car=kestrel&links.holes.lower=2").text
    assert "Holes of the rear links" in page
    asked = {"car": "kestrel", "links.holes.lower": "2"}
    made = shown(demo.post("/car/put-on", asked).text)
    demo.post("/car/keep", {"car": "kestrel", **made})
    assert demo.desk.library.car("kestrel").links.members["lower"].hole == "2"
    assert "lower = 2," in text(demo)


@pytest.mark.thorough
@pytest.mark.slow
def test_the_launch_with_another_bar_hole_is_the_command_lines(demo):
    demo.post("/car/launch", {"car": "kestrel", "links.holes.lower": "2", "surface": "sticky"})
    demo.wait()
    found = demo.get("/car/launch/data?car=kestrel&links.holes.lower=2&surface=sticky").json()["runs"][0]
    what = demo.get("/api/launch?car=kestrel&surface=sticky&what=links.holes.lower=2").json()["result"]["what"]
    told = what[1]["result"]["runs"][0]["metrics"]["level_rear_squat_m"]
    squat = next(f for f in found["figures"] if f["words"].startswith("rear: deepest squat"))
    assert squat["value"] == f"{1000 * told:.1f} mm"
    for name in ("front_rise_m", "rear_rise_m", "front_wheel_height_m"):
        bands = zip(found["low"][name], found["lines"][name], found["high"][name], strict=True)
        assert all(low <= value <= high for low, value, high in bands)


@pytest.mark.thorough
def test_aims_are_offered_where_none_is_set(demo):
    bare = with_values(text(demo), {})
    bare = bare[: bare.index("# Damping ratios wanted at")] + bare[bare.index("[surfaces.sticky]") :]
    (demo.desk.path / "cars" / "bare.toml").write_text(bare)
    page = demo.get("/car?car=bare").text
    assert "What do you want of it?" in page
    assert not any(words in page for words in ("Ranked settings", "what would fit", "springs of about", "[targets"))
    said = demo.get("/api/choose?car=bare&surface=loose").json()["result"]["advice"]
    for start in ("compression 0.24 low and 0.18 high, rebound 0.40 and 0.30", "leaves the ground: nearer"):
        assert start in page  # what the command proposes, with the same reason
        assert start in said[0]
    assert not any("springs of" in text or "a pack like" in text for text in said)
    demo.post("/car/aim", {"car": "bare", "aim": "loose"})
    assert demo.desk.library.car("bare").targets["front"].rebound.low == 0.40
    assert "Ranked settings" in demo.get("/car?car=bare").text
    demo.post("/undo")
    assert not demo.desk.library.car("bare").targets


@pytest.mark.thorough
def test_one_line_stays_with_the_widest_gap_and_puts_the_best_on_both_axles(demo):
    page = demo.get("/car?car=kestrel").text
    line = page[page.index('class="car-line"') : page.index('class="parts"')]
    corners = demo.get("/api/ratio?car=kestrel").json()["result"]["corners"]
    wanted = {c: demo.desk.library.car("kestrel").targets_of({"f": "front", "r": "rear"}[c[0]]) for c in corners}
    off = [
        one["ratio"][d][level] / getattr(getattr(wanted[c], d), level) - 1
        for c, one in corners.items() for d, level in LEVELS
    ]  # fmt: skip
    assert f"{100 * max(off, key=abs):+.0f} %".replace("-", "−") in line
    best = dict(re.findall(r'name="(\w\w\.\w+)" value="([^"]*)"', line))
    demo.post("/car/keep", {"car": "kestrel", **shown(demo.post("/car/put-on", {"car": "kestrel", **best}).text)})
    page = demo.get("/car?car=kestrel").text
    assert "The best of your packs is on" in page
    assert page.count("on the car</b>") == 2


def test_what_is_missing_is_told_without_names_of_files_and_keys():
    pack = 'cars/k.toml: fl.pack is missing, so its damping ratios are left out; write it like pack = "wet"'
    told = doubts_of([pack, "cars/k.toml: wheelbase is missing; the swings of the whole car (its modes) need it"])
    assert told == ["Wheelbase is missing; the swings of the whole car (its modes) need it"]
    assert doubts_of(["cars/k.toml: rr.shock: A is at the rear left too"]) == [
        "Shock, rear right: A is at the rear left too"
    ]


def test_the_road_of_a_picture_is_named_by_its_class():
    assert road_words(Surface("s", 1.0)) == "level road"
    assert road_words(Surface("s", 1.0, ROAD_CLASSES["D"])) == "rough road D"
    assert road_words(Surface("s", 1.0, 1.3 * ROAD_CLASSES["C"])) == "rough road, near C"


@pytest.mark.slow
def test_the_launch_is_reckoned_beside_and_shown(demo):
    demo.post("/car/launch", {"car": "kestrel"})
    demo.wait()
    told = demo.get("/api/launch?car=kestrel").json()["result"]["runs"]
    found = demo.get("/car/launch/data?car=kestrel").json()["runs"]
    assert [run["label"] for run in found] == ["sticky", "loose"]
    for mine, run in zip(found, told, strict=True):
        rise = next(f for f in mine["figures"] if f["words"].startswith("nose: highest rise"))
        assert rise["value"] == f"{1000 * run['metrics']['level_nose_rise_m']:.1f} mm"
        assert max(mine["lines"]["front_rise_m"]) <= run["metrics"]["nose_rise_m"] + 1e-9
        drawn = next(f for f in mine["figures"] if f["words"] == f"nose: highest rise, {mine['ground'][5:]}")
        assert drawn["value"] == f"{1000 * run['metrics']['nose_rise_m']:.1f} mm"


@pytest.mark.slow
@pytest.mark.parametrize(("key", "card"), [("launch", "launch"), ("aim", "aims"), ("page", None)])
def test_only_what_was_asked_for_is_said_to_be_reckoned(looked_at, key, card):
    go_on = threading.Event()
    looked_at.desk.works.begin(f"{key} of a test", "Something", lambda _: go_on.wait(300), lane="test")
    page = looked_at.get("/car?car=kestrel").text
    go_on.set()
    looked_at.wait()
    told = {
        at: "It is being reckoned" in page.split(f'id="{at}"')[1].split("</section>")[0] for at in ("launch", "aims")
    }
    assert told == {at: at == card for at in ("launch", "aims")}


@pytest.mark.thorough
def test_a_launch_is_run_on_the_surfaces_that_are_ticked(demo):
    page = demo.get("/car?car=kestrel").text
    assert re.findall(r'name="surface" value="(\w+)" checked', page) == ["sticky", "loose"]
    assert "surface=loose#launch" in str(demo.post("/car/launch", {"car": "kestrel", "surface": "loose"}).url)
    demo.wait()
    found = demo.get("/car/launch/data?car=kestrel&surface=loose").json()["runs"]
    assert [run["label"] for run in found] == ["loose"]
    told = demo.get("/api/launch?car=kestrel&surface=loose").json()["result"]["runs"]
    rise = next(f for f in found[0]["figures"] if f["words"].startswith("nose: highest rise"))
    assert rise["value"] == f"{1000 * told[0]['metrics']['level_nose_rise_m']:.1f} mm"
    page = demo.get("/car?car=kestrel&surface=loose").text
    assert re.findall(r'name="surface" value="(\w+)" checked', page) == ["loose"]
    assert "data-run" in page


@pytest.fixture
def few_clicks(tmp_path, monkeypatch):
    """A window over a car whose adjusters have five clicks each: every setting of an axle is soon run."""
    made = Window(make(tmp_path / "few", monkeypatch))
    yield made
    made.desk.close()


@pytest.mark.thorough
def test_clicks_for_a_launch_are_the_command_lines_and_go_into_the_file(few_clicks):
    now = few_clicks.get("/api/launch?car=kestrel&surface=sticky").json()["result"]["runs"][0]["metrics"]
    limit = f"{970 * now['level_nose_rise_rate_m_s']:.0f}"
    asked = {"car": "kestrel", "surface": "sticky", "wish": "nose-rate", "limit": limit, "axle": "front"}
    few_clicks.post("/car/aims", asked)
    few_clicks.wait()
    page = few_clicks.get("/car?car=kestrel").text
    aims = f"nose slower than {limit} mm/s"
    told = few_clicks.get(f"/api/choose?car=kestrel&axle=front&surface=sticky&aim={aims}").json()["result"]
    change = {c["where"]: c["change"] for c in told["choices"] if c["change"]}
    assert aims in page
    assert f"({told['searched']} settings run)" in page
    assert change
    clicks = {corner: ",".join(f"{k}={v}" for k, v in one.items()) for corner, one in change.items()}
    for corner, text_of_it in clicks.items():
        assert f'name="{corner}.clicks" value="{text_of_it}"' in page
    asked = {"car": "kestrel"} | {f"{k}.clicks": v for k, v in clicks.items()}
    few_clicks.post("/car/keep", {"car": "kestrel", **shown(few_clicks.post("/car/put-on", asked).text)})
    assert change["fl"].items() <= few_clicks.desk.library.car("kestrel").corners["fl"].clicks.items()


@pytest.mark.parametrize("given", [{"wish": "nose"}, {"wish": "nothing"}, {"wish": "nose", "limit": "3 kg"}])
def test_an_aim_that_cannot_be_is_told(looked_at, given):
    page = looked_at.post("/car/aims", {"car": "kestrel", "surface": "sticky", **given}).text
    at_its_field = 'id="x-limit"' in page
    assert at_its_field == (given["wish"] == "nose")
    assert ('class="said wrong"' in page) != at_its_field
    assert "Traceback" not in page


def test_the_curves_drawn_on_the_car_are_those_of_the_screen_curves(looked_at):
    turned = {"car": "kestrel", "front.clicks": "lsc=3,lsr=17", "rear.clicks": "lsc=4,hsr=13", "rear.pack": "tarmac"}
    curves = looked_at.get("/car/data", params=turned).json()["curves"]
    for corner, one in curves.items():
        shock = looked_at.desk.library.car("kestrel").corners[corner].shock
        pack, _, clicks = one["what"].partition("@")
        asked = {"s": f"shock={shock},pack={pack},{clicks}"}
        told = looked_at.get("/curves/data", params=asked).json()["curves"][0]
        assert one["standing"] == told["standing"] != "tested"
        for direction, line in told["lines"].items():
            for key, values in line.items():
                off = 6e-6 if key == "velocity_m_s" else 0.051
                assert one["lines"][direction][key] == pytest.approx(values, abs=off), "what rounding leaves"
    assert set(curves) == {"fl", "fr", "rl", "rr"}


@pytest.mark.thorough
def test_ratios_are_told_at_the_round_speeds_of_the_units_that_are_shown(demo):
    assert "10 in/s" not in demo.get("/car?car=kestrel").text
    page = demo.post("/units", {"units": "us", "then": "/car?car=kestrel"}).text
    assert "10.0 in/s" in page
    assert "9.8 in/s" not in page
    demo.post("/undo")
    assert "250 mm/s" in demo.get("/car?car=kestrel").text
