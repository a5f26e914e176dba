"""Hostile forms thrown at every address of the window that changes something, and hostile questions at the others.

``nice -n 15 python -m tests.fuzz.window_forms SECONDS [SEED]`` starts from the fields that the window's own pages hold.
Each answer must be a page or a refusal, soon; the library must stay sound, and nothing may be written beside it.
"""

from __future__ import annotations

import random
import re
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Sequence
from html import unescape
from pathlib import Path
from typing import Any, NamedTuple
from urllib.parse import quote

from starlette.testclient import TestClient

from dynoan.cli.asking import ask
from dynoan.library import Library
from dynoan.library.car_file import car_from_text
from dynoan.model.setup import Setup
from dynoan.model.trial import Trial, TrialRun
from dynoan.window import app, rendering
from dynoan.window.desk import Desk
from dynoan.window.guarding import Keys
from tests.library.calling import write_run
from tests.library.made import CAR, made_sweep

HOST = "127.0.0.1:8320"
BASE = f"http://{HOST}"
PATIENCE = 5.0  #: of the processor, for one answer [s]
PAGES = ("/files", "/packs", "/packs/runs?pack=gravel", "/packs/health", "/curves", "/car", "/car/edit?car=kestrel",
         "/log", "/log?trial=start", "/log/edit?name=2026-05-02-kestrel", "/help")  # fmt: skip
VALUES = (
    "", " ", "0", "-1", "1e308", "nan", "-inf", "9" * 40, "9" * 5000, "٣", "½", "+-1", "kestrel", "start", "gravel",
    "FL-01", "a", "fl", "rear", "loose", "2026-05-02", "2026-13-99", "9999-12-31", "0000-00-00", "5 N", "275 lb/in",
    "20 °C", "-300 °C", "lsc=8", "lsc=8.5,hsc=", "rear=gravel@lsc=6", "../../etc/passwd", "cars/../../x", "/etc/passwd",
    "..", ".", "con", "nul.toml", "a\x00b", "a\nb", "a\r\nSet-Cookie: x=1", "\u202eevil", "\ud800", "é", "e\u0301",
    "İı", "<script>alert(1)</script>", '"><img src=x onerror=alert(1)>', "{{7*7}}", "{% raw %}", "${7*7}", "%00",
    "%2e%2e%2f", '"""', "'''", "[[run]]", 'x"\nunits = "us', "\\", "x" * 300, "x" * 70_000, "[" * 2000, "(" * 2000,
    "a." * 2000, "0..2 ± 1", "12 ± nan", "8 of 24", "true", "None", "[]", "{}", "//evil.example", "/\\evil", "2" * 400,
    "javascript:1",
)  # fmt: skip
JOBS = ("ratio", "curve", "compare", "setup/recall", "report", "trial/list", "read")
_FORM = re.compile(r"<form\b([^>]*)>(.*?)</form>", re.DOTALL)
_FIELD = re.compile(r"<(?:input|select|textarea|button)\b([^>]*)>", re.DOTALL)
_ATTRIBUTE = re.compile(r"""([\w-]+)=(?:"([^"]*)"|'([^']*)'|(\S+))""")
_READ = re.compile(r"""(?:form|given|query_params)(?:\.get|\.getlist)?[(\[]"([\w. -]+)\"""")


class Form(NamedTuple):
    """A form of a page: where it goes, and its fields with what stands in them."""

    action: str
    fields: tuple[tuple[str, str], ...]


def _attributes(tag: str) -> dict[str, str]:
    return {name: unescape(a or b or c) for name, a, b, c in _ATTRIBUTE.findall(tag)}


def forms_of(page: str) -> list[Form]:
    """Return the forms that a page holds."""
    found = []
    for head, body in _FORM.findall(page):
        fields = [_attributes(tag) for tag in _FIELD.findall(body)]
        named = tuple((f["name"], f.get("value", "")) for f in fields if "name" in f)
        found.append(Form(_attributes(head).get("action", "/"), named))
    return found


def read_by_handlers() -> list[str]:
    """Return the names of fields that the window's own code asks for."""
    sources = Path(app.__file__).parent.glob("*.py")
    return sorted({name for path in sources for name in _READ.findall(path.read_text("utf-8"))})


def filled(folder: Path) -> Library:
    """Return a small library with something of every kind."""
    library = Library.create(folder)
    for number in range(2):
        library.add(*made_sweep(number, samples=60))
    (folder / "cars" / "kestrel.toml").write_text(CAR)
    (folder / "shocks" / "FL-01.toml").write_text("[adjusters.lsc]\nclicks = 20\n[adjusters.lsr]\nclicks = 20\n")
    library.record_setup(Setup("", car_from_text(CAR, "cars/kestrel.toml"), "2026-05-02", good=True), CAR)
    runs = (TrialRun("a", 4.83, "4.83 s", "2026-05-02T10:00"),)
    library.trials.keep_new(Trial("start", "soft", "hard", less=True, unit="s", date="2026-05-02", runs=runs))
    return library


class Attack:
    """A window over a library of its own, and what is thrown at it."""

    def __init__(self, folder: Path, seed: int) -> None:
        self.folder, self.choose, self.came = folder, random.Random(seed), Counter[str]()
        self.beside = folder.parent
        write_run(self.beside / "run.csv")
        self.desk = Desk(filled(folder))
        self.desk.fit_ahead = lambda: None  # type: ignore[method-assign]
        keys = Keys(frozenset({HOST}), 8320)
        self.made = app.make_app(self.desk, keys, ask)
        self.browser = TestClient(self.made, base_url=BASE, raise_server_exceptions=True, follow_redirects=False)
        self.browser.get(f"/enter?token={keys.token}")
        self.forms = self.known_forms()
        self.names = sorted({*read_by_handlers(), *(name for form in self.forms for name, _ in form.fields)})
        self.paths = [path for path, _ in app._done_paths()]
        self.shown = [path for path, _ in app._shown_paths()]

    def known_forms(self) -> list[Form]:
        """Return the forms that its pages hold now."""
        return [form for page in PAGES for form in forms_of(self.browser.get(page).text)]

    def one(self) -> str:
        """Throw one thing, and return what came of it."""
        kind = self.choose.random()
        started = time.process_time()
        try:
            answer = self._file() if kind < 0.05 else self._question() if kind < 0.3 else self._form()
        except Exception as error:
            frame = _place(error)
            return f"{type(error).__name__} at {frame}: {str(error)[:80]}"
        for work in self.desk.works.under_way():
            self.desk.works.stop(work.number)
        if time.process_time() - started > PATIENCE:
            return f"over {PATIENCE:g} s at {answer.request.url.path}"
        where = answer.headers.get("location", "/")
        if not where.startswith("/") or where.startswith(("//", "/\\")):
            return f"sent to {where[:60]}"
        return "fault" if answer.status_code >= 500 else f"{answer.status_code // 100}xx"

    def _form(self) -> Any:
        form = self.choose.choice(self.forms)
        path = form.action if self.choose.random() < 0.8 else self.choose.choice(self.paths)
        path = self._at(path)
        fields = self._fields(form.fields)
        headers = {"Origin": BASE, "Referer": f"{BASE}{self.choose.choice(PAGES)}"}
        if self.choose.random() < 0.2:
            return self._in_parts(path, fields, headers)
        body = "&".join(f"{_quoted(n)}={_quoted(v)}" for n, v in fields)
        return self.browser.post(
            path, content=body, headers=headers | {"Content-Type": "application/x-www-form-urlencoded"}
        )

    def _in_parts(self, path: str, fields: Sequence[tuple[str, str]], headers: dict[str, str]) -> Any:
        code = self.choose.choice(("", *(f"; charset={c}" for c in ("unicode_escape", "utf-7", "nonsense", "utf-16"))))
        body = b"".join(
            b'--xYz\r\nContent-Disposition: form-data; name="%s"%s\r\n\r\n%s\r\n'
            % (n.encode("utf-8", "replace"), self.choose.choice((b"", b"", b'; filename="../x.csv"')),
               v.encode("utf-8", "surrogatepass"))
            for n, v in fields
        )  # fmt: skip
        kind = f"multipart/form-data; boundary=xYz{code}"
        return self.browser.post(path, content=body + b"--xYz--\r\n", headers=headers | {"Content-Type": kind})

    def _question(self) -> Any:
        path = self._at(self.choose.choice(self.shown))
        if self.choose.random() < 0.15:
            path = f"/api/{self.choose.choice(JOBS)}"
        asked = ((self._name(), self._value()[:3000]) for _ in range(self.choose.randrange(4)))
        query = "&".join(f"{_quoted(n)}={_quoted(v)}" for n, v in asked)
        return self.browser.get(f"{path}?{query}")

    def _file(self) -> Any:
        name = quote(self._value()[:200].encode("utf-8", "replace")) or "x"
        data = (self.beside / "run.csv").read_bytes()[: self.choose.choice((0, 100, 2000, 60_000))]
        return self.browser.put("/files/drop", content=data, headers={"Origin": BASE, "Dynoan-Name": name})

    def _at(self, path: str) -> str:
        """Return an address with something odd in place of what stands in braces."""
        return re.sub(r"\{\w+\}", lambda _: quote(self._value()[:6000].encode("utf-8", "replace")), path)

    def _fields(self, fields: Sequence[tuple[str, str]]) -> list[tuple[str, str]]:
        kept = [field for field in fields if self.choose.random() > 0.05]
        made = [(n, self._value() if self.choose.random() < 0.3 else v) for n, v in kept]
        made += [(self._name(), self._value()) for _ in range(self.choose.choice((0, 0, 1, 3)))]
        if made and self.choose.random() < 0.1:
            made.append(self.choose.choice(made))
        return made

    def _name(self) -> str:
        return self.choose.choice(self.names) if self.choose.random() < 0.95 else self._value()[:50]

    def _value(self) -> str:
        return self.choose.choice(VALUES)

    def verify(self) -> None:
        """Fail where the library is no longer sound, or something was written beside it."""
        faults = [f for f in Library(self.folder).check().faults if not f.file.startswith("cache/")]
        assert not faults, faults
        strangers = {p.name for p in self.beside.iterdir()} - {self.folder.name, "run.csv"}
        assert not strangers, strangers


def _quoted(text: str) -> str:
    return quote(text.encode("utf-8", "surrogatepass"), safe="")


def _place(error: BaseException) -> str:
    """Return the last place of our own code in an error's way."""
    found, step = "?", error.__traceback__
    while step is not None:
        name = step.tb_frame.f_code.co_filename
        if "/dynoan/" in name or "/importers/" in name:
            found = f"{Path(name).name}:{step.tb_lineno}"
        step = step.tb_next
    return found


def attack(folder: Path, seconds: float, seed: int, most: int = 10**9) -> Counter[str]:
    """Throw for so long, or so many, each hundred at a library of its own; return what came of it."""
    came: Counter[str] = Counter()
    stop, piece = time.monotonic() + seconds, 0
    while time.monotonic() < stop and came.total() < most:
        place = folder / str(piece)
        place.mkdir(parents=True)
        attacker = Attack(place / "team", seed * 100_003 + piece)
        for _ in range(min(200, most - came.total())):
            if time.monotonic() > stop:
                break
            came[attacker.one()] += 1
        attacker.desk.close()
        attacker.verify()
        piece += 1
    return came


def main(seconds: float, seed: int = 1) -> None:
    """Print what came of so many seconds."""
    assert rendering  # its templates are loaded once
    with tempfile.TemporaryDirectory() as folder:
        for what, count in attack(Path(folder), seconds, seed).most_common():
            sys.stdout.write(f"{count:9d}  {what}\n")


if __name__ == "__main__":
    given = sys.argv[1:]
    main(float(given[0]) if given else 60.0, *map(int, given[1:2]))
