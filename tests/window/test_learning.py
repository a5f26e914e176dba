"""What a launch tells of the car, asked on the log book; a change of the file is shown first."""

from tests.window.conftest import BASE, DEMO

LOGS = sorted((DEMO / "travel").glob("kestrel_launch_*.csv"))


def send(window, logs, surface="loose"):
    sent = [("files", (path.name, path.read_bytes())) for path in logs]
    headers = {"Origin": BASE, "Referer": f"{BASE}/log"}
    data = {"car": "kestrel", "surface": surface}
    return window.browser.post("/log/learn", data=data, files=sent, headers=headers).text


def test_a_launch_is_learned_from_and_the_change_is_shown_before_it_is_written(demo):
    send(demo, LOGS[1:])
    demo.wait()
    page = demo.get("/log").text
    assert "What these logs cannot tell" in page
    assert "kestrel_launch_3.csv left out" in page
    assert "Height of the centre of gravity" in page
    assert "cg_height" not in page
    assert "--write" not in page
    before = demo.desk.library.car_text("kestrel")
    shown = demo.post("/log/learned").text
    assert "sliding_grip" in shown or "nothing that may be written" in shown
    assert demo.desk.library.car_text("kestrel") == before


def test_what_is_no_log_is_refused_in_a_line(demo):
    assert "choose the log of a launch" in send(demo, [])
    assert "What does a launch tell" in demo.get("/log").text
