"""`dynoan open` as a user starts it: its first line, its end, the shortcut, and being killed in mid-upload."""

import json
import os
import shlex
import signal
import socket
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress

import httpx
import psutil
import pytest

from dynoan.cli.main import run
from dynoan.errors import CallError
from dynoan.library import Library
from dynoan.window.shortcut import install, shortcut
from tests.library.calling import dynoan
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


def test_the_first_line_is_the_address_or_one_object_and_ctrl_c_ends_it(started, tmp_path):
    one, address = started(tmp_path / "team", "--port", 18500)
    assert address.startswith("http://127.0.0.1:18500/enter?token=")
    _, line = started(tmp_path / "team", "--port", 18500, "--json")
    found = json.loads(line)
    assert found["command"] == "open"
    elsewhere = found["result"]["address"]
    assert elsewhere.startswith("http://127.0.0.1:18501/")
    assert "Nothing here yet" in came_in(address).get("/files").text
    one.send_signal(signal.SIGINT)
    assert one.wait(300) == 0
    assert one.stderr.read() == ""
    assert "Nothing here yet" in came_in(elsewhere).get("/files").text
    with socket.socket() as free:
        free.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        free.bind(("127.0.0.1", 18500))


def test_killed_in_mid_upload_nothing_half_is_there(started, tmp_path):
    one, address = started(tmp_path / "team", "--port", 18540)
    browser = came_in(address)
    whole = RUN.read_bytes()
    assert browser.put("/files/drop", content=whole, headers={"Dynoan-Name": RUN.name}).status_code == 200

    def dying():
        yield whole[:20_000]
        os.kill(one.pid, signal.SIGKILL)
        one.wait(300)
        yield whole[20_000:]

    with pytest.raises(httpx.TransportError):
        browser.put("/files/drop", content=dying(), headers={"Dynoan-Name": "half.csv"})
    _, again = started(tmp_path / "team", "--port", 18560)
    page = came_in(again).get("/files").text
    assert RUN.name in page
    assert "half.csv" not in page
    assert Library(tmp_path / "team").check().faults == ()


def test_two_servers_that_keep_and_correct_at_once_leave_one_whole_library(started, tmp_path):
    library = tmp_path / "team"
    both = [came_in(started(library, "--port", port)[1]) for port in (18580, 18600)]
    runs = sorted((DEMO / "dyno").glob("FL-01_tarmac*"))[:3]
    for path in runs:
        both[0].put("/files/drop", content=path.read_bytes(), headers={"Dynoan-Name": path.name})

    def at_once(*calls):
        with ThreadPoolExecutor(len(calls)) as threads:
            return [one.result() for one in [threads.submit(call) for call in calls]]

    kept = at_once(*(lambda b=b: b.post("/files/keep") for b in both))
    assert all(answer.status_code < 500 for answer in kept)
    records = Library(library).records()
    assert sorted(r.source for r in records) == [path.name for path in runs], "each once"
    first, other = records[0].id, records[1].id
    changed = at_once(
        lambda: both[0].post("/packs/correct", data={"id": first, "do": "correct", "lsc": "7"}),
        lambda: both[1].post("/packs/correct", data={"id": other, "do": "remove"}),
        lambda: both[1].post("/packs/rename", data={"pack": "tarmac", "to": "asphalt"}),
    )
    assert all(answer.status_code < 500 for answer in changed)
    assert Library(library).check().faults == ()
    left = {r.id: r for r in Library(library).records()}
    assert other not in left
    assert left[first].clicks["lsc"] == 7
    assert {r.pack for r in left.values()} <= {"tarmac", "asphalt"}
    stamps = {b.get("/state").json()["stamp"] for b in both}
    assert len(stamps) == 1, "both show it as it is"


def test_a_change_by_the_command_line_is_shown_and_not_undone_over(window):
    """Inside this process: servers of their own, side by side on one library, are above."""
    window.fit_nothing()
    window.put(RUN.name, RUN.read_bytes())
    window.post("/files/keep")
    before = window.get("/state").json()["stamp"]
    (record,) = Library(window.desk.path).records()
    done = dynoan("edit", record.id, "--pack", "elsewhere", "--library", window.desk.path)
    assert done.code == 0, done.err
    assert window.get("/state").json()["stamp"] != before, "the tab can tell that it is behind"
    assert "elsewhere" in window.get("/packs").text
    window.post("/undo")
    (left,) = Library(window.desk.path).records()
    assert left.pack == "elsewhere", "what somebody else changed since is not taken back"


@pytest.mark.thorough
def test_two_hundred_megabytes_and_ten_thousand_files_pass_by(started, tmp_path):
    """Really sent, with no length said: refused at the limit, the memory bounded, and the window goes on."""
    one, address = started(tmp_path / "team", "--port", 18640)
    browser, process = came_in(address), psutil.Process(one.pid)
    before = process.memory_info().rss

    def huge():
        for _ in range(200):
            yield bytes(1 << 20)

    with suppress(httpx.TransportError):  # it may be refused while it is still sent
        assert browser.put("/files/drop", content=huge(), headers={"Dynoan-Name": "huge.csv"}).status_code in (400, 413)
    many = [("files", (f"{i}.csv", b"time,load\n1,2\n")) for i in range(10_000)]
    with suppress(httpx.TransportError):
        assert browser.post("/files/drop", files=many).status_code in (200, 400, 413)
    assert process.memory_info().rss - before < 250e6
    page = browser.get("/files")
    assert page.status_code == 200
    assert "huge.csv" not in page.text
    assert Library(tmp_path / "team").check().faults == ()


def test_a_folder_with_other_things_is_left_alone(tmp_path):
    (tmp_path / "mine.txt").write_text("mine")
    assert dynoan("open", tmp_path, "--no-browser").code == 2
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


def test_a_window_that_opens_loads_nothing_that_only_fits_need():
    """`scipy.signal` alone brings half a second of imports, with all of `scipy.stats`."""
    code = "import sys, dynoan.window.serving; print(*(n for n in sys.modules if n.startswith('scipy.')))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert "scipy.linalg" in done.stdout.split()
    assert not {"scipy.signal", "scipy.stats", "scipy.optimize"} & set(done.stdout.split())


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
