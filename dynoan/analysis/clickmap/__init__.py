"""A handful of tested settings of one pack to a curve at every click, and what follows from it.

In: tested curves of one pack. Out: a `ClickMap`; a click's worth, the pack an unknown sweep is, the setting that
stands in for another, the runs to pay for next. Called by the workbench and the jobs.
Read in this order: the folders tested, trends, shocks, valve, doubts and every_click, each of which knows only those
before it; mapping, which goes that way, and at_clicks, the curve at one setting; then asked, what is asked of a map.
What they take for granted stands in assumptions, by subject.
"""
