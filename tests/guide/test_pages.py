"""Every example of the guide runs, and its output is as it stands there."""

from __future__ import annotations

import re

import pytest

from dynoan.guide import picture, topic, topics
from tests.guide.grounds import GuideGrounds
from tests.guide.pages import agrees, ground, steps
from tests.guide.renew import SHOWN
from tests.guide.running import ran

TOPICS = {t.name: t for t in topics()}
#: the longest line of a page outside its examples
MEASURE = 130


@pytest.fixture(scope="module")
def grounds(tmp_path_factory):
    return GuideGrounds(tmp_path_factory.mktemp("guide"), tmp_path_factory.getbasetemp())


@pytest.mark.parametrize("name", [n for n, t in TOPICS.items() if list(steps(t))])
def test_the_examples_of_a_page_say_what_stands_beneath_them(name, grounds):
    with grounds.copy(ground(TOPICS[name])) as folder:
        for step, said, code in ran(TOPICS[name], folder):
            typed = f"dynoan {' '.join(step.words)}"
            refused = bool(step.said) and step.said[-1].startswith("dynoan: ")
            assert (code == 2) == refused, f"{typed}: exit {code}\n" + "\n".join(said)
            assert agrees(step.said, said), f"{typed} says\n" + "\n".join(said)


@pytest.mark.parametrize("name", TOPICS)
def test_a_page_is_one_to_read(name):
    page = TOPICS[name]
    assert page.summary.endswith("."), "the sentence in the list of topics"
    assert re.match(r"(<!--.*-->\n)?# ", page.text)
    fenced = re.sub(r"^```.*?^```$", "", page.text, flags=re.MULTILINE | re.DOTALL)
    assert max(map(len, fenced.splitlines())) <= MEASURE
    for name_of_picture in SHOWN.findall(page.text):
        assert picture(name_of_picture).startswith(b"\x89PNG")
    assert page.text.count("![") == len(SHOWN.findall(page.text))


@pytest.mark.parametrize("name", [n for n, t in TOPICS.items() if list(steps(t)) and ground(t) == "demo"])
def test_a_page_says_where_its_examples_run(name):
    """Somebody who pastes them into an empty folder is told first that they want the demo's."""
    said, _, _ = TOPICS[name].text.partition("```")
    assert "`dynoan demo`, then `cd demo`" in said


def test_pages_that_are_pointed_to_are_there():
    for page in TOPICS.values():
        for named in re.findall(r"`dynoan guide ([a-z-]+)`", page.text):
            assert topic(named).name == named


def test_lines_left_out_are_left_out_and_no_others():
    assert agrees(("a", "…", "d"), ["a", "b", "c", "d"])
    assert agrees(("…",), ["a"])
    assert agrees(("a", "…", "c", "…", "e"), ["a", "b", "c", "d", "e"])
    assert not agrees(("a", "…", "x", "…", "e"), ["a", "b", "c", "d", "e"])
    assert not agrees(("a", "…", "d"), ["b", "c", "d"])
    assert not agrees(("a",), ["a", "b"])
    assert not agrees((), ["a"])
