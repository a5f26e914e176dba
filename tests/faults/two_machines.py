"""Two machines on one synchronised folder, each with a window open and somebody at the command line, at random.

``nice -n 15 python -m tests.faults.two_machines [SECONDS [SEED [far] [all]]]``: with "far" all of it are processes of
their own, at work at once; with "all" caches and locks are carried, too.
Fails where an answer is a fault of the program, where something reported as done is in no file at the end, where a copy
is not named, or where the machines list different things.
"""

from __future__ import annotations

import html
import json
import os
import random
import re
import shutil
import subprocess
import sys
import tempfile
import threading
import time
import traceback
from collections import Counter
from collections.abc import Callable
from functools import cached_property
from pathlib import Path
from typing import Any

import httpx

from dynoan.library import Library
from tests.faults.commands import RUN, _forked, _fresh
from tests.faults.syncing import Tool
from tests.fuzz.window_forms import filled
from tests.golden.running import run
from tests.window.conftest import BASE, Window

PAGES = ("/files", "/packs", "/packs/runs?pack=gravel", "/curves", "/car?car=kestrel", "/car/edit?car=kestrel", "/log",
         "/log?trial=start", "/state")  # fmt: skip
FAULT = re.compile(r"fault of the program|Traceback", re.IGNORECASE)


class Ledger:
    """What was reported as done: a mark that must be in a file of a folder at the end, and what it replaced."""

    def __init__(self) -> None:
        self.marks: dict[str, str] = {}  #: by mark, where its file lies: a folder, or the beginning of a file
        self.gone: set[str] = set()  #: marks that a later change replaced, and sweeps taken out
        self.lock = threading.Lock()

    def add(self, mark: str, place: str, instead: str | None = None) -> None:
        """Enter what was done, in the place of something else."""
        with self.lock:
            self.marks[mark] = place
            if instead:
                self.gone.add(instead)


class Far:
    """A machine with processes of its own: a window that listens, and a command line."""

    def __init__(self, folder: Path, number: int) -> None:
        self.folder = folder
        self.log = (folder.parent / "window.log").open("w+")
        command = [sys.executable, "-m", "dynoan", "open", str(folder), "--no-browser", "--port", str(18800 + number)]
        self.window = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=self.log, text=True, cwd=folder.parent)
        assert self.window.stdout is not None
        address = self.window.stdout.readline().strip()
        self.base = address.partition("/enter")[0]
        how = {"headers": {"Origin": self.base}, "follow_redirects": True, "timeout": 300}
        self.browser = httpx.Client(base_url=self.base, **how)  # type: ignore[arg-type]
        self.browser.get(address)

    def type(self, words: list[str], *, fresh: bool) -> tuple[int | None, str, str]:
        """Run a command; return its exit code and what it said."""
        said = self.folder.parent / "said.json"
        code = (_fresh if fresh else _forked)([*words, "--library", str(self.folder)], said, None)
        return code, said.read_text(), said.with_suffix(".err").read_text()

    def close(self) -> list[str]:
        """End the window, and return what was wrong with it."""
        self.browser.close()
        faults = [] if self.window.poll() is None else [f"the window ended by itself ({self.window.returncode})"]
        self.window.terminate()
        self.window.wait(60)
        self.log.seek(0)
        said = self.log.read()
        return [*faults, *([f"log: {said[-3000:]}"] if said.strip() else [])]


class Near:
    """A machine inside this process."""

    def __init__(self, folder: Path, _number: int = 0) -> None:
        self.folder, self.base = folder, BASE

    @cached_property
    def window(self) -> Window:
        """Its window, opened once it is looked at."""
        return Window(self.folder)

    @property
    def browser(self) -> Any:
        """The browser's side of it."""
        self.window.browser.headers["Origin"] = BASE
        return self.window.browser

    def type(self, words: list[str], **_how: bool) -> tuple[int, str, str]:
        """Run a command; return its exit code and what it said."""
        done = run([*words, "--library", str(self.folder)], self.folder.parent)
        return done.code, done.out, done.err

    def close(self) -> list[str]:
        """End the window."""
        if "window" in vars(self):
            self.window.desk.close()
        return []


#: what is done at the command line and with an editor, and what in the window
TYPED = ("ask", "add", "edit", "remove", "record", "correct", "note", "scribble", "new")
CLICKED = ("look", "look", "drop", "record_there", "note_there", "put_on", "undo")


class Person:
    """Somebody at one machine, with a window and a command line."""

    jobs = (*TYPED, *CLICKED)

    def __init__(self, machine: Far | Near, ledger: Ledger, seed: int) -> None:
        self.machine, self.ledger, self.folder = machine, ledger, machine.folder
        self.who, self.choose, self.number = machine.folder.parent.name, random.Random(seed), seed * 100_000
        self.did, self.faults = Counter[str](), list[str]()

    # Asking

    def get(self, path: str) -> str:
        return self._seen(path, self.machine.browser.get(path))

    def post(self, path: str, back: str = "/files", **data: Any) -> str:
        came = {"Referer": f"{self.machine.base}{back}"}
        return self._seen(path, self.machine.browser.post(path, data=data, headers=came))

    def _seen(self, path: str, answer: httpx.Response) -> str:
        if answer.status_code >= 500 or FAULT.search(answer.text):
            self.faults.append(f"{self.who} {path}: {answer.status_code} {html.unescape(answer.text)[-600:]}")
        return answer.text

    def type(self, *words: str) -> tuple[int, dict[str, Any]]:
        """Run a command; return its exit code and its object."""
        code, out, err = self.machine.type([*words, "--json"], fresh=self.choose.random() < 0.1)
        if FAULT.search(out + err) or code not in (0, 1, 2):
            self.faults.append(f"{self.who} {' '.join(words)}: {code} {err[-900:]} {out[-300:]}")
        try:
            return code or 0, json.loads(out)
        except ValueError:
            self.faults.append(f"{self.who} {' '.join(words)}: no object: {out[-300:]!r} {err[-300:]}")
            return 2, {}

    def act(self) -> None:
        """Do something."""
        self.number += 1
        does: Callable[[], object] = getattr(self, self.choose.choice(self.jobs))
        try:
            self.did[f"{does.__name__}{'' if does() else ' (refused)'}"] += 1
        except Exception as error:
            self.faults.append(f"{self.who} {does.__name__}: {traceback.format_exception(error)[-4:]}")

    # What is done

    def look(self) -> bool:
        return bool(self.get(self.choose.choice(PAGES)))

    def ask(self) -> bool:
        words = self.choose.choice((
            "sweeps", "check", "setup list", "trial list", "trial show start", "ratio kestrel", "setup recall",
            "setup list --by surface", "new car kestrel", "curve pack=gravel", "plan gravel", "health FL-01",
        ))  # fmt: skip
        return self.type(*words.split())[0] < 2

    def _run(self) -> Path:
        path = self.folder.parent / f"run-{self.number}.csv"
        rows = [f"{v},{v * 3 + self.number % 997},{v * 2 + self.number / 1000}" for v in range(50, 500, 50)]
        path.write_text(RUN + "\n".join(rows) + "\n")
        return path

    def add(self) -> bool:
        code, told = self.type("add", str(self._run()))
        if code:
            return False
        for sweep in told["result"]["sweeps"]:
            self.ledger.add(sweep["id"], f"sweeps/{sweep['id']}")
        return True

    def drop(self) -> bool:
        path = self._run()
        put = self.machine.browser.put("/files/drop", content=path.read_bytes(), headers={"Dynoan-Name": path.name})
        text = self.post("/files/keep", id=put.json()["id"]) if put.status_code == 200 else ""
        if "new run kept" not in text:
            return False
        self.ledger.add(path.name, "sweeps/")
        return True

    def edit(self) -> bool:
        one = self._one("sweeps", ".h5")
        if not one:
            return False
        path, mark = self.folder / "sweeps" / f"{one}.h5", f"pack-{self.number}-"
        before = re.search(rb'"(pack-\d+-)"', _bytes(path))
        code, _ = self.type("edit", one, "--pack", mark)
        if not code:
            self.ledger.add(mark, f"sweeps/{one}", before[1].decode() if before else None)
        return not code

    def remove(self) -> bool:
        one = self._one("sweeps", ".h5")
        if not one or self.choose.random() < 0.7:
            return False
        whole = _bytes(self.folder / "sweeps" / f"{one}.h5")
        code, _ = self.type("remove", one)
        if not code:
            self.ledger.gone |= {one, *re.findall(r"pack-\d+-|run-\d+\.csv", whole.decode("latin1"))}
        return not code

    def record(self) -> bool:
        mark = f"remark-{self.number}-"
        code, _ = self.type("setup", "record", "kestrel", "--date", "2026-05-02", "--good", "--remarks", mark)
        if not code:
            self.ledger.add(mark, "setups/")
        return not code

    def record_there(self) -> bool:
        mark = f"remark-{self.number}-"
        text = self.post("/log/record", "/log", car="kestrel", date="2026-05-03", good="good", remarks=mark)
        if "Kept: " not in text:
            return False
        self.ledger.add(mark, "setups/")
        return True

    def correct(self) -> bool:
        one, mark = self._one("setups", ".toml"), f"remark-{self.number}-"
        if not one:
            return False
        before = re.search(rb"remark-\d+-", _bytes(self.folder / "setups" / f"{one}.toml"))
        code, _ = self.type("setup", "edit", one, "--remarks", mark)
        if not code:
            self.ledger.add(mark, "setups/", before[0].decode() if before else None)
        return not code

    def note(self) -> bool:
        result = f"4.{self.number}"
        code, _ = self.type("trial", "run", "start", self.choose.choice("ab"), f"{result} s", "--sure")
        if not code:
            self.ledger.add(result, "trials/")
        return not code

    def note_there(self) -> bool:
        result = f"4.{self.number}"
        said = {"trial": "start", "setting": self.choose.choice("ab"), "result": f"{result} s"}
        text = self.post("/log/note", "/log?trial=start", **said)
        if "Noted." not in text:
            return False
        self.ledger.add(result, "trials/")
        return True

    def put_on(self) -> bool:
        """Put another spring on the car, as the window shows it first."""
        who, count = divmod(self.number, 100_000)
        spring = f"{40 + count * 1e-3 + who * 1e-4:.4f} N/mm"
        shown = self.post("/car/put-on", "/car", car="kestrel", **{"front.spring": spring})
        mark = re.search(r'name="mark" value="([0-9a-f]+)"', shown)
        text = re.search(r'<textarea name="text" hidden>\n?(.*?)</textarea>', shown, re.DOTALL)
        if not (mark and text):
            return False
        before = re.search(rb'spring = "(.*?)"', _bytes(self.folder / "cars" / "kestrel.toml"))
        made = html.unescape(text[1])
        if "Written into the file" not in self.post("/car/keep", "/car", car="kestrel", mark=mark[1], text=made):
            return False
        self.ledger.add(f'"{spring}"', "cars/", f'"{before[1].decode()}"' if before else None)
        return True

    def scribble(self) -> bool:
        """Write a remark into the car's file, as a text editor does that asks when the file has changed."""
        path = self.folder / "cars" / "kestrel.toml"
        mark, was = f"# scribble-{self.number}-", _bytes(path)
        if not was.startswith(b"# the car") or b"\0" in was or not was.rstrip().endswith((b'kg"', b"-")):
            return False
        new = path.with_name(f".{self.number}.swp")
        new.write_bytes(was.rstrip() + f"\n{mark}\n".encode())
        if _bytes(path) != was:
            new.unlink()
            return False
        new.replace(path)
        self.ledger.add(mark, "cars/")
        return True

    def new(self) -> bool:
        name = f"club-{self.number}"
        code, _ = self.type("new", "car", name)
        if not code:
            self.ledger.add(name, f"cars/{name}")
        return not code

    def undo(self) -> bool:
        """Take back a setup that was recorded this moment."""
        mark = f"remark-{self.number}-"
        text = self.post("/log/record", "/log", car="kestrel", date="2026-05-04", remarks=mark)
        return "Kept: " in text and "Taken back" in self.post("/undo")

    def _one(self, folder: str, ending: str) -> str | None:
        try:
            names = sorted(n for n in os.listdir(self.folder / folder) if n.endswith(ending) and n[0] not in ".[")
        except OSError:
            return None
        names = [n for n in names if "on" not in n.removesuffix(ending) or ending == ".toml"]
        return self.choose.choice(names).removesuffix(ending) if names else None


def _bytes(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError:
        return b""


def lost(folder: Path, ledger: Ledger) -> list[str]:
    """Return the marks that are in no file of their place."""
    found: dict[str, bytes] = {}
    for path in folder.rglob("*"):
        if path.is_file() and "cache" not in path.parts:
            found[str(path.relative_to(folder))] = f"{path.name}\n".encode() + path.read_bytes()
    missing = []
    for mark, place in ledger.marks.items():
        if mark in ledger.gone:
            continue
        begin, _, stem = place.rpartition("/")
        near = (d for p, d in found.items() if p.startswith(begin) and (not stem or stem in p))
        if not any(mark.encode() in data for data in near) and not (stem and stem in ledger.gone):
            missing.append(f"{mark} of {place}")
    return missing


def main(seconds: float = 120.0, seed: int = 1, *words: str) -> int:
    """Let two people work for so long, and hold what is there against what they were told."""
    folder = Path(tempfile.mkdtemp(prefix="two-"))
    places = two_places(folder)
    tool = Tool(*places, seed=seed, skipped=() if "all" in words else ("cache", ".lock"))
    ledger, until = Ledger(), time.monotonic() + seconds
    made = Far if "far" in words else Near
    people = [Person(made(p, 2 * seed + n), ledger, 2 * seed + n) for n, p in enumerate(places)]
    if "far" in words:
        _at_once(people, tool, until)
    while time.monotonic() < until:
        tool.choose.choice(people).act()
        tool.step(chance=0.2)
    tool.settle()
    faults = verified(tool, ledger)
    for person in people:
        faults += [*shown(person), *person.faults, *(f"{person.who} {text}" for text in person.machine.close())]
        print(person.who, dict(person.did), flush=True)
    print(f"{len(ledger.marks)} changes reported, {len(ledger.gone)} replaced; {len(tool.copies)} conflict copies, "
          f"{tool.halves} files half there for a while; {seconds:.0f} s; {folder}")  # fmt: skip
    for fault in faults:
        print("FAULT", fault)
    if not faults:
        shutil.rmtree(folder)
    return int(bool(faults))


def two_places(folder: Path) -> list[Path]:
    """Return where two machines have the same library."""
    filled(folder / "one" / "team")
    shutil.copytree(folder / "one", folder / "two")
    return [folder / name / "team" for name in ("one", "two")]


def _at_once(people: list[Person], tool: Tool, until: float) -> None:
    """Let people act and files come all at the same time."""

    def work(person: Person) -> None:
        while time.monotonic() < until:
            person.act()

    threads = [threading.Thread(target=work, args=[person]) for person in people]
    for thread in threads:
        thread.start()
    while any(thread.is_alive() for thread in threads):
        tool.step(chance=0.15, patience=15)
        time.sleep(0.1)


def verified(tool: Tool, ledger: Ledger) -> list[str]:
    """Return what is wrong once all files have come: what is lost, not named, or listed otherwise elsewhere."""
    faults, listed = [], []
    for place in (machine.folder for machine in tool.machines):
        wrong = [f"lost: {one}" for one in lost(place, ledger)]
        named = {f.file for f in Library(place).check().faults}
        there = {c for c in tool.copies if (place / c).exists()}
        unfilled = {n for n in named if n.startswith("cars/club-")}  # as `new` writes them
        wrong += [f"not named: {one}" for one in sorted(there - named)]
        wrong += [f"named, and no copy: {one}" for one in sorted(named - there - unfilled)]
        warm = Library(place).records()
        shutil.rmtree(place / "cache")
        listed.append(Library(place).records())
        wrong += ["the list hangs on the cache"] if warm != listed[-1] else []
        faults += [f"{place.parent.name}: {text}" for text in wrong]
    return faults + (["the machines list different sweeps"] if listed[0] != listed[1] else [])


def shown(person: Person) -> list[str]:
    """Return what is wrong with what a window shows in the end."""
    for page in PAGES:
        person.get(page)
    rows = len(re.findall(r'name="id" value="[0-9a-f]{10,}"', person.get("/packs/runs?pack=gravel")))
    gravel = sum(r.pack == "gravel" for r in Library(person.folder).records())
    return [] if rows == gravel else [f"{person.who}: the window lists {rows} of {gravel}"]


if __name__ == "__main__":
    given = sys.argv[1:]
    sys.exit(main(float(given[0]) if given else 120.0, int(given[1]) if given[1:] else 1, *given[2:]))
