"""A window over a library of its own, asked without a browser."""

from functools import partial
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from dynoan.cli.asking import ask
from dynoan.jobs.add import AddQuestion, answer
from dynoan.jobs.demo import make_library
from dynoan.library import Library
from dynoan.window.app import make_app
from dynoan.window.desk import Desk
from dynoan.window.guarding import Keys
from dynoan.workbench import Workbench
from tests.browser.conftest import axe_source, chromium  # noqa: F401
from tests.once import copied, laid, lent_fits

HOST = "127.0.0.1:8320"
BASE = f"http://{HOST}"
DEMO = Path(__file__).parents[2] / "fixtures" / "demo"


class Window:
    """A window and a browser's side of it that has come in."""

    def __init__(self, path):
        self.desk = Desk(Library.open_or_create(path))
        self.desk.fit_ahead = self.desk.ready_to_read = lambda *_: None  # processes that a test seldom needs
        self.keys = Keys(frozenset({HOST, "localhost:8320"}), 8320)
        self.app = make_app(self.desk, self.keys, ask)
        self.browser = TestClient(self.app, base_url=BASE, raise_server_exceptions=False, follow_redirects=True)
        self.browser.get(f"/enter?token={self.keys.token}")

    def stranger(self):
        return TestClient(self.app, base_url=BASE, raise_server_exceptions=False, follow_redirects=False)

    def get(self, path, **kw):
        return self.browser.get(path, **kw)

    def post(self, path, data=None, **kw):
        headers = {"Origin": BASE, "Referer": f"{BASE}/files"} | kw.pop("headers", {})
        return self.browser.post(path, data=data or {}, headers=headers, **kw)

    def put(self, name, data):
        return self.browser.put("/files/drop", content=data, headers={"Origin": BASE, "Dynoan-Name": name})

    def fit_nothing(self):
        """Begin no click maps: a test that looks at none would wait at its end for those that a change asks for."""
        self.desk.prepare = lambda _: None

    def wait(self):
        for work in self.desk.works.under_way():
            assert work.over.wait(300)


@pytest.fixture
def window(tmp_path):
    made = Window(tmp_path / "team")
    yield made
    made.desk.close()


@pytest.fixture(scope="session")
def demo_library(tmp_path_factory):
    """The demo's library with all its runs kept and fitted."""
    folder = tmp_path_factory.mktemp("window") / "demo"
    base = tmp_path_factory.getbasetemp()
    copied(base, "window", partial(_fitted, base), folder)
    return folder


def _fitted(base, folder):
    bench = Workbench(make_library(folder))
    lent_fits(base, folder)
    answer(bench, AddQuestion.asked(*sorted((folder / "dyno").iterdir())))
    bench.click_maps(bench.library.packs())


@pytest.fixture
def demo(demo_library, tmp_path):
    """A window over a copy of it."""
    yield from _opened(demo_library, tmp_path / "demo")


@pytest.fixture(scope="module")
def looked_at(demo_library, tmp_path_factory):
    """The same for tests that change nothing."""
    yield from _opened(demo_library, tmp_path_factory.mktemp("looked_at") / "demo")


def _opened(demo_library, folder):
    laid(demo_library, folder)
    made = Window(folder)
    made.desk.prepare_all()
    made.wait()
    yield made
    made.desk.close()
