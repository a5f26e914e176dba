"""A window that really listens, and a browser in it."""

import threading
import time
from contextlib import contextmanager

import uvicorn

from dynoan.cli.asking import ask
from dynoan.library import Library
from dynoan.window.app import make_app
from dynoan.window.desk import Desk
from dynoan.window.guarding import Keys
from dynoan.window.serving import _listen
from tests.browser.conftest import PATIENCE_MS


class Served:
    """A window over a library, listening on a port of this machine."""

    def __init__(self, path):
        self.desk = Desk(Library.open_or_create(path))
        self.desk.fit_ahead = self.desk.ready_to_read = lambda *_: None  # processes that a test seldom needs
        self.socket = _listen("127.0.0.1", 18320)
        self.port = self.socket.getsockname()[1]
        self.keys = Keys(frozenset({f"127.0.0.1:{self.port}"}), self.port)
        config = uvicorn.Config(make_app(self.desk, self.keys, ask), log_level="warning", lifespan="off")
        self.server = uvicorn.Server(config)
        self.server.install_signal_handlers = lambda: None
        self.thread = threading.Thread(target=self.server.run, kwargs={"sockets": [self.socket]}, daemon=True)
        self.thread.start()
        while not self.server.started:
            time.sleep(0.01)

    @property
    def base(self):
        return f"http://127.0.0.1:{self.port}"

    @property
    def address(self):
        return f"{self.base}/enter?token={self.keys.token}"

    def wait(self):
        for work in self.desk.works.under_way():
            assert work.over.wait(PATIENCE_MS / 1000)

    def close(self):
        self.server.should_exit = True
        self.desk.close()
        self.thread.join(5)


@contextmanager
def entered(chromium, served, width=1280, height=800, scheme="light", **kw):
    """A page of a browser that has come in; `page.seen` holds requests and complaints."""
    served.keys.token = served.keys.token or "again"
    with chromium.lent(width, height, scheme, **kw) as page:
        page.goto(served.address)
        yield page
