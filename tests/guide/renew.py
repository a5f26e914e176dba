"""Writes the output beneath the guide's examples, and its pictures, anew from the program:

    python -m tests.guide.renew
    python -m tests.guide.renew curves packs
    python -m tests.guide.renew --check

A line "…" in an example stands for lines left out and stays where the lines around it are still found; else the whole
output takes its place. A picture that a page's command draws (``--plot curve.png``) is kept where the page shows it.
"""

from __future__ import annotations

import re
import sys
import tempfile
from pathlib import Path

from PIL import Image

from dynoan.guide import Topic, topics
from tests.guide.grounds import GuideGrounds
from tests.guide.pages import FENCE, agrees, ground
from tests.guide.running import ran

GUIDE = Path(__file__).parents[2] / "dynoan" / "guide"
SHOWN = re.compile(r"!\[[^\]]*\]\(\.\./pictures/([\w-]+\.png)\)")


def main(words: list[str]) -> int:
    """Renew all pages or those named; return 1 where --check found a difference."""
    check = "--check" in words
    wanted = [w for w in words if not w.startswith("-")]
    different = 0
    with tempfile.TemporaryDirectory(prefix="guide-") as folder:
        grounds = GuideGrounds(Path(folder))
        for topic in topics():
            if not wanted or topic.name in wanted:
                different += _page(topic, grounds, check)
    return int(check and different > 0)


def _page(topic: Topic, grounds: GuideGrounds, check: bool) -> int:
    text = topic.text
    with grounds.copy(ground(topic)) as folder:
        said = []
        for step, lines, code in ran(topic, folder):
            kept = step.said and agrees(step.said, lines)
            said.append(list(step.said) if kept else lines)
            if code == 2:
                print(f"{topic.name}: dynoan {' '.join(step.words)}: exit 2", file=sys.stderr)
        text = _with_output(text, iter(said))
        for name in SHOWN.findall(text):
            if (folder / name).exists() and not check:
                _keep_small(folder / name, GUIDE / "pictures" / name)
    if text != topic.text:
        print(f"{topic.name}: differs" if check else f"{topic.name}: renewed", file=sys.stderr)
        if not check:
            next((GUIDE / "pages").glob(f"*-{topic.name}.md")).write_text(text, encoding="utf-8")
    return int(text != topic.text)


def _with_output(text: str, said: object) -> str:
    def fence(match: re.Match[str]) -> str:
        if match["kind"] != "console":
            return match[0]
        parts = re.split(r"^(?=\$ )", match["body"], flags=re.MULTILINE)
        return "```console\n" + "".join(map(typed, filter(None, parts))) + "```"

    def typed(part: str) -> str:
        lines = part.splitlines()
        command = [lines.pop(0)]
        while command[-1].endswith("\\"):
            command.append(lines.pop(0))
        return "\n".join([*command, *next(said)]) + "\n"  # type: ignore[call-overload]

    return FENCE.sub(fence, text)


def _keep_small(picture: Path, to: Path) -> None:
    """Keep a picture in 255 colours: a third of the bytes in every wheel, and no eye sees it."""
    with Image.open(picture) as image:
        image.convert("RGB").quantize(255, dither=Image.Dither.NONE).save(to, "PNG", optimize=True)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
