"""A figure more in the list of the ratio job is seen at every door: no other file is touched."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import dynoan
from tests.cli.pages import small_library
from tests.show.pages.test_report import read

pytestmark = pytest.mark.slow
ROOT = Path(dynoan.__file__).parents[1]
LINES = {
    "CORNER: ": 'Measure("twice_hop_hz", "double hop", lambda c: 2 * (c.rates.hop_frequency or 0), unit="Hz"),',
    "DIRECTION: ": 'Measure("fall", "fall", lambda s: s.side.low.value - s.side.high.value, digits=3),',
}
#: asks every door; no table of a report hangs on its pictures
ASK = """
import json, dynoan
from dynoan.show import presenting
from dynoan.show.pages.report import blocks
blocks.svg_text = lambda figure, label: "<svg></svg>"
from dynoan.show.text.blocks import Look
lib = dynoan.open()
found = lib.ratio("kestrel")
heads = [c for b in presenting.blocks(found, Look()) for c in getattr(b, "columns", ())]
print(json.dumps({"from": dynoan.__file__, "json": found.to_dict()["corners"]["fl"], "heads": heads,
                  "frame": found.to_frame().iloc[0].to_dict(), "page": lib.report("kestrel", launch=False).page()}))
"""


@pytest.fixture(scope="module")
def found(tmp_path_factory):
    """What a copy of the program with the two lines says of the Kestrel."""
    folder = tmp_path_factory.mktemp("program")
    shutil.copytree(ROOT / "dynoan", folder / "dynoan")  # with what was compiled of it
    file = folder / "dynoan" / "jobs" / "ratio" / "figures.py"
    text = file.read_text(encoding="utf-8")
    for start, line in LINES.items():
        at = text.index("= (\n", text.index(f"\n{start}")) + len("= (\n")
        text = f"{text[:at]}    {line}\n{text[at:]}"
    file.write_text(text, encoding="utf-8")
    library = small_library(tmp_path_factory.getbasetemp())
    paths = os.pathsep.join((str(folder), str(ROOT)))
    said = subprocess.run([sys.executable, "-c", ASK], capture_output=True, text=True, check=True, cwd=library,
                          env=os.environ | {"PYTHONPATH": paths})  # fmt: skip
    answer = json.loads(said.stdout)
    assert Path(answer["from"]).is_relative_to(folder)
    return answer


def test_it_is_in_the_json(found):
    corner = found["json"]
    assert corner["twice_hop_hz"] == pytest.approx(2 * corner["hop_frequency_hz"])
    for d in ("compression", "rebound"):
        ratio = corner["ratio"][d]
        assert corner["equivalent"][d]["fall"] == pytest.approx(ratio["low"] - ratio["high"])


def test_it_is_in_the_frame(found):
    row = found["frame"]
    assert row["twice_hop_hz"] == pytest.approx(2 * row["hop_frequency_hz"])
    assert row["ratio_rebound_fall"] == pytest.approx(row["ratio_rebound_low"] - row["ratio_rebound_high"])


def test_it_is_in_the_terminal(found):
    assert {"double hop Hz", "fall"} <= set(found["heads"])


def test_it_is_in_the_report(found):
    tables = read(found["page"]).tables
    rates, others = tables["Rates and critical damping"], tables["The same by other measures"]
    assert float(rates[1][rates[0].index("Double hop [Hz]")]) == pytest.approx(found["json"]["twice_hop_hz"], abs=0.006)
    fall = found["json"]["equivalent"]["compression"]["fall"]
    assert float(others[1][others[0].index("Fall")]) == pytest.approx(fall, abs=0.0006)
