"""Who may ask the window: this machine's own browser that came in with the token, and nobody else."""

import errno
import socket

import pytest

from dynoan.window import guarding
from dynoan.window.serving import _listen, names_of
from tests.window.conftest import BASE, DEMO, HOST

RUN = DEMO / "dyno" / "FL-01_gravel_lsc10_hsc10_lsr10_hsr10.csv"


def test_the_token_is_good_for_once_and_becomes_a_strict_cookie(window):
    stranger = window.stranger()
    window.keys.token = "once"
    answer = stranger.get("/enter?token=once")
    assert answer.status_code == 303
    assert answer.headers["location"] == "/"
    cookie = answer.headers["set-cookie"]
    assert "HttpOnly" in cookie
    assert "samesite=strict" in cookie.lower()
    assert stranger.get("/files").status_code == 200
    assert window.stranger().get("/enter?token=once").status_code == 403


@pytest.mark.parametrize("path", ["/", "/files", "/packs", "/curves", "/car", "/log", "/state", "/api/sweeps"])
def test_without_the_cookie_nothing_is_shown(window, path):
    answer = window.stranger().get(path)
    assert answer.status_code == 403
    assert "dynoan open" in answer.text


@pytest.mark.parametrize("host", ["evil.example", "evil.example:8320", "127.0.0.1", "127.0.0.1:9999", ""])
def test_a_foreign_host_is_refused(window, host):
    assert window.get("/files", headers={"Host": host}).status_code == 421


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "http://evil.example"},
        {"Origin": "null"},
        {"Origin": f"https://{HOST}"},
        {"Origin": "http://localhost:8320"},
        {"Origin": BASE, "Sec-Fetch-Site": "cross-site"},
    ],
)
def test_a_foreign_page_changes_nothing(window, headers):
    window.put(RUN.name, RUN.read_bytes())
    answer = window.browser.post("/files/keep", headers=headers)
    assert answer.status_code == 403
    assert window.desk.library.records() == ()


def test_a_change_without_an_origin_is_refused(window):
    assert window.browser.post("/units", data={"units": "us"}).status_code == 403
    assert window.desk.units == "metric"


def test_every_answer_has_a_strict_policy_and_no_cors(window):
    for path in ("/files", "/state", "/static/page.js", "/api/sweeps", "/nowhere"):
        headers = window.get(path, headers={"Origin": "http://evil.example"}).headers
        policy = headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy
        assert "access-control-allow-origin" not in headers
        assert headers["x-content-type-options"] == "nosniff"


@pytest.mark.parametrize(
    "path",
    [
        "/static/../app.py", "/static/%2e%2e/app.py", "/static/..%2fapp.py", "/static/%2Fetc%2Fpasswd",
        "/static/app.py",
        "/../dynoan.toml", "/files/..%2f..%2fdynoan.toml/data", "/static/", "/files/0123456789abcdef/data",
    ],
)  # fmt: skip
def test_no_path_leads_out(window, path):
    answer = window.get(path)
    assert answer.status_code in (400, 404)
    assert "import" not in answer.text
    assert "format" not in answer.text


def test_a_name_of_a_file_never_becomes_a_path(window):
    before = {p for p in window.desk.path.parent.rglob("*") if p.is_file()}
    for name in ("../../evil.csv", "..%5C..%5Cevil.csv", "%2Fetc%2Fevil.csv", "C%3A%5Cevil.csv", "%00", "a" * 5000):
        window.put(name, RUN.read_bytes() + name.encode())
    new = {p for p in window.desk.path.parent.rglob("*") if p.is_file()} - before
    assert len(new) == 12
    assert {p.parent for p in new} == {window.desk.path / "cache" / "dropped"}
    assert not [p for p in new if "evil" in p.name]


@pytest.mark.parametrize("method", ["PUT", "POST"])
def test_a_file_of_200_mb_is_refused_before_it_is_read(window, method):
    headers = {"Origin": BASE, "Content-Length": str(200 << 20)}
    assert window.browser.request(method, "/files/drop", content=b"x", headers=headers).status_code == 413


def test_a_body_that_does_not_say_how_long_it_is_ends_at_the_limit(window, monkeypatch):
    monkeypatch.setattr(guarding, "MOST_BODY", 100_000)

    def endless():
        for _ in range(100):
            yield b"x" * 10_000

    answer = window.browser.put("/files/drop", content=endless(), headers={"Origin": BASE, "Dynoan-Name": "a.csv"})
    assert answer.status_code == 400
    assert window.desk.dropped.files() == []


def test_ten_thousand_files_are_bounded(window, monkeypatch):
    monkeypatch.setattr("dynoan.window.dropped.MOST_FILES", 5)
    said = [window.put(f"{i}.csv", str(i).encode()).status_code for i in range(8)]
    assert said == [200] * 5 + [400] * 3
    assert len(window.desk.dropped.files()) == 5
    many = [("files", (f"{i}.csv", b"x")) for i in range(600)]
    assert window.post("/files/drop", files=many).status_code in (200, 400)
    assert len(window.desk.dropped.files()) == 5


def test_a_stranger_needs_the_password_where_others_can_come(window):
    window.keys.password = "right"
    stranger = window.stranger()
    assert 'type="password"' in stranger.get("/enter").text
    assert stranger.post("/enter", data={"password": "wrong"}, headers={"Origin": BASE}).status_code == 403
    assert stranger.get("/files").status_code == 403
    led = stranger.get("/files", headers={"Accept": "text/html,*/*"})
    assert (led.status_code, led.headers["location"]) == (303, "/enter")
    assert stranger.post("/enter", data={"password": "right"}, headers={"Origin": BASE}).status_code == 303
    assert stranger.get("/files").status_code == 200


def test_a_port_that_is_taken_leads_to_the_next():
    first = _listen("127.0.0.1", None)
    second = _listen("127.0.0.1", first.getsockname()[1])
    try:
        assert first.getsockname()[0] == "127.0.0.1"
        assert second.getsockname()[1] > first.getsockname()[1]
        with pytest.raises(OSError, match=str(errno.EADDRINUSE)), socket.socket() as third:
            third.bind(("127.0.0.1", second.getsockname()[1]))
    finally:
        first.close()
        second.close()


def test_then_leads_only_to_pages_of_this_window(window):
    for evil in ("//evil.example", "https://evil.example", "/\\evil.example", "javascript:alert(1)"):
        answer = window.post("/units", {"units": "us", "then": evil}, follow_redirects=False)
        assert answer.headers["location"] == "/"


def test_a_window_that_listens_on_all_addresses_answers_to_each_of_them():
    names = names_of("0.0.0.0")
    assert {"127.0.0.1", "localhost", socket.gethostname().lower()} <= {*names}
    assert "0.0.0.0" not in names
    assert names_of("192.0.2.7") == ("192.0.2.7",)
    assert names_of("::1") == ("[::1]",)
    assert names_of(None) == ("127.0.0.1", "localhost")
