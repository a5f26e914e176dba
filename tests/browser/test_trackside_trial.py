"""A trial's runs noted on the phone page: a number, two buttons, and a file that the trial takes in at home."""

from dataclasses import replace

import pytest

from dynoan.jobs.trial.results import timed_runs
from dynoan.model.trial import Trial, TrialRun
from dynoan.show.pages.trackside.build import build_trackside
from tests.browser.conftest import LAYOUT_FAULTS, SMALL_TARGETS
from tests.show.cars import made_view

pytestmark = pytest.mark.browser
START = Trial("start", "rear=@lsr=6", "rear=@lsr=10", True, "s", runs=(TrialRun("a", 4.9, "4.9 s"),))


@pytest.fixture(scope="module")
def html():
    return build_trackside(replace(made_view(), trials=(START,)))


def note(page, side, text):
    page.fill("#trial-result", text)
    page.click(f"#trial-{side}")


def test_noted_runs_go_into_the_trial_at_home(opened, html, tmp_path):
    page = opened(html, own=True)
    assert page.input_value("#trial-name") == "start"
    assert "Next: b" in page.text_content("#trial-what")
    for side, text in (("b", "4,71"), ("b", "1:02.5"), ("a", "4.8"), ("b", "9")):
        note(page, side, text)
    page.click("#trial-back")
    page.reload()  # what was noted is still there
    assert page.locator("#trial-runs li").all_text_contents() == ["b 4.71", "b 62.5", "a 4.8"]
    with page.expect_download() as waiting:
        page.click("#trial-save")
    path = tmp_path / waiting.value.suggested_filename
    waiting.value.save_as(path)
    assert path.name.startswith("start-runs-")
    assert f"dynoan trial run start --from {path.name}" in page.text_content("#trial-saved")
    found, how = timed_runs(path, START)
    assert [(r.setting, r.text) for r in found] == [("b", "4.71 s"), ("b", "62.5 s"), ("a", "4.8 s")]
    assert "settings as the file has them" in how


def test_a_trial_of_another_name_keeps_results_without_a_unit(opened, html, tmp_path):
    page = opened(html)
    page.fill("#trial-name", "tyre pressure")
    note(page, "a", "55.1")
    note(page, "b", "55.9")
    page.click("#trial-copy")
    path = tmp_path / "runs.csv"
    path.write_text(page.input_value("#trial-text"))
    found, _ = timed_runs(path, replace(START, name="tyre pressure", unit="points"))
    assert [(r.setting, r.text) for r in found] == [("a", "55.1"), ("b", "55.9")]


def test_a_result_may_bear_the_unit_of_its_trial(opened, html):
    page = opened(html)
    page.fill("#trial-name", "start")
    note(page, "a", "4.9 s")
    note(page, "b", "4.8 kg")
    assert page.locator("#trial-runs li").all_inner_texts() == ["a 4.9"]


def test_what_is_no_number_is_not_noted(opened, html):
    page = opened(html)
    note(page, "a", "quick")
    assert page.locator("#trial-runs li").count() == 0
    assert "Write a number first" in page.text_content("#trial-fault")


def test_buttons_are_big_and_nothing_overflows(opened, html):
    page = opened(html, 360, 640)
    note(page, "a", "4.8")
    page.click("#trial-copy")
    assert page.locator("#trial-a").bounding_box()["height"] >= 80
    page.evaluate("scrollTo(0, 0)")
    assert page.evaluate(SMALL_TARGETS) == []
    assert page.evaluate(LAYOUT_FAULTS) == []
