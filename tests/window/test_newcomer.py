"""The newcomer's way: from an empty folder to clicks in the car's file and a page on the disk, nothing typed.

He drops what lies in a folder of his: the dyno shop's runs, one of them nameless, and the files of car and shocks.
"""

from base64 import b64encode

import pytest

from tests.browser.conftest import PATIENCE_MS
from tests.once import lent_fits
from tests.window.conftest import DEMO
from tests.window.served import Served, entered

pytestmark = [pytest.mark.browser, pytest.mark.slow]
MOST_ACTIONS = 16
DROPPED = (*sorted((DEMO / "dyno").iterdir()), DEMO / "unlabelled.csv", DEMO / "cars" / "kestrel.toml",
           *sorted((DEMO / "shocks").iterdir()))  # fmt: skip
#: as a browser makes of files that are let go over a page
TRANSFER = """files => files.reduce((all, [name, data]) => {
  all.items.add(new File([Uint8Array.from(atob(data), (c) => c.charCodeAt(0))], name));
  return all;
}, new DataTransfer())"""


class Hand:
    """A hand that counts what it does."""

    def __init__(self, page):
        self.page = page
        self.actions = 0

    def press(self, name, role="button", nth=0):
        self.actions += 1
        self.page.get_by_role(role, name=name).nth(nth).click()
        self.page.wait_for_load_state()

    def drop(self, paths):
        self.actions += 1
        files = [[path.name, b64encode(path.read_bytes()).decode()] for path in paths]
        transfer = self.page.evaluate_handle(TRANSFER, files)
        self.page.dispatch_event("#drop", "drop", {"dataTransfer": transfer})

    def save(self, name):
        self.actions += 1
        with self.page.expect_download(timeout=PATIENCE_MS) as download:
            self.page.get_by_role("button", name=name).first.click()
        return download.value


def test_from_an_empty_folder_to_a_saved_phone_page(chromium, tmp_path, tmp_path_factory):
    served = Served(tmp_path / "team")
    lent_fits(tmp_path_factory.getbasetemp(), tmp_path / "team")
    try:
        with entered(chromium, served) as page:
            hand = Hand(page)
            page.get_by_text("Nothing here yet").wait_for()
            hand.drop(DROPPED)
            page.get_by_text("28 files looked at, 28 can be kept").wait_for()
            hand.press("Keep all 28")
            page.get_by_text("Kept: car kestrel").wait_for()
            hand.press("Packs", "link")
            served.wait()
            page.locator("[data-reload]").first.wait_for(state="detached")  # else it shows itself anew under the hand
            hand.press("Which pack is this?")
            page.get_by_role("heading", name="this is tarmac").wait_for()
            hand.press("Call it that")
            hand.press("Curves", "link")
            page.locator("svg.curve path.line").first.wait_for()
            hand.press("Add a setting")
            hand.press("low-speed compression, one click stiffer")
            hand.press("Car", "link")
            page.get_by_role("heading", name="Damping ratios now").wait_for()
            hand.press("Use the best on both axles")
            page.get_by_text("This would change in the file of kestrel").wait_for()
            hand.press("Write it into the car's file")
            hand.press("Log book", "link")
            hand.press("Keep it")
            saved = hand.save("Make and save the page for the phone")
            path = tmp_path / "phone.html"
            saved.save_as(path)
            assert page.seen.complaints == []
            assert {url.partition("/enter")[0] for url in page.seen.requests if served.base not in url} == set()
        assert hand.actions <= MOST_ACTIONS
        assert "kestrel" in path.read_text().lower()
        best = served.desk.library.car("kestrel")
        (day,) = served.desk.library.setups()
        assert day.car.corners["fl"].clicks == best.corners["fl"].clicks
        assert served.desk.library.check().faults == ()
    finally:
        served.close()
