"""What a script's author reads of errors and curves: parameters and methods, in the units of the library at hand."""

from __future__ import annotations

import pytest

import dynoan
from dynoan.errors import CallError, LookupFault, QuantityError, ReadError
from tests.library.calling import write_run


@pytest.fixture
def us(tmp_path):
    """A library of US units with one run."""
    lib = dynoan.open(tmp_path / "team", new=True)
    lib.add(write_run(tmp_path / "run.csv"), shock="FL-01", pack="gravel", clicks="lsc=6")
    marker = tmp_path / "team" / "dynoan.toml"
    marker.write_text(marker.read_text().replace("metric", "us"))
    return dynoan.open(tmp_path / "team")


@pytest.mark.parametrize(
    ("ask", "kind", "says"),
    [
        (lambda lib: lib.curve("pack=gravel", at="2 in"), QuantityError, "write it like '2 in/s'"),
        (lambda lib: lib.curve("nothing"), LookupFault, "see lib.sweeps(), or write pack=NAME"),
        (lambda lib: lib.ratio("nix"), LookupFault, "no car 'nix'"),
    ],
)
def test_an_error_speaks_to_a_script_in_the_librarys_units(us, ask, kind, says):
    with pytest.raises(kind) as told:
        ask(us)
    assert says in str(told.value)
    assert "--" not in str(told.value)
    assert "dynoan " not in str(told.value)


def test_a_file_that_cannot_be_read_is_told_with_parameters(us, tmp_path):
    stubborn = tmp_path / "odd.csv"
    stubborn.write_text("alpha,beta\n" + "".join(f"{n},{n * n}\n" for n in range(50)))
    (told,) = us.read(stubborn).failures
    with pytest.raises(ReadError) as refused:
        dynoan.read(stubborn)
    for text in (told, str(refused.value), *us.add(stubborn).failures):
        assert "=" in text
        assert "--" not in text


def test_a_curve_of_loose_files_is_shown_in_the_units_asked_for(tmp_path):
    sweeps = dynoan.read(write_run(tmp_path / "run.csv"))
    metric, us = dynoan.fit(sweeps), dynoan.fit(sweeps, units="us")
    assert (metric(0.1), metric.units) == (us(0.1), "metric")
    for shown in (repr(us), us._repr_html_(), *us.findings, *us.warnings):
        assert " N" not in shown
        assert "mm/s" not in shown
    assert "lbf" in repr(us)
    assert "<td>4.0</td>" in us._repr_html_()
    assert us.plot().get_xlabel() != metric.plot().get_xlabel()
    with pytest.raises(CallError, match="units: 'furlongs'"):
        dynoan.fit(sweeps, units="furlongs")
