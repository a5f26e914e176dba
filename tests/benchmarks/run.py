"""Runs every benchmark side by side with its peer and prints one Markdown table.

``python -m tests.benchmarks.run`` prints; ``--write`` puts the table into the README between its marks; names of
benchmarks (such as ``fit``) run only those. A benchmark is a module ``bench_NAME.py`` with ``rows()``: dictionaries
with ``what``, ``ours``, ``peer``, ``ratio`` and ``n``. Each benchmark has a process of its own, in which peer and ours
run in turn. Nothing here fails on a busy machine: figures, not tests.
"""

from __future__ import annotations

import json
import subprocess
import sys
from importlib import import_module
from pathlib import Path

HERE = Path(__file__).parent
README = HERE.parents[1] / "README.md"
START, END = "<!-- benchmarks: start -->", "<!-- benchmarks: end -->"


def names() -> list[str]:
    """The benchmarks there are."""
    return sorted(path.stem.removeprefix("bench_") for path in HERE.glob("bench_*.py"))


def table(rows: list[dict[str, object]]) -> str:
    """One Markdown table."""
    keys = ("what", "n", "ours", "peer", "ratio")
    lines = ["| what, against what | size | ours | peer | ratio |", "| --- | --- | --- | --- | --- |"]
    lines += ["| " + " | ".join(str(row.get(key, "")).replace("|", "/") for key in keys) + " |" for row in rows]
    return "\n".join(lines)


def measured(name: str) -> list[dict[str, object]]:
    """The rows of one benchmark, from a fresh process: threads and memory of one must not touch the next."""
    command = [sys.executable, "-m", "tests.benchmarks.run", "--rows", name]
    said = subprocess.run(command, cwd=HERE.parents[1], stdout=subprocess.PIPE, text=True, check=True).stdout
    rows: list[dict[str, object]] = json.loads(said.splitlines()[-1])
    return rows


def main(arguments: list[str]) -> None:
    """Run the benchmarks named, or all."""
    if arguments[:1] == ["--rows"]:
        print(json.dumps(import_module(f"tests.benchmarks.bench_{arguments[1]}").rows()))
        return
    wanted = [a for a in arguments if not a.startswith("-")] or names()
    rows: list[dict[str, object]] = []
    for name in wanted:
        print(f"running {name} …", file=sys.stderr, flush=True)
        rows += measured(name)
    text = table(rows)
    print(text)
    if "--write" in arguments:
        before, rest = README.read_text(encoding="utf-8").split(START)
        README.write_text(f"{before}{START}\n{text}\n{END}{rest.split(END)[1]}", encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
