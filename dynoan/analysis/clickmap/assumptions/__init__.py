"""What the click maps take for granted: each with its unit, its source, and what it decides.

"Common practice, no source" is a fact of the trade; "judged" was chosen on made-up packs as in
`tests/analysis/made_packs.py`; "numerics" is how finely one reckons and changes no answer that anybody would see.
Read in this order: data, odd_tests, spread, screws, views, tables; then identify, plan.
"""
