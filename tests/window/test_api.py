"""``/api/<job>``: the object the command prints with --json, and nothing that writes or leaves the library."""

import json

import pytest

from dynoan.cli.asking import LOOKING
from tests.golden.running import run

ASKED = {
    "ratio": ("ratio?car=kestrel&low=2 in/s", ["ratio", "kestrel", "--low", "2 in/s"]),
    "choose": ("choose?car=kestrel&axle=front&count=3&per-corner=1",
               ["choose", "kestrel", "--axle", "front", "--count", "3", "--per-corner"]),
    "sweeps": ("sweeps?filters=pack%3Dgravel", ["sweeps", "pack=gravel"]),
    "setups": ("setup/list", ["setup", "list"]),
    "nobody": ("ratio?car=nobody", ["ratio", "nobody"]),
}  # fmt: skip


@pytest.mark.parametrize("name", ASKED)
def test_the_object_is_the_one_that_json_prints(looked_at, name):
    address, words = ASKED[name]
    answer = looked_at.get(f"/api/{address}")
    done = run([*words, "--json"], looked_at.desk.path)
    assert answer.json() == json.loads(done.out)
    assert answer.headers["dynoan-exit"] == str(done.code)
    assert answer.status_code == (400 if done.code == 2 else 200)


@pytest.mark.parametrize(
    "job", ["add", "edit", "remove", "report", "trackside", "demo", "open", "read", "nothing", "../x", ""]
)
def test_what_writes_or_reads_files_is_not_asked(looked_at, job):
    assert looked_at.get(f"/api/{job}").status_code in (400, 404)


@pytest.mark.parametrize(
    "query",
    [
        "car=kestrel&plot=/tmp/x.png", "car=kestrel&library=/", "car=kestrel&debug=1", "car=kestrel&nothing=1",
        "car=/etc/passwd", "car=cars/kestrel.toml", "car=..%2Fkestrel.toml", "car=--help", "", "car=%00",
    ],
)  # fmt: skip
def test_what_is_no_name_or_no_parameter_is_refused(looked_at, query):
    answer = looked_at.get(f"/api/ratio?{query}")
    assert answer.status_code == 400
    assert answer.json()["error"]["kind"]


def test_every_command_that_looks_is_there(looked_at):
    for job in LOOKING:
        if job.startswith("trial"):
            continue
        text = looked_at.get(f"/api/{job.replace(' ', '/')}").text
        assert "cannot be asked" not in text
        assert "no command" not in text
