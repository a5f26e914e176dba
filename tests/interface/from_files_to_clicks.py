"""From a folder of dyno files to the clicks to set, as someone would write it in a notebook; run as a test."""

import shutil
from pathlib import Path

import dynoan

lib = dynoan.open("team", new=True)
for folder in ("cars", "shocks"):  # the files people write: the car, and how its shocks count
    shutil.copytree(folder, f"team/{folder}", dirs_exist_ok=True)
kept = lib.add(*sorted(Path("dyno").glob("*")))
ratios = lib.ratio("kestrel", low="2 in/s", high="10 in/s")
frame = ratios.to_frame()  # a row a corner, the unit in each column's name
best = lib.choose("kestrel", axle="front", count=3)
figure = best.plot()
table = best._repr_html_()
clicks = best.to_dict()["choices"][0]["clicks"]
