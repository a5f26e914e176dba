"""Pairs and batches as question and answer: shocks made alike, and one made 14 % weaker."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace

import numpy as np
import pytest

from dynoan.errors import CallError, QuantityError
from dynoan.jobs.answering import Answer
from dynoan.jobs.match import MatchQuestion, answer
from dynoan.jobs.match.answering import overall
from dynoan.jobs.match.held import matched
from dynoan.jobs.match.pairs import PairsQuestion
from dynoan.jobs.match.pairs import answer as pairs_of
from dynoan.jobs.oil import oil_remarks
from dynoan.show import presenting
from dynoan.show.text.blocks import Look, Paragraph
from dynoan.workbench import Workbench, resolve_file
from dynoan.workbench.resolving import Resolved
from tests.analysis.made_packs import GRID, made_pack, measured
from tests.cli import pack_library

packs = pack_library.packs
AT = "lsc=10,hsc=10,lsr=10,hsr=10"
FL, FR, RR = (f"shock={name},pack=gravel" for name in ("FL-01", "FR-02", "RR-04"))


@pytest.fixture(scope="module")
def bench(packs):
    return Workbench.find(packs / "library")


@pytest.fixture(scope="module")
def weak(bench):
    return answer(bench, MatchQuestion(FL, RR))


def test_a_pair_matches_and_needs_no_advice(bench):
    found = answer(bench, MatchQuestion(FL, FR))
    assert (found.verdict, found.no, found.advice) == ("matched", False, ())


def test_the_difference_is_the_one_the_shocks_were_made_with(weak):
    """The weak one has 0.86 of the other's force: 15.1 % of their mean."""
    frame = weak.to_frame()
    assert weak.verdict == "not matched"
    fast = frame[frame["velocity_m_s"] >= 0.15]
    assert list(fast["difference_pct"]) == pytest.approx([100 * 0.14 / 0.93] * len(fast), abs=2.5)
    assert bool(((frame["low_pct"] < frame["difference_pct"]) & (frame["difference_pct"] < frame["high_pct"])).all())


def test_the_record_keeps_its_keys(weak):
    found = weak.to_dict()
    assert {"verdict", "tolerance_pct", "bands", "advice", "settings"} <= set(found)
    assert all({"direction", "velocity_m_s", "difference_pct", "low_pct", "high_pct"} <= set(b) for b in found["bands"])
    assert all({"what", "clicks", "change", "worst_difference_pct"} <= set(a) for a in found["advice"])
    assert found["settings"][0]["more_runs_each"] is None


def test_advice_is_counted_as_the_shock_counts(weak):
    turn = next(one for one in weak.advice if one.shock == "RR-04")
    for name, step in turn.change.items():
        assert turn.clicks[name] == 10 + step
        assert step == (-turn.advice.change[name] if name == "hsr" else turn.advice.change[name])


def test_words_of_advice_are_the_same_at_every_door(weak):
    Answer.presenter = presenting
    read = [b.text for b in presenting.blocks(weak, Look()) if isinstance(b, Paragraph)]
    assert len(weak.sentences()) == 2
    assert set(weak.sentences()) <= set(read)


def test_files_are_matched_without_a_library(packs):
    a, b = (resolve_file(packs / name)[0] for name in ("gravel0.csv", "near.csv"))
    assert matched(a, b, 5.0).verdict == "matched"
    assert matched(a, b, 5.0).worst.difference == pytest.approx(-matched(b, a, 5.0).worst.difference)


def test_files_of_shocks_that_the_library_does_not_hold_are_matched_all_the_same(bench, packs, tmp_path):
    first, second = (tmp_path / name for name in ("first.csv", "second.csv"))
    first.write_text((packs / "near.csv").read_text().replace("FR-02", "XX-08"))
    second.write_text((packs / "weak.csv").read_text().replace("RR-04", "XX-09"))
    found = answer(bench, MatchQuestion(str(first), str(second)))
    assert found.verdict == "not matched"
    assert {one.shock for one in found.advice} <= {"XX-08", "XX-09"}
    assert found.advice


@pytest.mark.parametrize("tolerance", [0, 100, -5, float("nan")])
def test_a_tolerance_that_is_none_is_named(bench, tolerance):
    with pytest.raises(QuantityError) as refused:
        answer(bench, MatchQuestion(FL, FR, tolerance))
    assert refused.value.part == "tolerance"


def test_without_a_setting_in_common_one_is_asked_for(bench):
    with pytest.raises(CallError, match="no tested setting in common; name one setting of each, such as shock=FL-01,"):
        answer(bench, MatchQuestion("shock=FL-01,pack=mixed", RR))


@pytest.mark.parametrize(
    ("verdicts", "over"),
    [
        (("matched", "matched"), "matched"), (("matched", "cannot tell"), "cannot tell"),
        (("cannot tell", "not matched", "matched"), "not matched"), ((), "matched"),
    ],
)  # fmt: skip
def test_one_that_is_not_matched_decides(verdicts, over):
    assert overall(verdicts) == over


def test_a_batch_gives_the_two_that_are_alike(bench):
    found = pairs_of(bench, PairsQuestion((f"pack=gravel,{AT}",)))
    (pair,) = found.pairs
    assert {pair.first, pair.second} == {"FL-01", "FR-02"}
    assert (found.left_over, found.no) == (("RR-04",), False)
    row = found.to_frame().iloc[0]
    assert abs(row["worst_difference_pct"]) == max(abs(b["difference_pct"]) for b in found.to_dict()["bands"])


def test_a_batch_of_one_is_none(bench):
    with pytest.raises(CallError, match="two or more shocks"):
        pairs_of(bench, PairsQuestion(("shock=FL-01,pack=mixed",)))


def test_a_pair_and_a_batch_can_be_drawn(bench, weak):
    Answer.presenter = presenting
    batch = pairs_of(bench, PairsQuestion((f"pack=gravel,{AT}",)))
    assert [len(found.plot().axes) for found in (weak, batch)] == [3, 1]  # curves, low speeds, differences


def test_a_job_needs_no_shell():
    jobs = ("curve", "predict", "compare", "equal_to", "match", "match.pairs", "identify", "choose", "carry")
    code = f"""
import sys, importlib
for job in {jobs}:
    importlib.import_module("dynoan.jobs." + job)
    print(job, [m for m in ("click", "matplotlib", "dynoan.cli", "dynoan.show") if m in sys.modules])
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines() == [f"{job} []" for job in jobs]


@pytest.mark.parametrize("given", [5, 5.0, "5", "5 %", "5%", " 5,0 % "])
def test_a_tolerance_with_its_sign_is_the_same_as_without(given):
    assert MatchQuestion.asked("a", "b", given).tolerance == 5.0
    assert PairsQuestion.asked(["a", "b"], given).tolerance == 5.0


@pytest.mark.parametrize("given", ["wide", "5 N", "", "%", "nan"])
def test_what_is_no_number_of_percent_is_refused_by_name(given):
    with pytest.raises(QuantityError, match="percent") as refused:
        MatchQuestion.asked("a", "b", given)
    assert refused.value.part == "tolerance"


def _thinned(kelvin: float, scale: float = 1.0) -> Resolved:
    """Return a shock in oil so much warmer than 40 °C; at low speed a leak makes it thin more than most."""
    old = measured(made_pack(3), dict.fromkeys(("lsc", "hsc", "lsr", "hsr"), 10), 4)
    share = scale * np.exp(-(0.0015 + 0.008 * np.exp(-GRID / 0.05)) * kelvin)
    sides = [
        replace(side, forces=side.force(GRID) * share, low=side.low * share, high=side.high * share)
        for side in (old.compression, old.rebound)
    ]
    curve = replace(old, compression=sides[0], rebound=sides[1], temperature=40.0 + kelvin)
    return Resolved(f"at {kelvin:.0f} K", curve)


def test_one_shock_in_cool_and_in_warm_oil_is_no_pair_refused():
    cool, warm = _thinned(0.0), _thinned(22.0)
    assert matched(cool, warm, 5.0).verdict == "cannot tell"
    at_once = replace(warm, curve=replace(warm.curve, temperature=40.0))
    assert matched(cool, at_once, 5.0).verdict == "not matched"
    assert matched(cool, _thinned(22.0, 0.8), 5.0).verdict == "not matched"
    assert matched(cool, _thinned(1.0), 5.0).verdict == "matched"
    assert oil_remarks([cool, warm])[0].endswith("and the intervals allow for it")
