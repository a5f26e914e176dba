"""Standard output and error of any kind: any encoding, closed, full, or with a reader that goes."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from dynoan.library import Library
from tests.library.calling import dynoan, write_run
from tests.library.made import CAR, made_sweep
from tests.often import often_together

ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    folder = tmp_path_factory.mktemp("streams") / "lib"
    library = Library.create(folder)
    for number in range(3):
        library.add(*made_sweep(number, pack="Schotter – größer ≥ 3 ☃"))
    (folder / "cars" / "kestrel.toml").write_text(CAR)
    return folder


def call(folder, *words, **how):
    env = {**os.environ, "PYTHONPATH": ROOT, **how.pop("env", {})}
    command = [sys.executable, "-m", "dynoan", *words]
    return subprocess.run(command, cwd=folder, env=env, check=False, timeout=100, **{"capture_output": True, **how})


ENCODINGS = (
    {"PYTHONIOENCODING": "cp1252"}, {"PYTHONIOENCODING": "ascii"}, {"PYTHONIOENCODING": "cp437"},
    {"PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0", "LC_ALL": "POSIX"},
)  # fmt: skip


@pytest.mark.parametrize(
    "env", [ENCODINGS[0], ENCODINGS[3], *(pytest.param(env, marks=pytest.mark.thorough) for env in ENCODINGS[1:3])],
    ids=lambda env: "-".join(env.values()),
)  # fmt: skip
def test_any_encoding_shows_what_it_can_and_json_holds_all(folder, env):
    shown = call(folder, "sweeps", env=env)
    assert (shown.returncode, shown.stdout.count(b"FL-01")) == (0, 3)
    done = call(folder, "sweeps", "--json", env=env)
    assert done.returncode == 0
    encoding = env.get("PYTHONIOENCODING", "utf-8")
    packs = {s["pack"] for s in json.loads(done.stdout.decode(encoding))["result"]["sweeps"]}
    assert packs == {"Schotter – größer ≥ 3 ☃"}


@pytest.mark.parametrize(
    "env", [ENCODINGS[3], *(pytest.param(env, marks=pytest.mark.thorough) for env in ({}, ENCODINGS[1]))],
    ids=lambda env: "-".join(env.values()) or "utf-8",
)  # fmt: skip
def test_a_file_name_that_is_no_utf8_is_kept_and_listed(tmp_path, env):
    if sys.platform != "linux":
        pytest.skip("file names are text there")
    Library.create(tmp_path / "lib")
    name = b"l\xe4uft \xff.csv"
    os.rename(write_run(tmp_path / "run.csv"), os.fsencode(tmp_path) + b"/" + name)
    words = (os.fsencode(tmp_path) + b"/" + name, "--library", tmp_path / "lib")
    done = call(tmp_path, "add", *words, "--json", env=env)
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout)["result"]["sweeps"][0]["new"]
    listed = call(tmp_path / "lib", "sweeps", "--json", env=env)
    assert listed.returncode == 0
    (sweep,) = json.loads(listed.stdout)["result"]["sweeps"]
    assert sweep["source"].encode("utf-8", "surrogateescape") == name
    assert call(tmp_path / "lib", "check", env=env).returncode == 0


@pytest.mark.parametrize(
    ("words", "code"),
    often_together(1, [(["setup", "recall"], 1), (["sweeps"], 0), (["ratio", "x"], 2)]),
)
def test_a_reader_that_goes_or_a_closed_stream_does_not_change_the_exit_code(folder, words, code):
    reading, writing = os.pipe()
    os.close(reading)
    assert call(folder, *words, capture_output=False, stdout=writing, stderr=subprocess.PIPE).returncode == code
    os.close(writing)
    line = f"{sys.executable} -m dynoan {' '.join(words)}"
    for closing in (">&-", "2>&-", "<&- >&- 2>&-"):
        done = subprocess.run(f"{line} {closing}", shell=True, cwd=folder, env={**os.environ, "PYTHONPATH": ROOT},
                              capture_output=True, check=False)  # fmt: skip
        assert (done.returncode, b"Traceback" in done.stderr, b"Exception" in done.stderr) == (code, False, False)


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="no full device here")
def test_a_full_disk_behind_standard_output_is_told_and_behind_standard_error_is_not(folder):
    with open("/dev/full", "wb") as full:
        done = call(folder, "sweeps", "--json", capture_output=False, stdout=full, stderr=subprocess.PIPE)
        assert done.returncode == 2
        assert done.stderr.decode().splitlines()[-1].startswith("dynoan: standard output: No space left")
        for words, code in ((["sweeps"], 0), (["ratio", "x"], 2)):
            assert call(folder, *words, capture_output=False, stderr=full, stdout=subprocess.PIPE).returncode == code


def test_warnings_of_other_libraries_reach_nobody_unless_asked(folder):
    code = "import warnings, sys\nfrom dynoan.cli import main\n"
    code += "main.cli.main = lambda **_: warnings.warn('of another library')\n"
    for words, seen in (([], False), (["--debug"], True)):
        script = code + f"sys.argv = ['dynoan', *{words}]\nmain.main()"
        # What an earlier call in this process set for its children is not to be passed on.
        env = {**os.environ, "PYTHONPATH": ROOT, "PYTHONWARNINGS": "default"}
        done = subprocess.run([sys.executable, "-c", script], cwd=folder, env=env, capture_output=True, check=False)
        assert (b"of another library" in done.stderr) == seen


def test_what_other_libraries_log_reaches_nobody_unless_asked(folder):
    code = (
        "import logging, sys\nfrom dynoan.jobs import sweeps\nfrom dynoan.cli.main import main\n"
        "made = sweeps.answer\n"
        "def loud(*asked):\n    logging.getLogger('another').error('log of another')\n    return made(*asked)\n"
        "sweeps.answer = loud\n"
    )
    for words, seen in (([], False), (["--debug"], True)):
        script = code + f"sys.argv = ['dynoan', 'sweeps', *{words}]\nmain()"
        env = {**os.environ, "PYTHONPATH": ROOT}
        done = subprocess.run([sys.executable, "-c", script], cwd=folder, env=env, capture_output=True, check=False)
        assert done.returncode == 0
        assert (b"log of another" in done.stderr) == seen


def test_words_that_the_locale_could_not_read_are_utf8(folder):
    """What Python makes of "größer ≥ 3" in a locale without UTF-8, and of bytes that are no text at all."""
    typed = "größer ≥ 3".encode().decode("ascii", "surrogateescape")
    done = dynoan("--library", folder, "setup", "record", "kestrel", "--remarks", typed, "--json")
    assert (done.code, done.result["setup"]["remarks"]) == (0, "größer ≥ 3")
    name = done.result["setup"]["name"]
    refused = dynoan("--library", folder, "setup", "edit", name, "--remarks", "l\udce4uft")
    assert (refused.code, "remarks: no text: it holds bytes that are no UTF-8" in refused.err) == (2, True), refused.err
    assert Library(folder).setup(name).remarks == "größer ≥ 3"


def test_a_file_is_found_by_the_bytes_of_its_name(tmp_path):
    if sys.platform != "linux":
        pytest.skip("file names are text there")
    odd = os.fsdecode(bytes(tmp_path) + b"/l\xe4uft \xc3\xb6.csv")
    write_run(Path(odd))
    done = dynoan("read", odd, "--json")
    assert (done.code, len(done.result["files"][0]["sweeps"])) == (0, 1)
