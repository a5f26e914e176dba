"""Naming an unknown curve as question and answer: a made-up shock in a known pack, and a stranger."""

from __future__ import annotations

from dataclasses import replace

import pytest

from dynoan.analysis.clickmap.asked.identify import Identification
from dynoan.errors import LookupFault
from dynoan.jobs.answering import Answer
from dynoan.jobs.identify import IdentifyQuestion, _warnings, answer
from dynoan.model.clickmap import Oddity
from dynoan.model.shock import clicks_text
from dynoan.show import presenting
from dynoan.show.text.blocks import Look, Paragraph, Table
from dynoan.workbench import Workbench
from tests.cli import pack_library
from tests.cli.pack_library import counted

packs = pack_library.packs


@pytest.fixture(scope="module")
def bench(packs):
    return Workbench.find(packs / "library")


@pytest.fixture(scope="module")
def known(bench, packs):
    return answer(bench, IdentifyQuestion.asked(str(packs / "unknown.csv"), shock="FL-01"))


@pytest.fixture(scope="module")
def unsure(bench, packs):
    """The same run without a word of its shock: another of the kind would do as well."""
    return answer(bench, IdentifyQuestion.asked(str(packs / "unknown.csv")))


@pytest.mark.parametrize(
    ("given", "names"),
    [
        (None, None), ("", None), ("gravel,mixed", ("gravel", "mixed")), (" gravel , ", ("gravel",)),
        (["gravel"], ("gravel",)), ([], None),
    ],
)  # fmt: skip
def test_packs_as_text_or_several(given, names):
    assert IdentifyQuestion.asked("x", packs=given).packs == names


def test_the_pack_it_was_made_with_is_first_and_its_clicks_are_within(known):
    (one,) = known.named
    best, true = one.matches[0], counted((7, 12, 9, 6))
    assert best.candidate.pack == "mixed"
    assert best.candidate.probability > 0.9
    assert one.matches[1].candidate.probability < 0.05
    assert (one.found.verdict, known.no) == ("pack", False)
    within = [low <= true[name] <= high for name, (low, high) in best.ranges.items()]
    assert sum(within) >= 3  # each holds the truth 19 times in 20
    assert all(low <= best.clicks[name] <= high for name, (low, high) in best.ranges.items())


def test_where_it_cannot_tell_the_run_that_would_is_named_in_the_record_and_in_words(unsure):
    # Seven peak tables a pack do not tell it from one that is alike and not here.
    (one,), found = unsure.named, unsure.to_dict()["telling_run"]
    assert (one.found.verdict, unsure.no) == ("cannot tell", True)
    assert one.matches[1].candidate.probability < 0.06 < one.found.none
    assert found["tells"]
    assert set(found["clicks"]) == {"lsc", "hsc", "lsr", "hsr"}
    for name, at in one.telling.from_closed.items():
        assert at in {0, 20}, name
    (head,) = [b.text for b in presenting.blocks(unsure, Look()) if isinstance(b, Paragraph)][:1]
    assert f"cannot tell for sure: probably pack mixed ({100 * one.matches[0].candidate.probability:.0f} %)" in head
    assert f" a pack that is not here ({100 * one.found.none:.0f} %); a run of it with " in head
    alone = "or a pack that is not here" not in head
    assert head.endswith(
        "tells most: two packs that are alike here by chance are seldom so there too" if alone else "would tell"
    )


def test_the_record_and_the_frame_hold_every_pack_best_first(known):
    found = known.to_dict()
    assert {"pack", "clicks", "difference_pct", "probability"} <= set(found["matches"][0])
    assert list(known.to_frame()["pack"]) == [m["pack"] for m in found["matches"]] == ["mixed", "gravel"]
    # What is missing to 1 is a pack that the library does not hold.
    assert sum(m["probability"] for m in found["matches"]) + found["probability_of_none"] == pytest.approx(1)


def test_a_stranger_is_a_no_in_words_too(bench, packs):
    found = answer(bench, IdentifyQuestion.asked(str(packs / "stranger.csv")))
    assert found.no
    read = [b.text for b in presenting.blocks(found, Look()) if isinstance(b, Paragraph)]
    assert read[0].startswith("stranger.csv: none of these packs")


def test_a_file_that_says_another_pack_is_contradicted(bench, packs, tmp_path):
    found = answer(bench, IdentifyQuestion.asked(str(packs / "mixed1.csv"), packs=["gravel", "mixed"]))
    (kept,) = (r for r in bench.records if r.source == "mixed1.csv")
    assert found.warnings == (f"mixed1.csv is kept here as {kept.id}: FL-01, mixed, {clicks_text(kept.clicks)}",)
    wrong = tmp_path / "wrong.csv"
    wrong.write_text((packs / "mixed1.csv").read_text().replace("Pack,mixed", "Pack,gravel"))
    assert "the file says pack gravel; the curve says mixed" in answer(bench, IdentifyQuestion(str(wrong))).warnings
    assert not answer(bench, IdentifyQuestion.asked(str(packs / "unknown.csv"))).warnings


def test_a_pack_that_is_not_there_is_refused(bench, packs):
    with pytest.raises(LookupFault, match="no sweep of pack 'sand'"):
        answer(bench, IdentifyQuestion.asked(str(packs / "unknown.csv"), packs="sand"))


def test_there_is_no_picture_and_that_is_said(known):
    Answer.presenter = presenting
    with pytest.raises(NotImplementedError, match="no picture"):
        known.plot()


@pytest.mark.parametrize(("surprise", "fits"), [(0.5, "well"), (0.1, "fairly"), (0.02, "poorly"), (0.001, "not")])
@pytest.mark.parametrize("none", [0.2, 0.6, 0.95])
def test_what_the_sentence_says_and_what_the_table_says_agree(known, surprise, fits, none):
    one = known.named[0]
    best, rest = (m.candidate for m in one.matches)
    best = replace(best, probability=1.0 - none, surprise=surprise)
    verdict = "none of these" if none > 0.9 else "cannot tell"
    found = Identification(verdict, (best, replace(rest, probability=0.0, surprise=0.0)), none)
    likely = tuple(replace(m, candidate=c) for m, c in zip(one.matches, found.candidates, strict=True))
    shown = presenting.blocks(replace(known, named=(replace(one, found=found, matches=likely),)), Look())
    head, table = (next(b for b in shown if isinstance(b, kind)) for kind in (Paragraph, Table))
    assert table.rows[0][table.columns.index("how well it fits")] == fits
    said = {"poorly": "fits poorly", "not": "does not fit"}
    assert [words for words in said.values() if words in head.text] == \
        ([said[fits]] if fits in said and verdict == "cannot tell" else [])  # fmt: skip
    assert ("a pack that is not here" in head.text) == (verdict == "cannot tell")


def test_no_pack_that_does_not_fit_is_named_and_none_is_said_only_where_it_is_nearly_sure(bench, packs):
    for file in ("unknown.csv", "stranger.csv", "mixed1.csv"):
        (one,) = answer(bench, IdentifyQuestion.asked(str(packs / file))).named
        best = one.found.candidates[0]
        assert one.found.none == pytest.approx(1.0 - sum(c.probability for c in one.found.candidates))
        assert (one.found.verdict == "none of these") == (one.found.none >= 0.9)
        assert (one.found.verdict == "pack") == (best.probability >= 0.9)
        assert best.probability <= best.surprise / 0.05


def test_clicks_counted_otherwise_and_a_force_at_rest_are_told_of_the_pack_it_is_likest(bench, packs, known):
    maps = bench.click_maps(["gravel", "mixed"])
    turned = Oddity("counted the other way", "lsc", "lsc: counted the other way")
    odd = replace(maps["mixed"], oddities=(turned,), at_rest=("in compression 20 N stays",))
    said = _warnings(known.named[0], {"gravel": replace(maps["gravel"], oddities=(turned,)), "mixed": odd})
    assert said[-2:] == ["pack mixed: lsc: counted the other way", "pack mixed: in compression 20 N stays"]
    assert not any(words.startswith("pack gravel") for words in said)  # that it is gravel is next to impossible


def test_the_first_alone_is_called_likeliest(known):
    (table,) = [b for b in presenting.blocks(known, Look()) if isinstance(b, Table)][:1]
    why = [row[-1] for row in table.rows]
    assert why[0].startswith("likeliest")
    assert not any("likeliest" in words for words in why[1:])
