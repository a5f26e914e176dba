"""The library at hand: how often its files are looked at."""

import pytest

from dynoan.library import Library
from dynoan.window import at_hand
from dynoan.window.at_hand import LibraryAtHand
from tests.library.made import made_sweep


@pytest.mark.parametrize(("takes", "later", "again"), [
    (0.05, 0.9, 0), (0.05, 1.1, 1),  # a second, as of most libraries
    (0.5, 4.0, 0), (0.5, 5.5, 1),  # a page of a huge one asks more often than it could look
])  # fmt: skip
def test_files_are_believed_the_longer_the_longer_looking_at_them_takes(tmp_path, monkeypatch, takes, later, again):
    library = Library.create(tmp_path / "team")
    library.add(*made_sweep(1, samples=20))
    clock, looks = [100.0], []

    def mark(_folder, ending):
        if ending == ".h5":
            looks.append(ending)
            clock[0] += takes
        return 7

    monkeypatch.setattr(at_hand, "_mark", mark)
    monkeypatch.setattr("dynoan.window.at_hand.time.monotonic", lambda: clock[0])
    held = LibraryAtHand(library)
    assert len(looks) == 1
    clock[0] += later
    stamp = held.stamp()
    assert (len(looks) - 1, held.stamp()) == (again, stamp)
    library.add(*made_sweep(2, samples=20))
    assert held.stamp() != stamp
    assert len(looks) == 2 + again
