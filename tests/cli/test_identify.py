"""`dynoan identify`: the pack and clicks of an unlabelled shock."""

from __future__ import annotations

from tests.cli import pack_library
from tests.cli.pack_library import counted

packs, run = pack_library.packs, pack_library.run


def test_the_unknown_is_first_with_its_clicks(run):
    # Seven peak tables a pack leave open whether it is one that is alike and not here: an answer, though not a yes.
    ran = run("--json", "identify", "unknown.csv")
    assert ran.code == 1
    assert ran.result["verdict"] == "cannot tell"
    assert ran.result["telling_run"]["tells"]
    best = ran.result["matches"][0]
    assert set(best) >= {"pack", "clicks", "difference_pct", "probability"}
    assert best["pack"] == "mixed"
    assert best["probability"] > 0.8
    true = counted((7, 12, 9, 6))
    assert sum(abs(best["clicks"][n] - true[n]) for n in true) / 4 <= 2.5
    assert all(best["clicks_low"][n] <= best["clicks"][n] <= best["clicks_high"][n] for n in true)
    probabilities = [m["probability"] for m in ran.result["matches"]]
    assert probabilities == sorted(probabilities, reverse=True)
    assert abs(sum(probabilities) + ran.result["probability_of_none"] - 1) < 1e-9


def test_a_stranger_is_refused(run):
    ran = run("identify", "stranger.csv")
    assert ran.code == 1
    assert "none of these packs" in ran.out


def test_only_some_packs(run):
    ran = run("--json", "identify", "unknown.csv", "--packs", "gravel")
    assert [m["pack"] for m in ran.result["matches"]] == ["gravel"]


def test_wrong_calls(run):
    for words, said in (
        (("identify", "nosuch.csv"), "nosuch.csv"),
        (("identify", "unknown.csv", "--packs", "x"), "pack 'x'"),
    ):
        ran = run(*words)
        assert ran.code == 2
        assert said in ran.err
