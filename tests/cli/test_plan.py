"""`dynoan plan`: runs, their worth, and the sheet for the dyno shop."""

from __future__ import annotations

import csv
import io

import pytest

from tests.cli import pack_library

packs, run = pack_library.packs, pack_library.run


def test_json_holds_the_promised_keys(run):
    ran = run("--json", "plan", "gravel", "--runs", "3")
    assert ran.code == 0
    assert len(ran.result["runs"]) == 3
    assert set(ran.result["runs"][0]) >= {"clicks", "expected_gain_pct"}
    assert ran.result["error_after_pct"] <= ran.result["error_now_pct"]
    assert ran.result["error_now_pct"] - sum(r["expected_gain_pct"] for r in ran.result["runs"]) == pytest.approx(
        ran.result["error_after_pct"]
    )


def test_a_new_pack_needs_its_shock(run):
    ran = run("plan", "sand")
    assert ran.code == 2
    assert "--shock NAME" in ran.err
    ran = run("--json", "plan", "sand", "--shock", "FL-01", "--runs", "3")
    assert ran.result["tests"] == 0
    assert "no sweep of pack sand yet" in ran.warnings[0]


def test_the_csv_sheet_has_blanks_to_fill(run, packs):
    assert run("plan", "sand", "--shock", "FL-01", "--runs", "3", "--sheet", "s.csv").code == 0
    rows = list(csv.DictReader(io.StringIO((packs / "s.csv").read_text(encoding="utf-8"))))
    assert len(rows) == 3
    assert rows[0]["file"] == ""
    assert rows[0]["shock"] == "FL-01"
    assert rows[0]["hsr"].isdigit()


def test_the_sheet_to_print_stands_alone(run, packs):
    assert run("plan", "sand", "--shock", "FL-01", "--runs", "3", "--sheet", "s.html").code == 0
    page = (packs / "s.html").read_text(encoding="utf-8")
    assert "hsr from soft" in page
    assert "://" not in page
    assert "Content-Security-Policy" in page
    assert run("plan", "sand", "--shock", "FL-01", "--runs", "3", "--sheet", "s.txt").code == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [(("plan", "gravel", "--runs", "0"), "--runs: wanted 1 to 50, found 0"),
     (("plan", "gravel", "--sheet", "s.pdf"), ".csv"), (("plan", "gravel", "--top", "quick"), "--top")],
)  # fmt: skip
def test_wrong_calls(run, words, said):
    ran = run(*words)
    assert ran.code == 2
    assert said in ran.err
