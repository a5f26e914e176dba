"""``/api/<job>``: the object the command prints with --json, and nothing that writes or leaves the library."""

import json

import pytest

from dynoan.cli.asking import LOOKING
from tests.golden.running import run
from tests.window.conftest import DEMO

ASKED = {
    "ratio": ("ratio?car=kestrel&low=2 in/s", ["ratio", "kestrel", "--low", "2 in/s"]),
    "choose": ("choose?car=kestrel&axle=front&count=3&per-corner=1",
               ["choose", "kestrel", "--axle", "front", "--count", "3", "--per-corner"]),
    "sweeps": ("sweeps?filters=pack%3Dgravel", ["sweeps", "pack=gravel"]),
    "setups": ("setup/list", ["setup", "list"]),
    "nobody": ("ratio?car=nobody", ["ratio", "nobody"]),
    "check": ("check", ["check"]),
    "curve": ("curve?what=gravel@lsc=10&at=50 mm/s", ["curve", "gravel@lsc=10", "--at", "50 mm/s"]),
    "compare": ("compare?what=gravel@lsc=6&what=tarmac&what=mixed", ["compare", "gravel@lsc=6", "tarmac", "mixed"]),
    "match": ("match?what=shock%3DRL-03,pack%3Dgravel&what=shock%3DRR-04,pack%3Dgravel&tolerance=8",
              ["match", "shock=RL-03,pack=gravel", "shock=RR-04,pack=gravel", "--tolerance", "8"]),
    "predict": ("predict?pack=gravel&clicks=lsc=6&clicks=lsc=9",
                ["predict", "gravel", "--clicks", "lsc=6", "--clicks", "lsc=9"]),
    "plan": ("plan?pack=mixed&runs=2", ["plan", "mixed", "--runs", "2"]),
    "health": ("health?shock=RR-04", ["health", "RR-04"]),
    "carry": ("carry?car=kestrel&what=front.spring%3D275 lb/in",
              ["carry", "kestrel", "--what", "front.spring=275 lb/in"]),
    "launch": ("launch?car=kestrel&surface=loose&time=1 s",
               ["launch", "kestrel", "--surface", "loose", "--time", "1 s"]),
}  # fmt: skip


@pytest.mark.parametrize("name", ASKED)
def test_the_object_is_the_one_that_json_prints(looked_at, name):
    address, words = ASKED[name]
    answer = looked_at.get(f"/api/{address}")
    done = run([*words, "--json"], looked_at.desk.path)
    assert answer.json() == json.loads(done.out)
    assert answer.headers["dynoan-exit"] == str(done.code)
    assert answer.status_code == (400 if done.code == 2 else 200)


#: what a log book and a trial hold, and what is asked of them
KEPT = (
    ["setup", "record", "kestrel", "--surface", "loose", "--good", "--date", "2026-05-02"],
    ["setup", "record", "kestrel", "--surface", "sticky", "--date", "2026-06-13"],
    ["trial", "new", "start", "--a", "rear=@lsr=6", "--b", "rear=@lsr=10", "--surface", "loose"],
)  # fmt: skip
ASKED_OF_DAYS = {
    "setup list": ("setup/list?by=surface", ["setup", "list", "--by", "surface"]),
    "setup compare": ("setup/compare?one=2026-05-02-kestrel&other=2026-06-13-kestrel",
                      ["setup", "compare", "2026-05-02-kestrel", "2026-06-13-kestrel"]),
    "setup recall": ("setup/recall?surface=loose", ["setup", "recall", "--surface", "loose"]),
    "trial show": ("trial/show?name=start", ["trial", "show", "start"]),
}  # fmt: skip


def test_of_days_and_trials_too(demo):
    for words in KEPT:
        run(words, demo.desk.path)
    for address, words in ASKED_OF_DAYS.values():
        answer, done = demo.get(f"/api/{address}"), run([*words, "--json"], demo.desk.path)
        assert answer.json() == json.loads(done.out), address
        assert answer.headers["dynoan-exit"] == str(done.code)
        assert done.code != 2, done.out


def test_an_unlabelled_run_is_told_by_its_id(demo):
    demo.put("unlabelled.csv", (DEMO / "unlabelled.csv").read_bytes())
    demo.post("/files/keep")
    (one,) = [r for r in demo.desk.library.records() if not r.pack]
    done = run(["identify", one.id, "--json"], demo.desk.path)
    assert demo.get(f"/api/identify?file={one.id}").json() == json.loads(done.out)
    assert done.code == 0


def test_no_job_is_left_out():
    told = {*ASKED, *ASKED_OF_DAYS} - {"setups", "nobody"}
    assert told | {"identify"} == set(LOOKING)


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
