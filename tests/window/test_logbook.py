"""The log book: days kept, compared, recalled; trials; pages to save."""

import threading

import pytest

from tests.often import often
from tests.window.test_car import shown, text


def days(window):
    return window.desk.library.setups()


def keep(demo, **facts):
    return demo.post("/log/record", {"car": "kestrel", **facts}).text


def test_a_day_is_kept_word_for_word_and_taken_back(demo):
    keep(demo, surface="loose", result="2nd of 9", good="good", temperature="18", date="2026-03-22")
    (day,) = days(demo)
    assert (day.surface, day.result, day.good, day.temperature, day.date[:10]) == (
        "loose", "2nd of 9", True, 18.0, "2026-03-22",
    )  # fmt: skip
    page = demo.get("/log").text
    assert "Last good setup" in page
    assert "2nd of 9" in page
    demo.post("/undo")
    assert days(demo) == ()


def test_a_surface_that_is_nearly_one_of_the_cars_is_doubted(demo):
    assert "Surface &#39;lose&#39; is new (did you mean &#39;loose&#39;?)" in keep(demo, surface="lose")
    assert "is new" not in keep(demo, surface="loose")


def test_a_day_is_taken_out_and_undone(demo):
    keep(demo, surface="loose")
    (day,) = days(demo)
    demo.post("/log/remove", {"name": day.name})
    assert days(demo) == ()
    demo.post("/undo")
    assert [d.name for d in days(demo)] == [day.name]


def test_what_is_said_of_a_day_is_corrected_the_car_untouched(demo):
    keep(demo, surface="loose", result="2nd of 9", temperature="18", date="2026-03-22", remarks="wet")
    (day,) = days(demo)
    before = demo.desk.library.setup_text(day.name)
    page = demo.get(f"/log/edit?name={day.name}").text
    assert 'value="18"' in page
    facts = {"surface": "loose", "temperature": "18", "date": "2026-03-22", "remarks": "wet\r\nthen dry", "result": ""}
    page = demo.post("/log/correct", {"name": day.name, "good": "bad", **facts}).text
    assert "result, remarks, good" in page
    (right,) = days(demo)
    assert (right.result or "", right.remarks, right.good, right.temperature) == ("", "wet\nthen dry", False, 18.0)
    assert right.car == day.car
    demo.post("/undo")
    assert demo.desk.library.setup_text(day.name) == before
    assert "Nothing to write" in demo.post("/log/correct", {"name": day.name, "surface": "loose"}).text


def test_a_bare_temperature_is_in_the_unit_of_its_field(demo):
    demo.post("/units", {"units": "us", "then": "/log"})
    assert "Temperature [°F]" in demo.get("/log").text
    keep(demo, temperature="68")
    assert days(demo)[0].temperature == pytest.approx(20.0)


def test_a_run_is_struck_out_with_its_reason_and_counts_again(demo):
    demo.post("/log/trial", {"name": "start", "a": "rear lsr 10", "b": "rear lsr 6"})
    for setting, result in (("a", "4.90"), ("b", "5.70"), ("b", "4.71"), ("a", "4.91")):
        demo.post("/log/note", {"trial": "start", "setting": setting, "result": result})
    page = demo.post("/log/strike", {"trial": "start", "run": "2", "reason": "missed a gear"}).text
    assert "no: missed a gear" in page
    assert demo.get("/api/trial/show?name=start").json()["result"]["runs"][1]["struck"] == "missed a gear"
    page = demo.post("/log/strike", {"trial": "start", "run": "2"}).text
    assert "missed a gear" not in page
    demo.post("/undo")
    assert "no: missed a gear" in demo.get("/log?trial=start").text
    assert 'class="said wrong"' in demo.post("/log/strike", {"trial": "start", "run": "9", "reason": "x"}).text


def test_two_days_are_compared_and_the_good_one_put_back_on(demo):
    keep(demo, surface="loose", good="good", date="2026-03-22")
    before = text(demo)
    made = shown(demo.post("/car/put-on", {"car": "kestrel", "front.spring": "55 N/mm"}).text)
    demo.post("/car/keep", {"car": "kestrel", **made})
    keep(demo, surface="loose", good="bad", date="2026-04-01")
    one, other = (d.name for d in days(demo))
    page = demo.get(f"/log?a={one}&b={other}").text
    assert "45.0 N/mm" in page
    assert "55.0 N/mm" in page
    page = demo.post("/log/recall", {"name": one}).text
    assert "45 N/mm" in page
    assert text(demo) != before
    demo.post("/car/keep", {"car": "kestrel", **shown(page)})
    assert text(demo) == before


def test_a_card_says_what_goes_on_each_corner(demo):
    keep(demo, surface="loose", date="2026-03-22")
    page = demo.get(f"/log/card?name={days(demo)[0].name}").text
    for word in ("Front left", "Rear right", "gravel", "low-speed rebound", "clicks from closed"):
        assert word in page


@pytest.mark.parametrize("facts", [{"date": "yesterday"}, {"temperature": "hot"}, {"car": "nobody"}])
def test_what_cannot_be_is_told_and_nothing_is_kept(demo, facts):
    assert 'class="said wrong"' in keep(demo, **facts)
    assert days(demo) == ()


def test_a_trial_is_planned_noted_and_judged(demo):
    demo.post("/log/trial", {"name": "start", "a": "rear lsr 10", "b": "rear lsr 6", "unit": "s", "plan": "abba"})
    page = demo.get("/log?trial=start").text
    assert "Cannot tell yet" in page
    for setting, result in (("a", "4.90"), ("b", "4.70"), ("b", "4.71"), ("a", "4.91")):
        demo.post("/log/note", {"trial": "start", "setting": setting, "result": result})
    told = demo.get("/api/trial/show?name=start").json()["result"]
    assert [r["setting"] for r in told["runs"]] == ["a", "b", "b", "a"]
    words = {"b better": "b is better", "a better": "a is better", "cannot tell": "Cannot tell"}
    assert words[told["verdict"]] in demo.get("/log?trial=start").text
    demo.post("/undo")
    assert len(demo.get("/api/trial/show?name=start").json()["result"]["runs"]) == 3


@pytest.mark.slow
@pytest.mark.parametrize("kind", often(1, ["phone", "report"]))
def test_a_page_is_made_beside_and_saved(demo, kind):
    demo.post("/log/make", {"kind": kind, "car": "kestrel"})
    demo.wait()
    assert "Save the" in demo.get("/log").text
    answer = demo.get(f"/log/save?kind={kind}&car=kestrel")
    assert answer.headers["content-disposition"].startswith("attachment")
    assert "kestrel" in answer.text.lower()
    assert "http://" not in answer.text.replace("http://www.w3.org", "")


def test_a_page_that_is_not_made_is_told(demo):
    assert demo.get("/log/save?kind=phone&car=kestrel").status_code == 400
    assert demo.get("/log/save?kind=../x&car=kestrel").status_code == 400


def test_a_page_is_said_to_be_made_only_where_one_is(demo):
    going = threading.Event()
    other = demo.desk.works.begin("maps gravel", "Fitting curves", lambda _: going.wait(60), lane="other")
    page = demo.get("/log").text
    assert "Fitting curves" in page
    assert "A page is being made" not in page
    assert "Something is being reckoned" not in page
    demo.desk.works.begin("page phone kestrel", "Making a page", lambda _: going.wait(60), lane="pages")
    assert "A page is being made" in demo.get("/log").text
    going.set()
    assert other.over.wait(10)


def test_packs_that_are_being_fitted_are_not_asked_for_twice(demo, monkeypatch):
    going = threading.Event()
    monkeypatch.setattr(demo.desk, "packs_not_ready", list)
    monkeypatch.setattr(demo.desk, "_fit", lambda *_: going.wait(60))
    first = demo.desk.prepare(["gravel", "mixed", "tarmac"])
    assert demo.desk.prepare(["tarmac", "gravel"]) is first
    assert demo.desk.prepare(["other"]) is not first
    going.set()
    demo.wait()
