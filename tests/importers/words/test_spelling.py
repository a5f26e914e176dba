"""One spelling for all words: what is compared must not hang on case, accents or punctuation."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from importers.header import describe_column
from importers.words.adjusters import adjuster_of
from importers.words.channels import CHANNEL_WORDS, LENGTHS, LESSER, OTHER, TABLE_WORDS
from importers.words.directions import COMPRESSION, REBOUND, direction_of
from importers.words.keys import DATE, GAS, INTERVAL, KNOWN, RATE, STOP, STROKE, TEMPERATURE, UNITS
from importers.words.spelling import plain, word_set
from tests.importers.making import quick


@pytest.mark.parametrize(
    ("text", "bare"),
    [
        ("Dämpferkraft_(gefiltert)", "dampferkraft gefiltert"),
        ("  Low--Speed   COMP  ", "low--speed comp"),
        ("Öl-Temperatur [°C]", "ol-temperatur °c"),
        ("Stoßdämpfer", "stossdampfer"),
        ("μm", "µm"),
        ("10 % (ca.)", "10 % ca."),
        ("", ""),
    ],
)
def test_plain_text_is_lower_case_without_accents_and_punctuation(text, bare):
    assert plain(text) == bare


@quick
@given(st.text(st.characters(max_codepoint=0x24F), max_size=60))
def test_plain_text_stays_as_it_is(text):
    once = plain(text)
    assert plain(once) == once
    assert "  " not in once
    assert once == once.strip()


@quick
@given(st.text(alphabet=st.characters(codec="ascii"), max_size=60))
def test_case_does_not_matter(text):
    assert plain(text.upper()) == plain(text.lower())


def test_a_word_set_splits_at_commas_and_drops_blanks():
    assert word_set(" load cell, lc,, fz ,") == {"load cell", "lc", "fz"}


VOCABULARIES = {
    **CHANNEL_WORDS, **{f"table {k}": v for k, v in TABLE_WORDS.items()}, "lengths": LENGTHS, "lesser": LESSER,
    "other": OTHER, "compression": COMPRESSION, "rebound": REBOUND, "temperature keys": TEMPERATURE, "gas keys": GAS,
    "dates": DATE, "strokes": STROKE, "rates": RATE, "intervals": INTERVAL, "units": UNITS, "stop": STOP,
}  # fmt: skip
#: entries that can never match as a whole word, because `plain` spells them otherwise
NEVER = {"reb.", "command.", "temp.", "gas press.", "#"}


@pytest.mark.parametrize("name", VOCABULARIES)
def test_every_entry_is_spelled_as_it_is_compared(name):
    wrong = {word for word in VOCABULARIES[name] if plain(word) != word} - NEVER
    assert not wrong


def test_no_word_names_both_directions():
    assert not COMPRESSION & REBOUND


def test_keys_that_state_a_fact_state_one():
    for one, other in ((TEMPERATURE, GAS), (GAS, STROKE), (STROKE, RATE), (RATE, INTERVAL), (DATE, RATE)):
        assert not one & other
    assert (TEMPERATURE | GAS | DATE | STROKE | RATE | INTERVAL) <= KNOWN


@pytest.mark.parametrize("way", ["compression", "rebound"])
def test_each_direction_word_alone_names_its_direction(way):
    words = COMPRESSION if way == "compression" else REBOUND
    found = {word: direction_of(plain(word)) for word in words}
    assert {word for word, got in found.items() if got != way} == set()


@pytest.mark.parametrize("text", ["", "force", "compression and rebound", "comp/reb", "c r"])
def test_no_direction_or_both_are_none(text):
    assert direction_of(text) is None


@pytest.mark.parametrize(
    ("text", "adjuster"),
    [
        ("lsc", "lsc"), ("ls c", "lsc"), ("low speed compression", "lsc"), ("compression low speed", "lsc"),
        ("high speed rebound clicks", "hsr"), ("hsr adjuster", "hsr"), ("bump", "c"), ("rebound", "r"), ("cr", "cr"),
        ("force", None), ("compression force", None), ("", None),
    ],
)  # fmt: skip
def test_an_adjuster_is_named_alone_or_with_words_for_clicks(text, adjuster):
    assert adjuster_of(text) == adjuster


def test_every_word_of_a_vocabulary_can_be_met():
    """A word that `plain` spells otherwise, or whose last mark is taken off before it is looked up, is dead."""
    roles = (word for role, words in TABLE_WORDS.items() for word in words if role)
    sets = (*CHANNEL_WORDS.values(), COMPRESSION, REBOUND, LENGTHS, LESSER, OTHER, KNOWN, STOP, UNITS)
    words = {*roles, *(word for some in sets for word in some)}
    dead = {w for w in words if plain(w) != w or w.strip(" .") != w or not w}
    assert not dead
    assert not {w for w in COMPRESSION | REBOUND if len(w) > 1 and direction_of(w) is None}
    assert all("." not in w for w in COMPRESSION | REBOUND)


@pytest.mark.parametrize("name", ["Position command.", "Cmd. position", "Filt. Position", "Position (avg.)"])
def test_a_short_word_with_its_dot_is_the_same_word(name):
    assert describe_column(0, name, "mm").lesser


def test_a_column_of_numbers_of_rows_may_be_named_by_its_sign():
    assert describe_column(0, "#").role == "index"
