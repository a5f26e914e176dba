"""The page that the command writes against what the other commands say: 52 corners and settings at random."""

import random

import pytest

from dynoan.library.car_file import car_from_text, car_to_text
from tests.browser.test_trackside import go, numbers
from tests.cli.pages import small_library
from tests.library.calling import dynoan

pytestmark = [pytest.mark.browser, pytest.mark.slow]
CARS = 13
SET = """([adjuster, wanted]) => { const row = document.querySelector(`[data-adjuster="${adjuster}"]`);
  const now = () => Number(row.querySelector("output").textContent);
  const [less, more] = row.querySelectorAll("button");
  for (let i = 0; i < 99 && now() !== wanted; i += 1) (now() < wanted ? more : less).click(); }"""


@pytest.fixture(scope="module")
def library(tmp_path_factory):
    return small_library(tmp_path_factory.getbasetemp())


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


def forces(library, corner):
    """What `predict` says at the low and the high velocity: (direction, level) to force and half band, and standing."""
    clicks = ",".join(f"{a}={c}" for a, c in corner.clicks.items())
    curve = dynoan("predict", corner.pack, "--clicks", clicks, "--shock", corner.shock, "--at", "0.05,0.25",
                   "--library", library, "--json").result["curves"][0]  # fmt: skip
    found = {}
    for row in curve["table"]:
        v = row["velocity_m_s"]
        key = ("compression" if v > 0 else "rebound", "low" if abs(v) < 0.1 else "high")
        found[key] = abs(row["force_n"]), (row["high_n"] - row["low_n"]) / 2
    return found, curve["standing"]


def test_ratios_and_forces_equal_those_of_ratio_and_predict(opened, library):
    rng = random.Random(11)
    out = library / "all.html"
    assert dynoan("trackside", "kestrel", "--out", out, "--library", library).code == 0
    page = opened(out.read_text(encoding="utf-8"))
    for number in range(CARS):
        car = vary(library, rng, number)
        corners = dynoan("ratio", car.name, "--library", library, "--json").result["corners"]
        for name, corner in car.corners.items():
            put_on(page, corner)
            predicted, standing = forces(library, corner)
            assert page.inner_text("#standing").lower().startswith(standing)
            for (direction, level), (force, half) in predicted.items():
                shown = numbers(page.inner_text(f"#{direction}-{level} .ratio"))[0]
                assert shown == pytest.approx(corners[name]["ratio"][direction][level], abs=0.0052), (car.name, name)
                cell = numbers(page.inner_text(f'[data-row="{direction}-{level}"] td >> nth=0'))
                assert cell[0] == pytest.approx(force, abs=0.75), (car.name, name, direction, level)
                assert cell[1] == pytest.approx(half, abs=0.75), (car.name, name, direction, level)
    assert page.seen.complaints == []
