"""Reference formulas that no command needs: what the project computes by other ways is held against them."""
