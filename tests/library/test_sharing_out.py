"""How work is shared out: in order, and only a few items under way at a time."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from dynoan.batch import iterate
from dynoan.batch.sharing import _in_order
from dynoan.errors import QuantityError
from tests.library.shared_out import map_all

FEW = settings(max_examples=40, deadline=None)


class Later:
    """A result that is made when it is asked for."""

    def __init__(self, item: int, open_ones: list[int]) -> None:
        self.item, self.open_ones = item, open_ones

    def result(self) -> int:
        self.open_ones.remove(self.item)
        return -self.item


@FEW
@given(st.integers(0, 30), st.integers(1, 9))
def test_results_come_in_order_with_no_more_under_way_than_allowed(count, ahead):
    under_way: list[int] = []
    taken: list[int] = []

    def items():
        for item in range(count):
            taken.append(item)
            yield item

    def submit(item: int) -> Later:
        under_way.append(item)
        return Later(item, under_way)

    results = []
    for result in _in_order(submit, items(), ahead):
        results.append(result)
        assert len(under_way) < ahead
        assert len(taken) <= len(results) + ahead - 1
    assert results == [-item for item in range(count)]
    assert not under_way


@FEW
@given(st.lists(st.integers(), max_size=20), st.integers(1, 1))
def test_in_this_process_it_is_a_map(items, workers):
    assert map_all(str, items, workers) == list(map(str, items))
    assert list(iterate(str, iter(items), workers)) == list(map(str, items))


def test_what_goes_wrong_comes_in_its_turn_and_what_came_before_is_kept():
    def picky(item: int) -> int:
        if item == 2:
            raise QuantityError("two is no number")
        return item

    results, said = [], ""
    try:
        for result in iterate(picky, range(5), 1):
            results.append(result)
    except QuantityError as error:
        said = str(error)
    assert (results, said) == ([0, 1], "two is no number")
