"""From fitted views to tables of force and band at every click, for a pack or one of its shocks.

In: the fits of both views. Out: the view that left-out tests prefer, `DirectionMap`s, the map of one shock at a date or
in warm oil. Called by `mapping`, `at_clicks` and the workbench. Read in this order: views,
oil_temperature, tables, one_shock.
"""
