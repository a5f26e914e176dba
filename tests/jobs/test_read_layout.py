"""Options that made a file readable are kept as a layout, by which the next file of that rig is read without any."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import CallError, DynoanError, ReadError
from dynoan.jobs.read import ReadQuestion, answer
from dynoan.workbench import Workbench

T = np.arange(600) / 200
X, F = 20 * np.sin(2 * np.pi * T), 377 * np.cos(2 * np.pi * T) + 120
TOLD = {"columns": {"time": "Clk", "displacement": "2", "force": "Ld"},
        "units": {"time": "s", "displacement": "mm", "force": "N"}}  # fmt: skip


@pytest.fixture
def bench(library):
    return Workbench(library)


def odd(folder, names="Clk;Where;Ld"):
    path = folder / "odd.csv"
    path.write_text("\n".join([names, *(f"{t:.4f};{x:.3f};{f:.1f}" for t, x, f in zip(T, X, F, strict=True))]) + "\n")
    return path


def test_what_was_stated_is_kept_and_read_by_and_named_in_the_evidence(bench, tmp_path):
    path = odd(tmp_path)
    told = answer(bench, ReadQuestion.asked(path, save_layout="old-rig", **TOLD))
    assert told.layout == bench.library.path / "layouts" / "old-rig.toml"
    (by_layout,) = answer(bench, ReadQuestion.asked(path)).sweeps
    (stated,) = told.sweeps
    for channel in ("force", "displacement"):
        np.testing.assert_array_equal(by_layout.channels[channel], stated.channels[channel])
    assert by_layout.source.importer == "old-rig"
    assert by_layout.decisions["force"].evidence.startswith("stated by layout 'old-rig'")
    assert stated.decisions["force"].evidence.startswith("stated by the user")


def test_the_user_wins_over_a_layout_and_is_named(bench, tmp_path):
    path = odd(tmp_path)
    answer(bench, ReadQuestion.asked(path, save_layout="old-rig", **TOLD))
    (sweep,) = answer(bench, ReadQuestion.asked(path, units={"force": "lbf"})).sweeps
    assert sweep.decisions["force"].evidence.startswith("stated by the user")
    assert sweep.decisions["displacement"].evidence.startswith("stated by layout 'old-rig'")


def test_a_file_compared_or_curved_is_read_by_the_layout_too(bench, tmp_path):
    path = odd(tmp_path)
    with pytest.raises(ReadError):
        bench.resolve(str(path))
    answer(bench, ReadQuestion.asked(path, save_layout="old-rig", **TOLD))
    (found,) = bench.resolve(str(path))
    assert found.sweeps[0].source.importer == "old-rig"


def test_nothing_stated_is_nothing_to_keep(bench, tmp_path):
    path = odd(tmp_path, "Time [s];Position [mm];Force [N]")
    with pytest.raises(CallError, match="nothing is stated that a layout could hold"):
        answer(bench, ReadQuestion.asked(path, save_layout="plain"))
    assert bench.library.layouts() == ()


def test_a_layout_is_made_of_one_file_and_never_over_another(bench, tmp_path):
    path = odd(tmp_path)
    with pytest.raises(CallError, match="2 files: a layout is made from one"):
        answer(bench, ReadQuestion.asked(path, path, save_layout="old-rig", **TOLD))
    answer(bench, ReadQuestion.asked(path, save_layout="old-rig", **TOLD))
    before = (bench.library.path / "layouts" / "old-rig.toml").read_text()
    with pytest.raises(DynoanError, match="is there already"):
        answer(bench, ReadQuestion.asked(path, save_layout="old-rig", positive="rebound", **TOLD))
    assert (bench.library.path / "layouts" / "old-rig.toml").read_text() == before


def test_a_file_that_cannot_be_read_leaves_no_layout(bench, tmp_path):
    found = answer(bench, ReadQuestion.asked(odd(tmp_path), save_layout="old-rig", units={"force": "N"}))
    assert found.failures
    assert found.layout is None
    assert bench.library.layouts() == ()


def test_a_file_without_names_cannot_be_known_again(bench, tmp_path):
    path = odd(tmp_path)
    path.write_text("\n".join(path.read_text().splitlines()[1:]) + "\n")
    numbers = {"time": "1", "displacement": "2", "force": "3"}
    with pytest.raises(ReadError, match="no line names its columns"):
        answer(bench, ReadQuestion.asked(path, save_layout="x", columns=numbers, units=TOLD["units"]))
