"""Entry points found in the folders on the path are those that the standard library finds; else it is asked itself."""

from __future__ import annotations

import subprocess
import sys
from importlib.machinery import PathFinder
from importlib.metadata import distribution
from pathlib import Path

import pytest

from dynoan import installed
from dynoan.installed import installed_points
from dynoan.reading import GROUP

OWN = "[console_scripts]\nours = ours.main:main\n\n# what we read\n[ours.kinds]\none = json:loads\ntwo = os.path:join\n"


def put(folder: Path, name: str, text: str) -> None:
    (folder / name).mkdir()
    (folder / name / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {name.split('-')[0]}\nVersion: 1\n")
    (folder / name / "entry_points.txt").write_text(text)


@pytest.fixture
def site(tmp_path, monkeypatch):
    """A folder on the path in which one package names what it has."""
    put(tmp_path, "ours-1.0.dist-info", OWN)
    put(tmp_path, "another-2.0.dist-info", "[console_scripts]\nother = other:main\n")
    (tmp_path / "old.egg-info").write_text("Name: old\n")
    monkeypatch.setattr(sys, "path", [str(tmp_path)])  # whatever else this process has there is none of these tests'
    return tmp_path


@pytest.fixture
def asked(monkeypatch):
    """How often the standard library was asked."""
    times = []
    by_metadata = installed._by_metadata
    monkeypatch.setattr(installed, "_by_metadata", lambda *a: times.append(a) or by_metadata(*a))
    return times


def told(points):
    return {name: point.load() for name, point in points.items()}


def test_our_own_importers_are_those_of_the_standard_library():
    wanted = {point.name: point.load() for point in distribution("dynoan").entry_points.select(group=GROUP)}
    assert told(installed_points(GROUP, "dynoan").own) == wanted


@pytest.mark.usefixtures("site")
def test_one_package_alone_is_found_without_the_standard_library(asked, monkeypatch):
    # A library that finds packages in its own way, which another test of this process may have loaded, is asked then.
    found_by = [f for f in sys.meta_path if f is PathFinder or not hasattr(f, "find_distributions")]
    monkeypatch.setattr(sys, "meta_path", found_by)
    found = installed_points("ours.kinds", "ours")
    import json
    import os.path

    assert told(found.own) == {"one": json.loads, "two": os.path.join}
    assert found.others == {}
    assert asked == []


@pytest.mark.usefixtures("site")
@pytest.mark.parametrize("name", ["theirs-1.dist-info", "theirs.egg-info"])
def test_another_package_s_points_are_found_beside_ours(site, asked, name):
    put(site, name, "[ours.kinds]\nthree = math:sqrt\n")
    if name.endswith("egg-info"):
        (site / name / "PKG-INFO").write_text("Metadata-Version: 2.1\nName: theirs\nVersion: 1\n")
    found = installed_points("ours.kinds", "ours")
    assert (sorted(found.own), sorted(found.others)) == (["one", "two"], ["three"])
    assert found.others["three"].load()(9) == 3
    assert asked


def test_where_folders_cannot_tell_the_standard_library_is_asked(site, asked, monkeypatch):
    archive = site / "packages.zip"
    archive.write_bytes(b"PK\5\6" + bytes(18))
    monkeypatch.setattr(sys, "path", [*sys.path, str(archive)])
    assert sorted(installed_points("ours.kinds", "ours").own) == ["one", "two"]
    assert asked


def test_a_finder_of_its_own_is_asked_by_the_standard_library(asked, monkeypatch):
    class Finder:
        @staticmethod
        def find_spec(*_):
            return None

        @staticmethod
        def find_distributions(*_):
            return iter(())

    monkeypatch.setattr(sys, "meta_path", [*sys.meta_path, Finder])
    assert set(installed_points(GROUP, "dynoan").own) == {"text", "excel"}
    assert asked


@pytest.mark.parametrize("line", ["one = json:loads [fast]", "one = json:JSONDecoder.decode", "one = json"])
def test_a_line_that_says_more_is_left_to_the_standard_library(site, asked, line):
    (site / "ours-1.0.dist-info" / "entry_points.txt").write_text(f"[ours.kinds]\n{line}\n")
    assert set(installed_points("ours.kinds", "ours").own) == {"one"}
    assert asked


def test_a_package_that_is_not_there_is_none(asked):
    assert installed_points("ours.kinds", "no_such_package").own is None
    assert asked


def test_reading_a_file_does_not_load_the_standard_library_s_reader(tmp_path):
    file = tmp_path / "run.csv"
    rows = "".join(f"{k / 100},{(k % 50) / 10},{(k % 40) * 7.5}\n" for k in range(300))
    file.write_text("Time [s],Displacement [mm],Force [N]\n" + rows)
    code = f"import sys; from dynoan.reading import read; read({str(file)!r}); print('\\n'.join(sys.modules))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert not {"importlib.metadata", "pandas", "scipy", "openpyxl"} & set(done.stdout.split())
