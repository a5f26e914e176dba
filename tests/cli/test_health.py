"""`dynoan health`: a weak shock against its own earlier test."""

from __future__ import annotations

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


def test_wrong_calls(run):
    for words, said in (
        (("health", "FL-01"), "one date only"),
        (("health", "XX-99"), "no sweep of shock 'XX-99'"),
        (("health", "RR-04", "--since", "soon"), "--since soon"),
    ):
        ran = run(*words)
        assert ran.code == 2
        assert said in ran.err
