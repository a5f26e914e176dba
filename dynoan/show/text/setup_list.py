"""The setups kept, as people read them."""

from __future__ import annotations

from dynoan.jobs.setup.listing import SetupListAnswer
from dynoan.jobs.setup.season import SeasonSurface
from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.show.text.setups import VERDICTS, setups_table, unreadable_line
from dynoan.show.text.trial_list import trials_table


def blocks(answer: SetupListAnswer, look: Look) -> list[Block]:
    """Return the setups as a table, or that there are none."""
    rest: list[Block] = [Paragraph(unreadable_line(answer.unreadable))] if answer.unreadable else []
    if answer.question.by_surface and answer.season:
        return [block for season in answer.season for block in _season(season)] + rest
    if answer.setups:
        return [setups_table(answer.setups, look), *rest]
    if rest:
        return rest
    on = f" on {answer.question.surface}" if answer.question.surface else ""
    return [Paragraph(f"no setups{on} yet; keep one with: dynoan setup record CAR --surface NAME --good")]


def _season(season: SeasonSurface) -> list[Block]:
    """Return a surface's outings with what changed, its trials, and its baseline."""
    rows = [
        [o.setup.date[:10], o.setup.car.name, ", ".join(o.changed) or ("the first" if o.first else "nothing"),
         " ".join(filter(None, (VERDICTS[o.setup.good], o.setup.result or ""))), o.claim]
        for o in season.outings
    ]  # fmt: skip
    heads = ["date", "car", "changed since the last", "how it went", "what may be said of the change"]
    name = season.surface or "no surface named"
    blocks: list[Block] = [Table(heads, rows, name)] if rows else [Paragraph(f"{name}: no outings yet")]
    if season.trials:
        blocks.append(trials_table(season.trials, f"Trials on {name}"))
    base = season.baseline
    if base is None and season.outings:
        blocks.append(Paragraph(f"Baseline on {name}: none; no outing went well, and no trial was won."))
    if base is not None:
        won = f" ({', '.join(base.won)})" if base.won else ""
        blocks.append(Paragraph(f"Baseline on {name}: {base.setup.name}; {base.support}{won}, good on {base.good} of "
                                f"{base.outings} outings with these settings."))  # fmt: skip
    return blocks
