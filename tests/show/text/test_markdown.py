"""The guide's pages as blocks for a terminal."""

from __future__ import annotations

from dynoan.show.pages.markdown import to_html
from dynoan.show.text.blocks import Paragraph, Table
from dynoan.show.text.markdown import from_markdown

PAGE = """<!-- ground: demo -->
# Head

A `word` and **more**,
on two lines.

- one
- two

| a | b |
| --- | --- |
| 1 | 2 |

```console
$ dynoan  x
```
"""


def said(text):
    return [b.text for b in from_markdown(text) if isinstance(b, Paragraph) and b.text]


def test_marks_are_taken_away_and_lines_joined():
    assert said(PAGE)[:4] == ["Head\n====", "A word and more, on two lines.", "- one", "- two"]


def test_a_fence_keeps_every_blank():
    (drawn,) = [b for b in from_markdown(PAGE) if isinstance(b, Paragraph) and b.typed]
    assert drawn.text == "    $ dynoan  x"


def test_a_table_is_one():
    (table,) = [b for b in from_markdown(PAGE) if isinstance(b, Table)]
    assert (list(table.columns), [list(r) for r in table.rows]) == (["a", "b"], [["1", "2"]])


def test_items_stand_close_and_numbers_count():
    assert said("1. a\n2. b\n") == ["1. a", "2. b"]
    assert Paragraph("") not in from_markdown("- a\n- b\n")


def test_html_lets_no_html_through_and_sets_heads_lower():
    made = to_html("# A\n\n<script>x</script> <b>\n", lower=1)
    assert "<h2>A</h2>" in made
    assert "<script" not in made
    assert "<b>" not in made
