"""Every command, once, in a library of US units: what a person sees of it is whole at any width, and no metric unit.

The paragraphs and tables that a command would print are kept and printed at each width by the program's own printing;
`tests/golden/test_golden_terminal.py` has real terminals.
"""

from __future__ import annotations

import contextlib
import html
import io
import json
import re
import shlex
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import click
import pytest
from matplotlib.text import Text

from dynoan.cli.call import Call
from dynoan.show import presenting
from dynoan.show.plots import saving
from dynoan.show.text import printing
from dynoan.show.text.blocks import Look, Paragraph
from dynoan.show.text.widths import across
from dynoan.window import serving
from tests.cli.everything import LINES, SELDOM, commands
from tests.golden.grounds import made_demo
from tests.golden.running import run
from tests.marks import crowded, faint
from tests.metric import metric
from tests.once import copied, drawn_anew

WIDTHS = (60, 80, 100, 140)
CASES = [
    pytest.param(line, marks=pytest.mark.thorough if line in SELDOM else ())
    for lines in LINES.values()
    for line in lines
]
#: what cannot be broken: one word, and a command that the guide or the demo gives to be copied
COPIED = re.compile(r"\s*(\$ .*|\S+)$|    dynoan .*$")
NUMBER = re.compile(r"\d+(?:[.,:/]\d+)*")
#: in a phone page's data: how quantities may be typed, and the car's file, from which a setup to keep is made
UNSHOWN = ("forms", "car_text", "corner_text")
#: text that somebody wrote, shown as it is: a guide's examples stand as they were typed and answered
THEIRS = ("guide",)


@dataclass
class Seen:
    """What a person was shown by a command."""

    printed: list[Callable[[], None]] = field(default_factory=list)  #: prints it, into the streams as they then are
    answers: list[Any] = field(default_factory=list)
    drawn: set[str] = field(default_factory=set)  #: lines drawn to the width of the terminal that the command ran in
    pictures: list[str] = field(default_factory=list)  #: every text of every picture
    faint: list[str] = field(default_factory=list)  #: what of a picture, of a page's too, stands out too little
    crowded: list[str] = field(default_factory=list)  #: what of it is said twice or has no room

    def at(self, width: int | None) -> str:
        """Return what a terminal of so many columns shows, or a pipe."""
        screen = Screen(terminal=width is not None)
        with pytest.MonkeyPatch.context() as patch, contextlib.redirect_stdout(screen):
            patch.setenv("COLUMNS", str(width or 80))
            with contextlib.redirect_stderr(screen):
                for one in self.printed:
                    one()
        return screen.getvalue()


class Screen(io.StringIO):
    """A stream that says whether it is a terminal."""

    def __init__(self, *, terminal: bool) -> None:
        super().__init__()
        self.terminal = terminal

    def isatty(self) -> bool:
        return self.terminal


@pytest.fixture(scope="module")
def library(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the demo of a team that wants US units, and has written its trial in them."""
    folder = tmp_path_factory.mktemp("us") / "demo"
    copied(tmp_path_factory.getbasetemp(), "demo", made_demo, folder)
    marker, trial = folder / "dynoan.toml", folder / "trials" / "less-rear-rebound.toml"
    lines = [line for line in marker.read_text(encoding="utf-8").splitlines() if not line.startswith("units")]
    marker.write_text("\n".join([*lines, 'units = "us"', ""]), encoding="utf-8")
    trial.write_text(trial.read_text(encoding="utf-8").replace("time to 30 m", "time to 100 ft"), encoding="utf-8")
    run(["setup", "record", "kestrel-winter", "--date", "2026-04-12", "--temperature", "54 °F"], folder)
    return folder


@pytest.fixture
def kept(monkeypatch: pytest.MonkeyPatch) -> Seen:
    """Keep what is printed and drawn in the place of printing and drawing it."""
    seen, write, say, blocks = Seen(), printing.write, printing.say, presenting.blocks
    lay_out = saving._lay_out

    def written(parts: Any) -> None:
        parts = tuple(parts)
        seen.drawn.update(line for p in parts if isinstance(p, Paragraph) and p.drawn for line in p.text.split("\n"))
        seen.printed.append(lambda: write(parts))

    def said(text: str, stream: Any, **how: bool) -> None:
        name = "stderr" if stream is sys.stderr else "stdout"
        seen.printed.append(lambda: say(text, getattr(sys, name), **how))

    def shown(answer: Any, look: Look) -> Any:
        seen.answers.append((answer, look))
        return blocks(answer, look)

    def saved(figure: Any, path: Path, **_: Any) -> Path:
        seen.pictures += [t.get_text() for t in figure.findobj(Text) if t.get_visible()]
        laid_out(figure)
        return path

    def laid_out(figure: Any) -> None:
        lay_out(figure)
        seen.faint += faint(figure)
        seen.crowded += crowded(figure)

    def served(_library: Any, _asked: Any, _ask: Any, tell: Callable[[Any], None]) -> None:
        tell(serving.Opened("http://127.0.0.1:8320/?once=abc", _library.path, "four plain words here"))

    monkeypatch.setattr(printing, "write", written)
    monkeypatch.setattr(printing, "say", said)
    monkeypatch.setattr(presenting, "blocks", shown)
    monkeypatch.setattr(saving, "save", saved)
    monkeypatch.setattr(saving, "_lay_out", laid_out)
    drawn_anew(monkeypatch)
    monkeypatch.setattr(serving, "serve", served)
    monkeypatch.setattr("dynoan.window.shortcut.install", lambda folder: folder / "window.desktop")
    monkeypatch.setattr("dynoan.cli.demo.STEPS", (("What is in a file", "sweeps"), ("All sound?", "check")))
    monkeypatch.setattr("dynoan.jobs.demo.answering.fit_packs", lambda folder: None)
    monkeypatch.setattr("dynoan.batch.kept_workers", lambda *_: contextlib.nullcontext())
    return seen


def held(seen: Seen) -> str:
    """Hold that each width shows every number of the piped text, and nothing wider; return the piped text."""
    piped = seen.at(None)
    for width in WIDTHS:
        text = seen.at(width)
        missing = Counter(NUMBER.findall(piped)) - Counter(NUMBER.findall(text))
        assert not missing, f"{width} columns:\n{text}"
        over = [
            line
            for line in text.split("\n")
            if across(line) > width and not COPIED.match(line) and line not in seen.drawn
        ]
        assert not over, f"{width} columns:\n{over}"
    return piped


def on_page(path: Path) -> str:
    """Return what a page shows, the words of its pictures and of its data too."""
    page = path.read_text(encoding="utf-8")
    data = re.search(r'id="data"[^>]*>(.*?)</script>', page, re.DOTALL)
    body = re.sub(r"<(style|script)\b.*?</\1>", " ", page, flags=re.DOTALL)
    words = list(_texts(json.loads(data[1]))) if data else []
    return "\n".join([html.unescape(re.sub(r"<[^>]+>", "\n", body)), *words])


def _texts(data: Any) -> Iterator[str]:
    """Yield the texts of a page's data that it may show."""
    if isinstance(data, str):
        yield data if len(data) < 120 or " " in data else ""  # a table of numbers, packed
    elif isinstance(data, list):
        for one in data:
            yield from _texts(one)
    elif isinstance(data, dict):
        for key, one in data.items():
            yield from _texts(one) if key not in UNSHOWN else ()


@pytest.mark.parametrize("line", CASES)
def test_whole_at_any_width_and_in_its_own_units(line: str, library: Path, kept: Seen):
    words = shlex.split(line)
    ran = run(words, library)
    assert ran.code in (0, 1) or "nothing" in line or "--at '2 lbf'" in line, kept.at(None)
    assert kept.printed, ran.out
    text = held(kept)
    if words[0] in THEIRS:
        return
    assert metric(text) == []
    assert metric("\n".join(kept.pictures)) == []
    assert kept.faint == []
    assert kept.crowded == []
    for option in ("--out", "--sheet"):
        if option in words:
            assert metric(on_page(library / words[words.index(option) + 1])) == []


def test_no_command_is_left_out():
    assert set(LINES) == {name for name, _ in commands()}
    assert all(set(lines) - SELDOM for lines in LINES.values())
    assert {line for lines in LINES.values() for line in lines} >= SELDOM


@pytest.mark.parametrize(("name", "command"), [pytest.param(*one, id=one[0]) for one in commands()])
@pytest.mark.parametrize("width", WIDTHS)
def test_what_help_says_is_no_wider_than_the_terminal(name: str, command: click.Command, width: int):
    context = click.Context(command, info_name=f"dynoan {name}", terminal_width=width, max_content_width=100)
    context.obj = Call(command="")
    lines = command.get_help(context).splitlines()
    assert [line for line in lines if across(line) > width and not line.startswith("    dynoan ")] == []
