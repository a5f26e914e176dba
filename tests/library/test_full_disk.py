"""Whether the disk of a library is full, as the window says on every page."""

import shutil
from collections import namedtuple

import pytest

from dynoan.library.disk_faults import LEAST_ROOM, is_full

Room = namedtuple("Room", "total used free")


@pytest.mark.parametrize(("total", "free", "full"), [(10**9, 0, True), (10**9, LEAST_ROOM, False), (0, 0, False)])
def test_a_disk_is_full_where_a_run_may_not_fit_and_its_size_is_known(monkeypatch, tmp_path, total, free, full):
    monkeypatch.setattr(shutil, "disk_usage", lambda _path: Room(total, total - free, free))
    assert is_full(tmp_path) is full


def test_a_folder_that_is_gone_is_no_full_disk(tmp_path):
    assert not is_full(tmp_path / "gone")
