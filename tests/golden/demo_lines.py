"""Command lines in the demo's library: four adjusters a shock, traces, three packs, the rear-driven Kestrel."""

from __future__ import annotations

from tests.golden.line import Line, leaving, lines

MIDDLE = "lsc=10,hsc=10,lsr=10,hsr=10"
EIGHT = "lsc=8,hsc=8,lsr=8,hsr=8"
HELD = {
    # what is kept
    "sweeps": "sweeps", "sweeps-pack": "sweeps pack=gravel shock=FL-01", "sweeps-clicks": "sweeps lsc=10,hsc=10",
    "sweeps-date": "sweeps date=2025", "sweeps-none": "sweeps pack=wet", "sweeps-us": "sweeps --units us shock=RL-03",
    "sweeps-bad-key": "sweeps colour=red", "check": "check", "check-us": "check --units us",
    # curves
    "curve-setting": f"curve shock=FR-02,pack=gravel,{MIDDLE}", "curve-at": "curve gravel@lsc=2,hsr=2 --at '2 in/s,0.25'",
    "curve-us": "curve shock=RL-03,pack=mixed --units us", "curve-csv": "curve shock=RL-03,pack=mixed --csv",
    "curve-all-tarmac": "curve pack=tarmac", "curve-file": "curve unlabelled.csv", "curve-id": "curve 6707",
    "curve-file-told": "curve unlabelled.csv --shock FL-01 --pack tarmac --clicks lsc=7,hsc=12,lsr=9,hsr=6 -v",
    "curve-peaks": "curve dyno/rear_left_mixed_peaks.csv --at 0.05,0.1,0.3",
    "curve-by-date": "curve shock=RR-04,date=2025", "curve-none": "curve pack=gravel,lsc=19",
    "curve-no-file": "curve nothing.csv", "curve-bad-key": "curve colour=red", "curve-bad-at": "curve 6707 --at '2 N'",
    "curve-plot-suffix": "curve 6707 --plot c.docx",
    # laid over one another
    "compare-packs": f"compare gravel@{EIGHT} mixed@{EIGHT} tarmac@{EIGHT}",
    "compare-dates": "compare shock=RR-04,date=2025 shock=RR-04,date=2026", "compare-one": f"compare gravel@{EIGHT}",
    "compare-shocks-us": "compare shock=RL-03,pack=gravel shock=RR-04,pack=gravel,date=2026 --units us",
    "compare-at-csv": f"compare gravel@{EIGHT} tarmac@{EIGHT} --at 0.05,0.25 --csv",
    "compare-equal": f"compare --equal-to gravel@{EIGHT} mixed tarmac", "compare-equal-all": "compare --equal-to 6707",
    "compare-equal-shock": f"compare --equal-to gravel@{EIGHT} shock=RR-04",
    "compare-file": f"compare unlabelled.csv tarmac@{EIGHT}", "compare-no-pack": "compare wet@lsc=3 gravel@lsc=3",
    "match": f"match shock=RL-03,pack=gravel,{MIDDLE} shock=RR-04,pack=gravel,{MIDDLE}",
    "match-pair": "match shock=FL-01,pack=gravel shock=FR-02,pack=gravel",
    "match-wide": "match shock=RL-03,pack=gravel shock=RR-04,pack=gravel --tolerance 30",
    "match-us": "match shock=RL-03,pack=gravel shock=FR-02,pack=gravel --units us --tolerance 1",
    "match-predicted": f"match gravel@{EIGHT} mixed@lsc=12,hsc=12,lsr=12,hsr=12",
    "match-pairs": "match --pairs pack=gravel", "match-pairs-us": "match --pairs pack=gravel --units us --tolerance 8",
    "match-one": "match shock=RL-03", "match-itself": f"match gravel@{EIGHT} gravel@{EIGHT}",
    "match-tolerance": "match shock=RL-03,pack=gravel shock=FR-02,pack=gravel --tolerance 0",
    "identify": "identify unlabelled.csv", "identify-packs": "identify unlabelled.csv --packs gravel,mixed",
    "identify-kept": "identify 6707 --shock RL-03", "identify-no-pack": "identify unlabelled.csv --packs wet",
    "identify-no-file": "identify nothing.csv",
    # click maps
    "predict": "predict gravel --clicks lsc=5,hsc=9,lsr=7,hsr=9",
    "predict-several": "predict tarmac --clicks lsc=2,hsc=10,lsr=10,hsr=2 --clicks lsc=6 --clicks lsc=20,lsr=0 -v",
    "predict-shock-us": "predict gravel@lsc=4,lsr=4 --shock RR-04 --units us --at '2 in/s,10 in/s'",
    "predict-usual": "predict mixed", "predict-no-pack": "predict wet", "predict-beyond": "predict gravel --clicks lsc=21",
    "predict-no-shock": "predict gravel --shock XX-99", "predict-adjuster": "predict gravel --clicks cr=3",
    "plan": "plan tarmac", "plan-runs": "plan mixed --runs 2 --units us", "plan-new": "plan wet --shock FL-01 --runs 3",
    "plan-unknown": "plan wet", "plan-top": "plan wet --shock RR-04 --runs 2 --top '15 in/s'",
    "plan-bad-top": "plan tarmac --top '15 N'",
    "health": "health RR-04", "health-us": "health RR-04 --units us -v", "health-same": "health FL-01",
    "health-since": "health RR-04 --since 2026-01-01", "health-pack": "health gravel", "health-none": "health XX-99",
    "health-bad-date": "health RR-04 --since yesterday",
    # the car as it stands
    "ratio": "ratio kestrel", "ratio-us": "ratio kestrel --units us -v", "ratio-winter": "ratio kestrel-winter",
    "ratio-speeds": "ratio kestrel --low '2 in/s' --high '10 in/s' --body-amplitude '30 mm' --hop-amplitude '8 mm'",
    "ratio-surface": "ratio kestrel --surface loose --speed '60 km/h'", "ratio-sigma": "ratio kestrel --sigma '0.2 m/s'",
    "ratio-file": "ratio no-targets.toml", "ratio-no-car": "ratio kestrle", "ratio-swapped": "ratio kestrel --low 0.3",
    "ratio-no-surface": "ratio kestrel --surface ice --speed '60 km/h'", "ratio-fast": "ratio kestrel --high 0.6",
    "ratio-upside-down": "ratio upside-down.toml", "ratio-bare-number": "ratio bare-number.toml",
    "ratio-no-spring": "ratio no-spring.toml", "ratio-misspelt": "ratio misspelt.toml",
    # clicks for ratios
    "choose": "choose kestrel", "choose-front": "choose kestrel --axle front --count 4",
    "choose-corner": "choose kestrel --corner rr --count 3 --inside",
    "choose-per-corner": "choose kestrel --per-corner --count 3 --axle rear",
    "choose-typed": "choose kestrel --axle rear --compression-low 0.45 --rebound-low 0.7 --packs gravel,mixed",
    "choose-typed-us": "choose kestrel --axle front --rebound-high 0.5 --low '2 in/s' --high '9 in/s' --units us",
    "choose-like": "choose kestrel --like 2026-05-02-kestrel-winter --count 3",
    "choose-like-car": "choose kestrel-winter --like kestrel --axle front --count 3",
    "choose-once": "choose kestrel --once --count 3", "choose-within": "choose kestrel --within 3 --count 3",
    "choose-tight": "choose kestrel --axle front --tolerance '1 %' --packs tarmac", "choose-none": "choose no-targets.toml",
    "choose-balance": "choose no-targets.toml --axle front --rebound-low 0.6 --rebound-compression 1.5 --count 3",
    "choose-front-rear": "choose kestrel --compression-low 0.4 --axle front --front-rear 1.1 --count 3",
    "choose-no-pack": "choose kestrel --packs wet", "choose-impossible": "choose kestrel --axle rear --rebound-low 3",
    "choose-no-like": "choose kestrel --like wet-sunday", "choose-axle-corner": "choose kestrel --axle front --corner fl",
    "carry": "carry kestrel kestrel-winter", "carry-back-us": "carry kestrel-winter kestrel --units us",
    "carry-per-corner": "carry kestrel kestrel-winter --per-corner --packs gravel,mixed",
    "carry-within": "carry kestrel kestrel-winter --within 1 --tolerance '2 %' --inside",
    "carry-itself": "carry kestrel kestrel", "carry-no-car": "carry kestrel kestrel-summer",
    # leaving the line
    "launch": "launch kestrel", "launch-loose-us": "launch kestrel --surface loose --units us",
    "launch-settings": "launch kestrel --surface loose --setting rear=@lsc=2,lsr=2 --setting 'front=mixed rear=mixed@lsc=10'",
    "launch-accel": "launch kestrel --surface sticky --accel '4 m/s2' --time '1.5 s' --rise '0.3 s' -v",
    "launch-seed": "launch kestrel --surface loose --seed 7 --time '2 s'",
    "launch-best": "launch kestrel --surface loose --best steadiest --axle rear",
    "launch-best-inside": "launch kestrel --surface sticky --best least-lift --inside --time '1.5 s'",
    "launch-no-surface": "launch kestrel --surface ice", "launch-no-centre": "launch no-centre.toml",
    "launch-bad-setting": "launch kestrel --setting middle=gravel", "launch-no-radius": "launch kestrel --torque '2400 N m'",
    "launch-two-best": "launch kestrel --best steadiest", "launch-axle": "launch kestrel --surface loose --axle rear",
    "travel": "travel travel/kestrel_loose_run3.csv", "travel-car": "travel travel/kestrel_loose_run3.csv --car kestrel",
    "travel-parts-us": "travel travel/kestrel_loose_run3.csv --car kestrel --part 1..2.5 --part braking=5..7 --units us",
    "travel-corner": "travel travel/kestrel_loose_run3.csv --corner 'rl=Shock RL' --window '60 ms' --zero '60 mm'",
    "travel-no-column": "travel travel/kestrel_loose_run3.csv --corner rl=POT", "travel-no-file": "travel nothing.csv",
    "travel-bad-part": "travel travel/kestrel_loose_run3.csv --part 5..2",
    # setups
    "setup-list": "setup list", "setup-list-surface": "setup list --surface sticky --units us",
    "setup-list-none": "setup list --surface ice", "setup-recall": "setup recall --surface loose",
    "setup-recall-car": "setup recall --car kestrel", "setup-recall-named": "setup recall 2026-04-12-kestrel",
    "setup-recall-none": "setup recall --surface sticky", "setup-recall-unknown": "setup recall 1999-01-01-kestrel",
    "setup-compare": "setup compare 2026-03-22-kestrel 2026-05-02-kestrel-winter",
    "setup-compare-us": "setup compare 2026-03-22-kestrel 2026-05-02-kestrel-winter --units us",
    "setup-compare-same": "setup compare 2026-03-22-kestrel 2026-04-12-kestrel",
    # pages
    "report-no-name": "report kestrle", "trackside-no-car": "trackside kestrle", "trackside-no-pack": "trackside kestrel --pack wet",
}  # fmt: skip
#: drawn or written once, with the text for people: the files are held
LEAVING = {
    ("curve-plot", "curve 6707 --plot held/curve.svg"): "held/curve.svg",
    ("compare-plot", f"compare gravel@{EIGHT} mixed@{EIGHT} --plot held/packs.svg"): "held/packs.svg",
    ("match-plot", "match shock=RL-03,pack=gravel shock=RR-04,pack=gravel --plot held/pair.svg"): "held/pair.svg",
    ("predict-plot", "predict gravel --clicks lsc=5 --clicks lsc=9 --plot held/map.svg"): "held/map.svg",
    ("health-plot", "health RR-04 --plot held/health.svg"): "held/health.svg",
    ("ratio-plot", "ratio kestrel --plot held/ratio.svg"): "held/ratio.svg",
    ("choose-plot", "choose kestrel --axle front --plot held/choose.svg"): "held/choose.svg",
    ("launch-plot", "launch kestrel --surface loose --plot held/launch.svg --units us"): "held/launch.svg",
    ("travel-plot", "travel travel/kestrel_loose_run3.csv --car kestrel --plot held/travel.svg"): "held/travel.svg",
    ("ratio-picture", "ratio kestrel --plot held/ratio.png"): "held/ratio.png",
    ("plan-sheet-text", "plan tarmac --sheet held/runs.txt"): "held/runs.txt",
    ("plan-sheet-csv", "plan tarmac --sheet held/runs.csv --units us"): "held/runs.csv",
    ("plan-sheet-page", "plan tarmac --sheet held/runs.html"): "held/runs.html",
    ("report-car", "report kestrel gravel --out held/car.html"): "held/car.html",
    ("report-shock", "report RR-04 --title 'Rear right' --out held/shock.html --units us"): "held/shock.html",
    ("trackside", "trackside kestrel --out held/phone.html"): "held/phone.html",
    ("trackside-us", "trackside kestrel-winter --pack gravel --out held/winter.html --units us"): "held/winter.html",
}
PAGES = ("report-car", "report-shock", "trackside", "trackside-us", "plan-sheet-text")
DEMO: tuple[Line, ...] = (
    Line("demo", "demo", "demo", plain=False),
    *lines("demo", "demo", HELD),
    *(leaving(Line(f"demo-{slug}", text, "demo", json=slug in PAGES), file)
      for (slug, text), file in LEAVING.items()),
)  # fmt: skip
