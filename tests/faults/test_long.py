"""The long runs, short: they run, they count, and they would see a loss."""

from __future__ import annotations

import pytest

from dynoan.library import Library
from tests.faults import long, written
from tests.library.made import made_sweep


def test_a_disk_full_at_any_write_loses_nothing():
    assert long.full(1) > 20, "each change has several writes that can fail"


def test_a_loss_would_be_seen(tmp_path, monkeypatch):
    library = Library.create(tmp_path / "library")
    for number in range(4):
        library.add(*made_sweep(number))
    monkeypatch.setattr(Library, "edit", lambda self, one, **_: [self.remove(one), self.remove(self.records()[0].id)])
    with pytest.raises(AssertionError, match="lost"):
        long._each_call(library, "edit", "open")


@pytest.mark.thorough
def test_answers_written_into_a_car_are_there_whole_or_not_at_all():
    assert written.main(kills=10)["killed"] == 10
