"""The line on the order of a ranking: said where what a setting is off by does not show it."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from dynoan.show.text.choose import _order


def plans(*rows):
    return [
        SimpleNamespace(fits=fits, choices=(SimpleNamespace(choice=SimpleNamespace(miss=off)),)) for off, fits in rows
    ]


@pytest.mark.parametrize(
    ("rows", "says"),
    [
        (((0.231, True), (0.215, True), (0.216, True)), "1 misses by hardly more than 2 and leads because it turns"),
        (((0.03, True), (0.04, True), (0.02, False)), "those that keep every ratio within 10 % come first"),
        (((0.02, True), (0.03, True), (0.04, False)), ""),
        (((0.021, True), (0.0209, True)), ""),
    ],
)
def test_the_order_is_said_where_it_does_not_show(rows, says):
    told = [paragraph.text for paragraph in _order(plans(*rows), 0.1)]
    assert len(told) == bool(says)
    assert all(text.startswith("The order: ") and says in text for text in told)
