"""`dynoan open` as a user starts it: its first line, its end, the shortcut, and being killed in mid-upload."""

import json
import os
import shlex
import signal
import socket
import subprocess
import sys
import time

import httpx
import pytest

from dynoan.cli.main import run
from dynoan.errors import CallError
from dynoan.library import Library
from dynoan.window.shortcut import install, shortcut
from tests.window.conftest import DEMO

RUN = DEMO / "dyno" / "FL-01_gravel_lsc10_hsc10_lsr10_hsr10.csv"
LIBRARY = 'my team\'s "best" $HOME `x`'


@pytest.fixture
def started():
    going = []

    def start(*words):
        command = [sys.executable, "-m", "dynoan", "open", *map(str, words), "--no-browser"]
        one = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        going.append(one)
        return one, one.stdout.readline().strip()

    yield start
    for one in going:
        if one.poll() is None:
            one.kill()
        one.communicate()


def came_in(address):
    base = address.partition("/enter")[0]
    browser = httpx.Client(base_url=base, headers={"Origin": base}, follow_redirects=True, timeout=300)
    for _ in range(100):
        try:
            browser.get(address)
            break
        except httpx.TransportError:
            time.sleep(0.1)
    return browser


def test_the_first_line_is_the_address_and_ctrl_c_ends_it(started, tmp_path):
    one, address = started(tmp_path / "team", "--port", 18500)
    assert address.startswith("http://127.0.0.1:18500/enter?token=")
    _, elsewhere = started(tmp_path / "team", "--port", 18500)
    assert elsewhere.startswith("http://127.0.0.1:18501/")
    assert "Nothing here yet" in came_in(address).get("/files").text
    one.send_signal(signal.SIGINT)
    assert one.wait(120) == 0
    assert one.stderr.read() == ""
    assert "Nothing here yet" in came_in(elsewhere).get("/files").text
    with socket.socket() as free:
        free.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        free.bind(("127.0.0.1", 18500))


def test_json_gives_one_object(started, tmp_path):
    _, line = started(tmp_path / "team", "--port", 18520, "--json")
    found = json.loads(line)
    assert found["command"] == "open"
    assert found["result"]["address"].startswith("http://127.0.0.1:")


def test_killed_in_mid_upload_nothing_half_is_there(started, tmp_path):
    one, address = started(tmp_path / "team", "--port", 18540)
    browser = came_in(address)
    whole = RUN.read_bytes()
    assert browser.put("/files/drop", content=whole, headers={"Dynoan-Name": RUN.name}).status_code == 200

    def dying():
        yield whole[:20_000]
        os.kill(one.pid, signal.SIGKILL)
        one.wait(10)
        yield whole[20_000:]

    with pytest.raises(httpx.TransportError):
        browser.put("/files/drop", content=dying(), headers={"Dynoan-Name": "half.csv"})
    _, again = started(tmp_path / "team", "--port", 18560)
    page = came_in(again).get("/files").text
    assert RUN.name in page
    assert "half.csv" not in page
    assert Library(tmp_path / "team").check().faults == ()


def test_a_folder_with_other_things_is_left_alone(tmp_path, capsys):
    (tmp_path / "mine.txt").write_text("mine")
    call = [sys.executable, "-m", "dynoan", "open", str(tmp_path), "--no-browser"]
    done = subprocess.run(call, capture_output=True, text=True, timeout=300, check=False)
    assert done.returncode == 2
    assert os.listdir(tmp_path) == ["mine.txt"]


def test_help_needs_no_server(tmp_path):
    code = (
        "import sys; sys.argv = ['dynoan', 'open', '--help']\n"
        "from dynoan.cli.main import main\n"
        "try: main()\nexcept SystemExit: pass\n"
        "print('starlette' in sys.modules, 'uvicorn' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "False False"


@pytest.mark.parametrize(("platform", "ending"), [("linux", ".desktop"), ("darwin", ".command"), ("win32", ".bat")])
def test_a_shortcut_is_written_to_the_desktop_and_replaced_only_where_it_is_one(tmp_path, platform, ending):
    (tmp_path / "Desktop").mkdir()
    path = install(tmp_path / "team", platform=platform, home=tmp_path)
    assert path == tmp_path / "Desktop" / f"dynoan{ending}"
    assert str(tmp_path / "team") in path.read_text()
    assert install(tmp_path / "other", platform=platform, home=tmp_path) == path
    assert str(tmp_path / "other") in path.read_text()
    path.write_text("mine")
    with pytest.raises(CallError, match="there is such a file"):
        install(tmp_path / "team", platform=platform, home=tmp_path)
    assert path.read_text() == "mine"


def test_a_shortcut_quotes_what_a_folder_may_be_called(tmp_path):
    _, text = shortcut(tmp_path / LIBRARY, "darwin", sys.executable)
    assert shlex.split(text.splitlines()[-1])[-1] == str(tmp_path / LIBRARY)
    with pytest.raises(CallError, match="cannot stand"):
        shortcut(tmp_path / LIBRARY, "win32", sys.executable)
    with pytest.raises(CallError, match="invisible"):
        install(tmp_path / "a\nb", platform="linux", home=tmp_path)


def test_install_shortcut_says_where(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("HOME", str(tmp_path))
    assert run(["open", str(tmp_path / "team"), "--install-shortcut"], folder=tmp_path) == 0
    assert str(tmp_path / "dynoan") in capsys.readouterr().out
