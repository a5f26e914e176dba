"""Logged travel for a car's report: what a log does not say is asked, and the report shows it as `travel` does."""

import re

import numpy as np
import pytest

from dynoan.jobs.travel import TravelQuestion, answer
from dynoan.reading import read_log
from dynoan.workbench import Workbench
from tests.show.pages.test_report import read
from tests.window.conftest import BASE, DEMO

LOG = DEMO / "travel" / "kestrel_loose_run3.csv"


@pytest.fixture(scope="module")
def volts(tmp_path_factory):
    """Two shocks of the demo's log as a logger without a calibration writes them."""
    found, path = read_log(LOG), tmp_path_factory.mktemp("logged") / "volts.csv"
    columns = [found.named(name).values[:800] for name in ("Time", "Shock FL", "Shock RL")]
    columns[1:] = [1 + travel / 25 for travel in columns[1:]]
    np.savetxt(path, np.column_stack(columns), "%.5f", ",", header="Time [s],POT_1 [V],POT_2 [V]", comments="")
    return path


def bring(window, path, **more):
    headers = {"Origin": BASE, "Referer": f"{BASE}/log/travel?car=kestrel"}
    sent = [("files", (path.name, path.read_bytes()))]
    return window.browser.post("/log/travel/bring", data={"car": "kestrel"} | more, files=sent, headers=headers).text


def made(window):
    told = window.post("/log/make", {"kind": "report", "car": "kestrel"}).text
    window.wait()
    return told, window.get("/log/save?kind=report&car=kestrel").text


def test_what_a_log_does_not_say_is_asked_then_the_report_has_it(demo, volts):
    assert "choose below which column is which shock" in bring(demo, volts)
    told, page = made(demo)
    assert "volts.csv cannot go into the report yet" in told
    assert "that page is not made" in page
    (lying,) = demo.desk.logs.files()
    said = {"car": "kestrel", "id": lying.id, "column.fl": "POT_1", "column.rl": "POT_2"}
    asked = demo.post("/log/travel/say", said).text
    assert "say below what one of it means, such as 25 mm per V" in asked
    assert re.search(r'name="scale" value=""[^>]* aria-invalid="true"', asked)
    assert "no length per unit" not in asked
    assert (
        "Front left: column &#39;POT_1&#39; at 250 Hz"
        in demo.post("/log/travel/say", said | {"scale": "25 mm per V"}).text
    )
    page = read(made(demo)[1])
    columns = {"fl": "POT_1", "rl": "POT_2"}
    question = TravelQuestion.asked(read_log(volts), car="kestrel", corner=columns, scale="25 mm per V")
    peak = answer(Workbench.find(demo.desk.path), question).shocks[0].travel.parts["all"].peak["compression"]
    heads, first, *_ = page.tables["Speeds at the shock"]
    assert first[heads.index("Peak [mm/s]")] == f"{1000 * peak:.0f}"


def test_a_log_among_the_files_is_known_as_one_and_can_be_used(demo):
    demo.put(LOG.name, LOG.read_bytes())
    assert "This is no dyno run: it looks like shock travel logged on a car." in demo.get("/files").text
    (file,) = demo.desk.dropped.files()
    assert f"Use <bdi>{LOG.name}</bdi>" in demo.get("/log/travel?car=kestrel").text
    assert "the launch begins at" in demo.post("/log/travel/bring", {"car": "kestrel", "id": file.id}).text
    assert demo.desk.dropped.files() == []
    assert f"With logged travel in the report: <bdi>{LOG.name}</bdi>" in demo.get("/log").text


def test_a_log_taken_off_comes_back_by_undo_with_what_was_said_of_it(demo, volts):
    bring(demo, volts)
    (lying,) = demo.desk.logs.files()
    demo.post("/log/travel/say", {"car": "kestrel", "id": lying.id, "column.fl": "POT_1", "scale": "25 mm per V"})
    demo.post("/log/travel/off", {"car": "kestrel", "id": lying.id})
    assert demo.desk.logs.files() == []
    demo.post("/undo")
    assert demo.desk.logs.files()[0].facts.plain["scale"] == "25 mm per V"
