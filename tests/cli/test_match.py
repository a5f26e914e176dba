"""`dynoan match`: pairs, advice in the shock's counting, batches."""

from __future__ import annotations

import pytest

from tests.cli import pack_library

packs, run = pack_library.packs, pack_library.run
AT = "lsc=10,hsc=10,lsr=10,hsr=10"


def test_a_pair_matches(run):
    ran = run("--json", "match", f"shock=FL-01,pack=gravel,{AT}", f"shock=FR-02,pack=gravel,{AT}")
    assert ran.result["verdict"] == "matched"
    assert ran.code == 0
    assert ran.result["tolerance_pct"] == 5
    assert {b["direction"] for b in ran.result["bands"]} == {"compression", "rebound"}
    assert all(b["low_pct"] <= b["difference_pct"] <= b["high_pct"] for b in ran.result["bands"])
    assert ran.result["advice"] == []


def test_a_weak_one_does_not_and_the_advice_would_mend_it(run):
    ran = run("--json", "match", "shock=FL-01,pack=gravel", "shock=RR-04,pack=gravel")
    assert ran.code == 1
    assert ran.result["verdict"] == "not matched"
    weak = next(a for a in ran.result["advice"] if a["what"] == "RR-04")
    assert set(weak) >= {"what", "clicks", "change", "worst_difference_pct"}
    for name, step in weak["change"].items():
        assert weak["clicks"][name] == 10 + step
        # hsr counts from soft: stiffer is more clicks there, fewer elsewhere
        assert step > 0 if name == "hsr" else step < 0
    assert weak["worst_difference_pct"] < max(abs(b["difference_pct"]) for b in ran.result["bands"])


def test_people_read_what_to_turn(run, packs):
    ran = run("match", "shock=FL-01,pack=gravel", "shock=RR-04,pack=gravel", "--plot", "m.png")
    assert "not matched at ±5 %" in ran.out
    assert "turn RR-04" in ran.out
    assert "in (stiffer)" in ran.out
    assert (packs / "m.png").exists()


def test_a_wider_tolerance_matches(run):
    ran = run("match", "shock=FL-01,pack=gravel", "shock=RR-04,pack=gravel", "--tolerance", "25")
    assert ran.code == 0


def test_files_need_no_library(run, packs, monkeypatch):
    monkeypatch.delenv("DYNOAN_LIBRARY")
    assert run("match", "gravel0.csv", "near.csv").code == 0


def test_files_alone_are_held_against_each_other_at_round_speeds_of_the_units_asked_for(
    run, packs, tmp_path, monkeypatch
):
    for name in ("gravel0.csv", "near.csv"):
        (tmp_path / name).write_bytes((packs / name).read_bytes())
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("DYNOAN_LIBRARY", raising=False)
    for units, metre, usual in (("us", 0.0254, {2, 4, 6, 10, 16}), ("metric", 0.001, {50, 100, 150, 250, 400})):
        bands = run("--json", "match", "gravel0.csv", "near.csv", "--units", units).result["bands"]
        speeds = {round(abs(band["velocity_m_s"]) / metre, 6) for band in bands}
        assert len(speeds & usual) >= len(speeds) - 1, "the last may be the top speed of both"


def test_units_that_are_asked_for_make_the_speeds_round_in_a_library_of_others_too(run):
    words = ("--json", "match", f"shock=FL-01,pack=gravel,{AT}", f"shock=FR-02,pack=gravel,{AT}")
    bands = run(*words, "--units", "us").result["bands"]
    assert {2, 4, 6, 10, 16} <= {round(abs(band["velocity_m_s"]) / 0.0254, 6) for band in bands}


def test_a_batch_is_paired(run):
    ran = run("--json", "match", "--pairs", f"pack=gravel,{AT}")
    assert ran.code == 0
    assert [(p["a"], p["b"]) for p in ran.result["pairs"]] == [("FL-01", "FR-02")] or {
        ran.result["pairs"][0]["a"], ran.result["pairs"][0]["b"],
    } == {"FL-01", "FR-02"}  # fmt: skip
    assert ran.result["left_over"] == ["RR-04"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("match", "shock=FL-01,pack=gravel"), "name two"),
        (("match", "shock=FL-01,pack=mixed", "shock=RR-04,pack=gravel"), "no tested setting in common"),
        (("match", "gravel0.csv", "near.csv", "--tolerance", "0"), "--tolerance: wanted a number of percent above 0"),
        (("match", "--pairs", "shock=FL-01,pack=mixed"), "two or more shocks"),
    ],
)
def test_wrong_calls(run, words, said):
    ran = run(*words)
    assert ran.code == 2
    assert said in ran.err
