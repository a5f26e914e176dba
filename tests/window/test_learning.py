"""What a launch tells of the car, asked on the log book; a change of the file is shown first."""

import pytest

from dynoan.window import launch_logs
from tests.window.conftest import BASE, DEMO

LOGS = sorted((DEMO / "travel").glob("kestrel_launch_*.csv"))


def send(window, logs, surface="loose", **said):
    sent = [("files", log if isinstance(log, tuple) else (log.name, log.read_bytes())) for log in logs]
    headers = {"Origin": BASE, "Referer": f"{BASE}/log"}
    data = {"car": "kestrel", "surface": surface} | said
    return window.browser.post("/log/learn", data=data, files=sent, headers=headers).text


def test_a_launch_is_learned_from_and_the_change_is_shown_before_it_is_written(demo):
    send(demo, LOGS)
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


def volts(path):
    """A log whose front shock is logged in volts, 20 mm each, under a name that tells no corner."""
    first, head, *rows = path.read_text().splitlines()
    cells = [row.split(",") for row in rows]
    made = [",".join([*row[:2], f"{float(row[2]) / 20:.5f}", row[3]]) for row in cells]
    text = "\n".join([first, head.replace("Shock FL [mm]", "Pot 7 [V]"), *made])
    return path.name, text.encode()


def test_what_a_column_means_is_said_for_each_corner_and_the_logs_need_not_be_sent_again(demo):
    page = send(demo, [volts(path) for path in LOGS[1:]], **{"column.fl": "Pot 7", "column.rl": "Shock RL"})
    assert "say below what one unit of it means" in page
    assert '<option value="Pot 7" selected>' in page
    assert not demo.desk.works.under_way()
    demo.post("/log/learn", {"car": "kestrel", "surface": "loose", "column.fl": "Pot 7", "column.rl": "Shock RL",
                             "scale.fl": "20 mm per V"})  # fmt: skip
    asked = launch_logs.question(demo.desk)
    assert asked.hints.scales["fl"].text == "20 mm per V"
    assert set(asked.hints.scales) == {"fl"}
    assert [log.file for log in asked.logs] == [path.name for path in LOGS[1:]]
    assert demo.desk.works.under_way()
    demo.desk.works.stop(demo.desk.works.under_way()[0].number)


def test_columns_of_the_car_as_a_whole_have_scales_of_their_own(demo):
    name, data = volts(LOGS[1])
    sent = [(name, data.replace(b"Shock RL [mm]", b"Acc [V]").replace(b"Pot 7 [V]", b"Shock FL [V]"))]
    page = send(demo, sent, **{"column.acceleration": "Acc", "scale": "20 mm per V"})
    assert "is in V, no acceleration; say below what one unit of it means" in page
    assert '<option value="Acc" selected>' in page
    demo.post("/log/learn", {"car": "kestrel", "surface": "loose", "column.acceleration": "Acc",
                             "scale": "20 mm per V", "scale.acceleration": "1 g per V"})  # fmt: skip
    asked = launch_logs.question(demo.desk)
    assert asked.hints.scales["acceleration"].factor == pytest.approx(9.80665)
    assert asked.hints.scales["fl"].factor == pytest.approx(0.02)
    assert asked.hints.columns == {"acceleration": "Acc"}
    demo.desk.works.stop(demo.desk.works.under_way()[0].number)
