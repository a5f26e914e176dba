"""Records the stored answers from the program that can be imported.

All of them, or chosen slugs; with ``--added`` only those that tell nothing but new keys, which breaks no promise:

    python -m tests.golden.record
    python -m tests.golden.record ratio-us demo-launch
    python -m tests.golden.record --plain demo-ratio
    python -m tests.golden.record --added
    python -m tests.golden.record --check

DYNOAN_GOLDEN_SOURCE=FOLDER runs the program of another folder, such as a clone of an earlier state.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from tests.golden import store
from tests.golden.answering import KINDS, answer, held
from tests.golden.commands import BY_SLUG, LINES
from tests.golden.compare import differences, only_added, report
from tests.golden.grounds import Grounds
from tests.golden.line import Line


def main(words: list[str]) -> int:
    """Record or check; return 1 where a check found a difference."""
    asked = _asked(words)
    chosen = [BY_SLUG[slug] for slug in asked.slugs] or list(LINES)
    kinds = [kind for kind in KINDS if not (asked.json or asked.plain) or getattr(asked, kind)]
    with tempfile.TemporaryDirectory(prefix="golden-") as folder:
        grounds = Grounds(Path(folder))
        for ground in {line.ground for line in chosen}:
            begun = time.process_time()
            grounds.of(ground)
            print(f"ground {ground}: {time.process_time() - begun:.1f} s", file=sys.stderr)
        different = sum([_kind(kind, chosen, grounds, asked) for kind in kinds])
    return int(asked.check and different > 0)


def _asked(words: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.golden.record", description="Record golden answers.")
    parser.add_argument("slugs", nargs="*", choices=[[], *BY_SLUG], metavar="SLUG", help="lines to record; else all")
    parser.add_argument("--json", action="store_true", help="only the JSON answers")
    parser.add_argument("--plain", action="store_true", help="only the text for people and the files left")
    parser.add_argument("--added", action="store_true", help="only where nothing but new keys differs")
    parser.add_argument("--check", action="store_true", help="store nothing; show what differs")
    parser.add_argument("--slowest", type=int, default=0, metavar="N", help="show the slowest lines")
    return parser.parse_args(words)


def _kind(kind: str, chosen: Iterable[Line], grounds: Grounds, asked: argparse.Namespace) -> int:
    """Record one kind of answers; return how many differ from the stored."""
    stored = {ground: dict(store.load(kind, ground)) for ground in {line.ground for line in LINES}}
    took: dict[str, float] = {}
    different = 0
    for line in chosen:
        if not held(kind, line):
            continue
        begun = time.process_time()
        found = answer(kind, line, grounds)
        took[line.slug] = time.process_time() - begun
        different += _take(line, found, stored[line.ground], asked)
    if not asked.check:
        known = {line.slug for line in LINES if held(kind, line)}
        for ground, answers in stored.items():
            store.save(kind, ground, {slug: a for slug, a in answers.items() if slug in known})
    print(f"{kind}: {len(took)} lines in {sum(took.values()):.1f} s of one core, {different} differ", file=sys.stderr)
    for slug in sorted(took, key=took.__getitem__, reverse=True)[: asked.slowest]:
        print(f"  {took[slug]:6.2f} s  {slug}", file=sys.stderr)
    return different


def _take(line: Line, found: Any, answers: store.Answers, asked: argparse.Namespace) -> int:
    before = answers.get(line.slug)
    differing = differences(before, found, line.tolerance)
    if asked.check and differing:
        print(f"{line.slug}: {report(line.text, differing)}")
    if not asked.check and (not asked.added or only_added(before, found, line.tolerance)):
        answers[line.slug] = found
    return bool(differing)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
