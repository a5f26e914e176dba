"""`dynoan predict`: the curve at any click, its band and its standing, in the shock's own counting."""

from __future__ import annotations

import numpy as np
import pytest

from fixtures.rig import PACKS
from tests.cli import pack_library
from tests.cli.pack_library import NAMES, counted

packs, run = pack_library.packs, pack_library.run


def _clicks(*from_closed: int) -> str:
    return ",".join(f"{k}={v}" for k, v in counted(from_closed).items())


def test_json_holds_the_promised_keys_and_lies_near_the_truth(run):
    ran = run("--json", "predict", "gravel", "--clicks", _clicks(8, 8, 8, 8), "--at", "50,100,250")
    assert ran.code == 0
    (curve,) = ran.result["curves"]
    assert set(curve) >= {"what", "shock", "pack", "clicks", "gas_force_n", "friction_n", "rms_n", "standing",
                          "compression", "rebound", "table"}  # fmt: skip
    assert curve["standing"] == "between"
    assert curve["clicks"] == counted((8, 8, 8, 8))
    assert [row["velocity_m_s"] for row in curve["table"]] == [-0.25, -0.1, -0.05, 0.05, 0.1, 0.25]
    truth = PACKS["gravel"].damping(np.array([-0.25, -0.1, -0.05, 0.05, 0.1, 0.25]), dict.fromkeys(NAMES, 8))
    np.testing.assert_allclose([row["force_n"] for row in curve["table"]], truth, rtol=0.06)
    assert all(row["low_n"] < row["force_n"] < row["high_n"] for row in curve["table"])


def test_counting_from_soft_turns_the_same_way_as_the_shock(run):
    soft = run("--json", "predict", "gravel", "--clicks", "hsr=0", "--at", "0.25 m/s").result["curves"][0]["table"][0]
    hard = run("--json", "predict", "gravel", "--clicks", "hsr=20", "--at", "0.25 m/s").result["curves"][0]["table"][0]
    assert abs(hard["force_n"]) > abs(soft["force_n"])


def test_several_clicks_and_the_short_form(run):
    assert len(run("--json", "predict", "gravel", "--clicks", "lsc=3", "--clicks", "lsc=9").result["curves"]) == 2
    assert run("--json", "predict", "gravel@lsc=3").result["curves"][0]["clicks"]["lsc"] == 3


def test_people_read_standing_counting_and_what_a_click_is_worth(run):
    ran = run("predict", "gravel", "--clicks", "lsc=20")
    assert ran.code == 0
    for words in ("outside the tested clicks", "hsr from soft", "a click out of", "A starting point, not a promise"):
        assert words in ran.out, words


def test_tested_settings_stand_as_tested(run):
    assert (
        run("--json", "predict", "gravel", "--clicks", _clicks(10, 10, 10, 10)).result["curves"][0]["standing"]
        == "tested"
    )


def test_a_picture_is_left(run, packs):
    assert run("predict", "gravel", "--plot", "p.svg").code == 0
    assert (packs / "p.svg").read_text(encoding="utf-8").lstrip().startswith("<?xml")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("predict", "sand"), "no sweep of pack 'sand'; it holds gravel, mixed"),
        (("predict", "gravel", "--clicks", "lsc=21"), "lsc=21 is outside"),
        (("predict", "gravel", "--clicks", "cr=2"), "has no adjuster 'cr'"),
        (("predict", "gravel", "--clicks", "lcs=5"), "'lcs' is no adjuster (did you mean 'lsc'?); they are lsc"),
        (("predict", "gravel", "--clicks", "low=5"), "--clicks: 'low' is no adjuster; they are lsc,"),
        (("predict", "gravel", "--clicks", "lsc"), "is not like lsc=6"),
        (("predict", "gravel@lsc=2", "--clicks", "lsc=3"), "not both"),
        (("predict", "gravel", "--at", "fast"), "--at"),
        (("predict", "gravel", "--plot", "p.doc"), ".png"),
    ],
)
def test_wrong_calls_say_so_in_one_line(run, words, said):
    ran = run(*words)
    assert ran.code == 2
    assert said in ran.err
    assert ran.err.strip().count("\n") == ran.err.count("warning:")


@pytest.mark.parametrize("command", [("predict", "gravel"), ("curve", "pack=gravel"), ("health", "FL-01")])
@pytest.mark.parametrize(("plot", "said"), [("p.gif", "a picture is written as"), ("none/p.png", "no folder none")])
def test_a_picture_that_cannot_be_written_is_refused_before_anything_is_shown(run, command, plot, said):
    ran = run(*command, "--plot", plot)
    assert (ran.code, ran.out) == (2, "")
    assert said in ran.err


def test_warmer_oil_is_weaker_its_band_wider_and_that_is_said(run):
    cool, warm = (
        run("--json", "predict", "gravel", "--clicks", "lsc=8", "--at", "0.1 m/s", *more)
        for more in ((), ("--temperature", "90 °C"))
    )
    (a,), (b,) = cool.result["curves"], warm.result["curves"]
    assert warm.result["oil_c"] == [90.0]
    for before, after in zip(a["table"], b["table"], strict=True):
        assert 0.80 < after["force_n"] / before["force_n"] < 0.97
        share = [(row["high_n"] - row["low_n"]) / abs(row["force_n"]) for row in (before, after)]
        assert share[1] > share[0]
    assert "oil" in run("predict", "gravel", "--temperature", "90 °C").out


def test_a_temperature_that_no_shock_has_is_refused(run):
    ran = run("predict", "gravel", "--temperature", "900 °C")
    assert ran.code == 2
    assert "900 °C is no shock's" in ran.err


def test_a_temperature_that_is_none_is_refused(run):
    ran = run("predict", "gravel", "--temperature", "warm")
    assert ran.code == 2
    assert "warm" in ran.err
