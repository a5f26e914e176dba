"""Which car, pack or shock a word of a report's call means."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from dynoan.errors import CallError, LookupFault
from dynoan.jobs.report.scope import scope_of


def bench(*, cars=(), packs=(), shocks=()):
    library = SimpleNamespace(cars=lambda: cars, packs=lambda: packs, shocks=lambda: shocks)
    return SimpleNamespace(records=(), library=library)


@pytest.mark.parametrize("name", ["<a src=x>", "car=kestrel", "a=b=c", "=", "pack="])
def test_a_name_that_holds_an_equals_sign_is_known_as_it_is_listed(name):
    assert scope_of(bench(cars=(name, "kestrel")), [name]).cars == (name,)
    assert scope_of(bench(shocks=(name,)), [f"shock={name}"]).shocks == (name,)


def test_a_kind_tells_names_apart():
    both = bench(cars=("kestrel",), packs=("kestrel",))
    assert scope_of(both, ["pack=kestrel"]).packs == ("kestrel",)
    with pytest.raises(CallError, match="write car=kestrel"):
        scope_of(both, ["kestrel"])
    with pytest.raises(LookupFault, match="no such car, pack or shock"):
        scope_of(both, ["shock=kestrel"])
