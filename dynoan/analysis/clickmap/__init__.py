"""A handful of tested settings of one pack to a curve at every click, and what follows from it.

In: tested curves of one pack. Out: a `ClickMap`; a click's worth, the pack an unknown sweep is, the setting that
stands in for another, the runs to pay for next. Called by the workbench and the jobs.
Read in this order: tested, thinning, friction, states, data, discrepancy, openings, trend, sizes, valve, valve_slopes,
valve_prior, valve_trend, valve_fit, backward, valve_openings, crossing, hydraulic, at_rest, interpolated, strangers,
returning, oddities, views, shock_words, words, warmth, effects, losses, tables, mapping, units, at_clicks; then
authority, equivalent, likelihood, identify, plan_model, plan. What they take for granted stands in assumptions, by
subject.
"""
