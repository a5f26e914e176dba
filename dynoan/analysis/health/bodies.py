"""Which tests are of one shock with one pack in it: gas and friction are theirs, and a change of pack alters them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from dynoan.analysis.health.records import Test


def _same_body(one: Test, other: Test) -> bool:
    """Whether two tests are of one shock with one pack in it; a pack nobody named may be the same."""
    (shock, pack), (its, packed) = _shock_and_pack(one), _shock_and_pack(other)
    return shock == its and (pack == packed or not pack or not packed)


def _shock_and_pack(test: Test) -> tuple[str, str]:
    shock, *others = test.setting or ("",)
    return shock, others[0] if others else ""


def alike(tests: Sequence[Test], others: Sequence[Test]) -> list[Test]:
    """Return the tests of shocks with a pack that the others have in them too: a change of pack lets the gas out."""
    return [t for t in tests if any(_same_body(t, other) for other in others)]


def body_notes(sessions: Mapping[str, Sequence[Test]], begun: str) -> list[str]:
    """Return what is to be said where sessions are of several packs."""
    dates, first = sorted(sessions), sessions[begun]
    last = sessions[dates[-1]]
    if not alike(first, last):
        was, now = (", ".join(sorted({" with ".join(t.setting[:2]) for t in tests})) for tests in (first, last))
        return [f"the first tests are of {was}, the last of {now}: gas, friction and give are not compared, for a "
                "change of pack charges the gas anew"]  # fmt: skip
    if begun != dates[0]:
        return [f"the last tests are held against those of {begun}, the first with the same pack"]
    return []


def with_other_packs(tests: Sequence[Test], last: Sequence[Test]) -> list[tuple[str, list[Test], list[Test]]]:
    """Return the first and last tests of each pack that a shock had in it on two dates, and not last.

    Each with a name of the pack and both dates.
    """
    rest = [t for t in tests if _shock_and_pack(t)[1] and not alike([t], last)]
    out = []
    for shock, pack in sorted({t.setting[:2] for t in rest} if len({t.setting[0] for t in tests}) == 1 else ()):
        mine = [t for t in rest if t.setting[:2] == (shock, pack)]
        dates = sorted({t.date for t in mine})
        if len(dates) > 1:
            first, then = ([t for t in mine if t.date == day] for day in (dates[0], dates[-1]))
            out.append((f"with {pack}, {dates[0]} to {dates[-1]}", first, then))
    return out
