"""The docs say what the program does."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from dynoan.cli.main import WHERE
from dynoan.guide import topics

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", WHERE)
def test_the_readme_or_the_guide_shows_every_command(name):
    assert f"dynoan {name}" in README + "".join(t.text for t in topics())


def test_the_readme_opens_with_the_two_commands():
    first, second = re.findall(r"^```sh\n(.*?)^```", README, re.MULTILINE | re.DOTALL)[:2]
    assert "dynoan demo" in first
    assert "pytest" in second


def test_every_path_the_docs_name_is_there():
    for text in (README, DEVELOPERS):
        for path in re.findall(r"`((?:dynoan|importers|tests|fixtures|\.ci)/[\w./*-]*)`", text):
            assert list(ROOT.glob(path.rstrip("/"))), f"{path} is not there"


def test_the_docs_name_no_path_of_a_machine():
    for text in (README, DEVELOPERS):
        assert not re.search(r"/(?:work|root|home|tmp)/", text)
