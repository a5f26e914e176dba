"""The page that the command writes against what the other commands say: corners and settings at random."""

import random
import shutil

import pytest

from dynoan.library.car_file import car_from_text
from dynoan.library.car_written import car_to_text
from tests.browser.test_trackside import go, numbers
from tests.cli.pages import small_library
from tests.library.calling import dynoan

pytestmark = [pytest.mark.browser, pytest.mark.slow]
SET = """([adjuster, wanted]) => { const row = document.querySelector(`[data-adjuster="${adjuster}"]`);
  const now = () => Number(row.querySelector("output").textContent);
  const [less, more] = row.querySelectorAll("button");
  for (let i = 0; i < 99 && now() !== wanted; i += 1) (now() < wanted ? more : less).click(); }"""


@pytest.fixture(scope="module")
def library(tmp_path_factory):
    """A copy, so that the cars varied here are not in the way of other tests."""
    kept = small_library(tmp_path_factory.getbasetemp())
    return shutil.copytree(kept, tmp_path_factory.mktemp("varied") / "kestrel")


def vary(library, rng, number):
    """Write the Kestrel with other packs, clicks, springs and weights, and return it."""
    from dataclasses import replace

    path = library / "cars" / "kestrel.toml"
    car = car_from_text(path.read_text(encoding="utf-8"), str(path), "kestrel")
    corners = {}
    for name, corner in car.corners.items():
        clicks = {a: rng.randint(0, 20) for a in ("lsc", "hsc", "lsr", "hsr")}
        corners[name] = replace(corner, pack=rng.choice(("gravel", "mixed")), clicks=clicks,
                                spring=rng.randint(30, 70) * 1e3, mass=float(rng.randint(210, 300)))  # fmt: skip
    name = f"varied-{number}"
    made = replace(car, name=name, corners=corners)
    (library / "cars" / f"{name}.toml").write_text(car_to_text(made), encoding="utf-8")
    return made


def put_on(page, corner):
    go(page, corner.name)
    page.select_option("#pack", corner.pack)
    for adjuster, click in corner.clicks.items():
        page.evaluate(SET, [adjuster, click])
    for key, value in (("mass", corner.mass), ("spring", corner.spring / 1e3)):
        page.fill(f"[data-load={key}] input", str(value))
        page.press(f"[data-load={key}] input", "Enter")
        page.evaluate("document.activeElement.blur()")


def text_of(corner):
    return ",".join(f"{a}={c}" for a, c in corner.clicks.items())


def predicted(library, cars):
    """What `predict` says, one call a pack and shock: by (pack, shock, clicks) the forces with half bands, standing."""
    wanted = {}
    for car in cars:
        for corner in car.corners.values():
            wanted.setdefault((corner.pack, corner.shock), []).append(text_of(corner))
    found = {}
    for (pack, shock), clicks in wanted.items():
        words = [word for text in clicks for word in ("--clicks", text)]
        named = (*words, "--shock", shock, "--at", "0.05 m/s,0.25 m/s", "--library", library)
        done = dynoan("predict", pack, *named, "--json")
        for text, curve in zip(clicks, done.result["curves"], strict=True):
            found[pack, shock, text] = dict(map(cell, curve["table"])), curve["standing"]
    return found


def cell(row):
    v = row["velocity_m_s"]
    key = ("compression" if v > 0 else "rebound", "low" if abs(v) < 0.1 else "high")
    return key, (abs(row["force_n"]), (row["high_n"] - row["low_n"]) / 2)


@pytest.mark.parametrize("many", [1, pytest.param(13, marks=pytest.mark.thorough)])
def test_ratios_and_forces_equal_those_of_ratio_and_predict(opened, library, many):
    rng = random.Random(11)
    out = library / "all.html"
    assert dynoan("trackside", "kestrel", "--out", out, "--library", library).code == 0
    page = opened(out.read_text(encoding="utf-8"))
    cars = [vary(library, rng, number) for number in range(many)]
    predictions = predicted(library, cars)
    for car in cars:
        corners = dynoan("ratio", car.name, "--library", library, "--json").result["corners"]
        for name, corner in car.corners.items():
            put_on(page, corner)
            forces, standing = predictions[corner.pack, corner.shock, text_of(corner)]
            assert page.inner_text("#standing").lower().startswith(standing)
            for (direction, level), (force, half) in forces.items():
                shown = numbers(page.inner_text(f"#{direction}-{level} .ratio"))[0]
                assert shown == pytest.approx(corners[name]["ratio"][direction][level], abs=0.0052), (car.name, name)
                found = numbers(page.inner_text(f'[data-row="{direction}-{level}"] td >> nth=0'))
                assert found[0] == pytest.approx(force, abs=0.75), (car.name, name, direction, level)
                assert found[1] == pytest.approx(half, abs=0.75), (car.name, name, direction, level)
    assert page.seen.complaints == []
