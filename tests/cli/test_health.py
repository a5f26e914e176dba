"""`dynoan health`: a weak shock against its own earlier test."""

from __future__ import annotations

import re

import pytest

from tests.cli import pack_library

packs, run = pack_library.packs, pack_library.run


def test_the_force_it_lost_is_named(run):
    ran = run("--json", "health", "RR-04")
    assert ran.code == 1
    assert ran.result["verdict"] == "changed"
    assert {f["name"] for f in ran.result["findings"]} == {"less compression force", "less rebound force"}
    assert (ran.result["first"], ran.result["last"]) == ("2025-09-01", "2026-03-14")
    force = [c for c in ran.result["changes"] if c["quantity"] == "force" and c["velocity_m_s"] > 0.09]
    assert all(abs(c["change_pct"] + 14.9) < 3 for c in force)


def test_people_read_evidence_and_meaning_and_see_the_trend(run, packs):
    ran = run("health", "RR-04", "--plot", "h.png")
    assert "less rebound force" in ran.out
    assert "usually:" in ran.out
    assert (packs / "h.png").stat().st_size > 20_000


def test_speeds_are_round_in_the_units_asked_for(run):
    said = run("health", "RR-04", "--units", "us").out
    assert "rebound force at 4.0 in/s" in said
    assert "rebound force at 16.0 in/s" in said


def test_wrong_calls(run):
    for words, said in (
        (("health", "FL-01"), "one date only"),
        (("health", "XX-99"), "no sweep of shock 'XX-99'"),
        (("health", "RR-04", "--since", "soon"), "--since: 'soon' is no date"),
    ):
        ran = run(*words)
        assert ran.code == 2
        assert said in ran.err


@pytest.mark.thorough
def test_a_season_of_tables_tells_since_when(run, packs):
    speeds, soft = (25, 50, 100, 150, 200, 250, 300, 400, 500), (60, 120, 200, 250, 290, 330, 370, 450, 530)
    files = []
    for month in range(1, 9):
        share = (0.8 if month > 5 else 1.0) * (1 + 0.002 * (-1) ** month)
        rows = [f"{v},{f * share:.1f},{-1.5 * f:.1f}" for v, f in zip(speeds, soft, strict=True)]
        head = f"Shock,RR-09\nPack,gravel\nClicks,LSC 8\nDate,2025-0{month}-10\nGas force removed,yes\n\n"
        files.append(packs / f"rr09_{month}.csv")
        files[-1].write_text(head + "Velocity (mm/s),Compression (N),Rebound (N)\n" + "\n".join(rows) + "\n")
    assert run("add", *map(str, files)).code == 0
    said = run("health", "RR-09").out
    share = re.search(r"compression force, all speeds together stepped by (-[\d.]+) %", said)
    assert share is not None
    assert float(share[1]) == pytest.approx(-19.9, abs=0.2)
    assert "between 2025-05-10 and 2025-06-10 (95 %: after 2025-" in said
    assert "rebound force, all speeds" not in said
    (step,) = run("--json", "health", "RR-09").result["steps"]
    assert (step["direction"], step["last_before"], step["first_after"]) == ("compression", "2025-05-10", "2025-06-10")
