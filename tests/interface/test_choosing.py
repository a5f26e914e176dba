"""Choosing and carrying by the Python door and by the command line: one question, one answer."""

from __future__ import annotations

import shlex

import pytest

from dynoan.cli.call import plain
from dynoan.interface import OpenLibrary
from dynoan.workbench import Workbench
from tests.cli import corner_library
from tests.cli.corner_library import change, put

garage, run = corner_library.garage, corner_library.run


@pytest.fixture
def lib(garage):
    return OpenLibrary(Workbench.find(garage), [])


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"axle": "front", "low": "2 in/s", "packs": ["mixed"]}, "--axle front --low '2 in/s' --packs mixed"),
        ({"corner": "fl", "compression_low": 2.5, "compression_high": 0.1, "count": 2},
         "--corner fl --compression-low 2.5 --compression-high 0.1 --count 2"),
        ({"per_corner": True, "within": 1, "tolerance": 0.02, "inside": True},
         "--per-corner --within 1 --tolerance '2 %' --inside"),
        ({"front_rear": 0.9, "packs": ["mixed"], "count": 3}, "--front-rear 0.9 --packs mixed --count 3"),
        ({"once": True, "count": 3}, "--once --count 3"),
        pytest.param({"front_rear": 0.9, "once": True, "count": 3}, "--front-rear 0.9 --once --count 3",
                     marks=pytest.mark.thorough),
    ],
)  # fmt: skip
def test_both_doors_choose_the_same(lib, run, given, words):
    found = lib.choose("kestrel", **given)
    ran = run("choose", "kestrel", *shlex.split(words), "--json")
    assert plain(found.to_dict()) == ran.result
    assert ran.code == (1 if found.no else 0)


def test_both_doors_carry_the_same(lib, run, garage):
    put(garage, "cars/stiffer.toml", change('spring = "45 N/mm"', 'spring = "52 N/mm"'))
    found = lib.carry("kestrel", "stiffer", packs="gravel,mixed", within=4, per_corner=True)
    ran = run("carry", "kestrel", "stiffer", "--packs", "gravel,mixed", "--within", "4", "--per-corner", "--json")
    assert plain(found.to_dict()) == ran.result
    assert ran.code == (1 if found.no else 0)


def test_an_answer_draws_itself_and_shows_in_a_notebook(lib):
    found = lib.choose("kestrel", axle="front")
    assert len(found.plot().axes) == 2  # all velocities, and low ones
    assert "<table>" in found._repr_html_()
