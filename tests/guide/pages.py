"""The guide's pages as tests see them: files to write, command lines to run, and the output that stands beneath."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from dynoan.guide import Topic

FENCE = re.compile(r"^```(?P<kind>\w+)(?: (?P<name>\S+))?\n(?P<body>.*?)^```$", re.MULTILINE | re.DOTALL)
GROUND = re.compile(r"\A<!-- ground: (?P<ground>[a-z]+) -->\n")
#: stands for lines that an example leaves out
LEFT_OUT = "…"


@dataclass(frozen=True)
class Step:
    """A command line as a page shows it, or a file that a page has written."""

    words: tuple[str, ...] = ()
    said: tuple[str, ...] = ()  #: the lines beneath; `LEFT_OUT` alone on a line stands for any lines
    file: str = ""
    text: str = ""


def ground(topic: Topic) -> str:
    """Return the name of the folder a page begins in."""
    found = GROUND.match(topic.text)
    return found["ground"] if found else "demo"


def steps(topic: Topic) -> Iterator[Step]:
    """Yield what a page does, in order: a fence "toml cars/x.toml" is a file, a fence "console" command lines."""
    for fence in FENCE.finditer(topic.text):
        if fence["name"]:
            yield Step(file=fence["name"], text=fence["body"])
        elif fence["kind"] == "console":
            yield from _typed(fence["body"])


def _typed(body: str) -> Iterator[Step]:
    for part in re.split(r"^\$ ", body, flags=re.MULTILINE)[1:]:
        line, *said = part.splitlines()
        while line.endswith("\\"):
            line = line[:-1] + said.pop(0).strip()
        while said and not said[-1].strip():
            said.pop()
        program, *words = shlex.split(line)
        assert program == "dynoan", f"an example runs dynoan alone, not: {line}"
        yield Step(tuple(words), tuple(said))


def expanded(words: tuple[str, ...], folder: Path) -> list[str]:
    """Return words with file patterns spelled out, as a shell does."""
    out: list[str] = []
    for word in words:
        found = sorted(str(p.relative_to(folder)) for p in folder.glob(word)) if "*" in word else []
        out += found or [word]
    return out


def agrees(stated: tuple[str, ...], found: list[str]) -> bool:
    """Tell whether output is what a page states, lines left out aside."""
    parts: list[list[str]] = [[]]
    for line in stated:
        if line.strip() == LEFT_OUT:
            parts.append([])
        else:
            parts[-1].append(line)
    if len(parts) == 1:
        return parts[0] == found
    head, tail = parts[0], parts[-1]
    if found[: len(head)] != head or (tail and found[-len(tail) :] != tail):
        return False
    rest = found[len(head) : len(found) - len(tail)]
    return all((rest := _after(part, rest)) is not None for part in parts[1:-1])


def _after(part: list[str], lines: list[str]) -> list[str] | None:
    """Return what comes after the first place where a part stands, None where it stands nowhere."""
    for at in range(len(lines) - len(part) + 1):
        if lines[at : at + len(part)] == part:
            return lines[at + len(part) :]
    return None
