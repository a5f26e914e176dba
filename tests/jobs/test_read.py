"""Reading rig files as question and answer: what is found, what fails, and what the answer gives away."""

from __future__ import annotations

import json
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from dynoan.errors import CallError
from dynoan.jobs.read import ReadQuestion, answer
from dynoan.model.shock import parse_clicks
from dynoan.show import presenting
from dynoan.show.text.blocks import Look, Note, Paragraph
from dynoan.workbench import Workbench
from tests.importers.broken import file, rows
from tests.library.calling import write_run
from tests.library.made import LAYOUT

CORPUS = Path(__file__).parents[2] / "fixtures" / "layouts"
PLAIN = CORPUS / "plain_comma.csv"
PEAKS = CORPUS / "peaks_us_positive.csv"
BLOCKS = CORPUS / "blocks_with_clicks.csv"


def ask(*paths, **stated):
    return answer(None, ReadQuestion.asked(*paths, **stated))


def test_a_wrong_value_is_refused_before_any_file_is_read(tmp_path):
    with pytest.raises(CallError) as wrong:
        ReadQuestion.asked(tmp_path / "gone.csv", clicks="lsc")
    assert wrong.value.part == "clicks"


def test_what_is_stated_wins_and_is_said():
    found = ask(PLAIN, shock="RL-09", clicks={"lsc": 3}, positive="rebound", units={"force": "lbf"})
    (sweep,) = found.sweeps
    assert (sweep.shock, sweep.pack, sweep.clicks) == ("RL-09", "gravel", {"lsc": 3, "lsr": 8})
    assert (sweep.decisions["force"].unit, sweep.decisions["force"].sign) == ("lbf", -1)
    assert any(text.startswith("plain_comma.csv: ") and "as told" in text for text in found.warnings)


def test_a_file_that_cannot_be_read_does_not_hide_the_others(tmp_path):
    (tmp_path / "prose.csv").write_text("nothing here\n")
    found = ask(PLAIN, tmp_path / "prose.csv", tmp_path / "gone.csv", tmp_path, PEAKS)
    assert [bool(f.sweeps) for f in found.files] == [True, False, False, False, True]
    assert [f.error for f in found.files if f.error] == list(found.failures)
    gone = tmp_path / "gone.csv"
    assert found.failures[1] == f"{gone}: no such file; check the name; it was looked for in {tmp_path}"
    assert "this is a folder" in found.failures[2]
    assert not found.no


@pytest.mark.parametrize(
    ("fault", "says"),
    [
        (ZeroDivisionError("by zero"), "a.csv: a fault of the program (ZeroDivisionError: by zero)"),
        (MemoryError(), "a.csv: not enough memory"), (PermissionError(13, "Permission denied"), "Permission denied"),
    ],
)  # fmt: skip
def test_any_fault_of_one_file_is_a_line(monkeypatch, tmp_path, fault, says):
    def refuse(path, options):
        raise fault

    monkeypatch.setattr("dynoan.jobs.read.answering.read_file", refuse)
    assert says in ask(tmp_path / "a.csv").failures[0]


def test_a_fault_of_the_program_can_be_raised(monkeypatch, tmp_path):
    monkeypatch.setattr("dynoan.jobs.read.answering.read_file", lambda path, options: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        answer(None, ReadQuestion((tmp_path / "a.csv",), tolerant=False))


def test_the_teams_layouts_are_used_where_a_library_is_at_hand(library, tmp_path):
    (library.path / "layouts" / "old-rig.toml").write_text(LAYOUT)
    (tmp_path / "run.txt").write_bytes(file("Clk;Pos;Ld", rows("{t:.4f};{x:.3f};{f:.1f}")))
    question = ReadQuestion.asked(tmp_path / "run.txt")
    assert answer(Workbench.find(library.path), question).sweeps[0].source.importer == "old-rig"
    assert all(s.source.importer != "old-rig" for s in answer(None, question).sweeps)


def test_velocity_and_peaks_are_those_of_the_motion_written(tmp_path):
    write_run(tmp_path / "a.csv")  # 200 mm/s of speed, 9 N a mm/s and 130 N of gas, noise of 5 N
    (found,) = ask(tmp_path / "a.csv").files[0].sweeps
    assert np.max(np.abs(found.velocity)) == pytest.approx(0.2, abs=1e-3)
    assert found.peaks["compression"].force == pytest.approx(9 * 200 + 130, abs=25)
    assert found.peaks["rebound"].force == pytest.approx(9 * 200 - 130, abs=25)


def test_plain_values_and_rows_tell_the_same_and_hold_the_promised_keys():
    found = ask(PLAIN, BLOCKS, PEAKS)
    plain = found.to_dict()
    json.dumps(plain)
    assert [len(f["sweeps"]) for f in plain["files"]] == [1, 2, 1]
    keys = {"layout", "shock", "pack", "clicks", "samples", "rate_hz", "compression", "rebound", "channels", "warnings"}
    flat = [sweep for f in plain["files"] for sweep in f["sweeps"]]
    for sweep, row in zip(flat, found.rows(), strict=True):
        assert keys <= set(sweep)
        assert row["compression_peak_force_n"] == sweep["compression"]["peak_force_n"]
        assert row["rebound_peak_velocity_m_s"] == sweep["rebound"]["peak_velocity_m_s"]
        assert parse_clicks(row["clicks"]) == sweep["clicks"]


def test_plain_values_hold_rod_gas_and_counting(tmp_path):
    path = tmp_path / "a.csv"
    path.write_text(
        "Rod: 14 mm\nGas: 10 bar\nLSC 6 LSR 8 from soft\nmm/s,C N,R N\n50,380,610\n100,560,980\n200,810,1450\n"
    )
    (sweep,) = ask(path).to_dict()["files"][0]["sweeps"]
    assert (sweep["rod_m"], sweep["gas_pressure_pa"]) == (0.014, 1e6)
    assert sweep["counted"] == {"lsc": "from soft", "lsr": "from soft"}


def test_the_frame_has_a_row_a_sweep_and_units_in_its_columns():
    frame = ask(PLAIN, BLOCKS).to_frame()
    assert len(frame) == 3
    assert {"path", "part", "rate_hz", "compression_peak_force_n", "gas_pressure_pa", "stroke_m"} <= set(frame.columns)


def test_text_has_a_card_a_sweep_in_the_units_asked_and_a_note_a_failure(tmp_path):
    found = ask(PLAIN, tmp_path / "gone.csv", PEAKS)
    card, _, _, failure, peaks, _, _ = presenting.blocks(found, Look("us"))
    assert isinstance(card, Paragraph)
    assert card.text.splitlines()[0] == "plain_comma.csv: trace, 529 samples at 100 Hz, 5.3 s"
    assert "compression 204.6 lbf at up to 11.8 in/s" in card.text  # 910.2 N / 4.4482216 N, 300.7 mm / 25.4 mm
    assert failure == Note(found.failures[0], failed=True)
    assert "lbf at up to 20.0 in/s" in peaks.text
    assert "file says:" not in card.text
    more = presenting.blocks(found, Look("us", more=True))
    assert any("file says:" in block.text for block in more if isinstance(block, Paragraph))


def test_a_page_keeps_the_drawing_and_escapes_what_the_file_says(tmp_path):
    path = write_run(tmp_path / "a.csv", facts="Shock: <b>RL</b>\n")
    page = presenting.html(ask(path))
    assert "<pre>" in page
    assert "<b>" not in page


def test_the_picture_shows_every_sweep():
    one, several = (presenting.figure(ask(*paths)) for paths in ((PLAIN,), (PLAIN, BLOCKS)))
    assert [line.get_label() for line in one.axes[0].lines[:2]] == ["compression", "rebound"]
    assert len(several.axes[0].get_legend_handles_labels()[0]) == 3
    assert "[in/s]" in presenting.figure(ask(PLAIN), "us").axes[0].get_xlabel()


def test_warnings_are_those_of_the_sweeps_with_the_file_in_front():
    found = ask(BLOCKS, pack="wet")
    parts = {s.source.part for s in found.sweeps}
    assert len(parts) == 2
    assert all(any(f"({part}): " in text for text in found.warnings) for part in parts)
    assert replace(found, warnings=()).to_dict() == found.to_dict()


def test_reading_needs_neither_the_shell_nor_the_analysis():
    code = (
        "import sys\nfrom dynoan.jobs.read import ReadQuestion, answer\n"
        f"assert answer(None, ReadQuestion.asked({str(PLAIN)!r})).sweeps\nprint('\\n'.join(sys.modules))"
    )
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split()
    assert not [m for m in loaded if m.startswith(("dynoan.analysis", "dynoan.cli", "click", "matplotlib", "h5py"))]
