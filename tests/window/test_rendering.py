"""Words of answers as a page shows them."""

import pytest

from dynoan.window.rendering import sentence


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("lsr may move compression as well.", "lsr may move compression as well"),
        ("hsc: two runs would tell", "hsc: two runs would tell"),
        ("rear: what would fit.", "Rear: what would fit"),
        ("lsring is no adjuster", "Lsring is no adjuster"),
    ],
)
def test_a_sentence_begins_with_a_capital_but_not_in_an_adjusters_name(text, shown):
    assert sentence(text) == shown
