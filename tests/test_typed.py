"""Names in commands that are to be copied: a shell takes each as one word."""

import shlex

import pytest

from dynoan.errors import typed

NAMES = [
    "gravel",
    "FL-01",
    "Shock 7",
    "pista ó",
    "front=@lsc=8,lsr=10",
    'a "b" c',
    "a;b",
    "№ 7",
    "$HOME",
    "a\\b",
    "it's",
]


@pytest.mark.parametrize("name", NAMES)
def test_a_shell_takes_a_name_as_one_word(name):
    assert shlex.split(f"dynoan new shock {typed(name)}") == ["dynoan", "new", "shock", name]


def test_a_plain_name_stays_as_it_is():
    assert typed("RL-03") == "RL-03"
