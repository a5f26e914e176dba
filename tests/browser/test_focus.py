"""What has the focus is seen, with large text and at 400 % zoom too (WCAG 2.2, 2.4.11)."""

import pytest

from dynoan.show.pages.trackside.build import build_trackside
from tests.browser.conftest import LAYOUT_FAULTS, hidden_focus
from tests.show.cars import made_view
from tests.show.reports import usual_report

pytestmark = pytest.mark.browser
LARGE, ZOOMED = (360, 640, 200), (320, 256, 100)  #: a phone with text twice as large; 1280 × 1024 at 400 %
CASES = [
    pytest.param("trackside", *LARGE, id="trackside, large text"),
    *(
        pytest.param(kind, *case, id=f"{kind}, {case[0]}", marks=pytest.mark.thorough)
        for kind, case in (("trackside", ZOOMED), ("report", LARGE), ("report", ZOOMED))
    ),
]


@pytest.mark.parametrize(("kind", "width", "height", "text"), CASES)
def test_focus_is_never_hidden_and_nothing_overlaps(opened, kind, width, height, text):
    page = opened(build_trackside(made_view()) if kind == "trackside" else usual_report()[1], width, height)
    page.evaluate("text => { document.documentElement.style.fontSize = text + '%'; }", text)
    page.wait_for_timeout(200)
    stops, hidden = hidden_focus(page)
    assert stops > 8
    assert hidden == []
    page.evaluate("() => { document.activeElement.blur(); scrollTo(0, 0); }")
    page.wait_for_timeout(100)
    assert page.evaluate(LAYOUT_FAULTS) == []


def test_focus_under_something_else_is_found(opened):
    cover = "<div style='position: fixed; inset: 0; background: #fff; z-index: 9'></div>"
    page = opened(f"<!doctype html><title>x</title><button>one</button><button>two</button>{cover}")
    stops, hidden = hidden_focus(page)
    assert stops == 2
    assert [one.split(":")[0] for one in hidden] == ["covered", "covered"]
