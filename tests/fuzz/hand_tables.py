"""Small tables as people write them: messages, notes in cells, lines of runs, clicks or speeds across, loops beside."""

from __future__ import annotations

import math


def _loops() -> str:
    rows = []
    for n in range(24):
        phase = n * math.pi / 12
        cells = (f"{25 * math.sin(phase):.2f},{2 * speed * math.cos(phase) + 150:.1f}" for speed in (50, 200))
        rows.append(",".join(cells))
    return "50 mm/s,,200 mm/s,\nx (mm),F (N),x (mm),F (N)\n" + "\n".join(rows)


_FORCES = ((25, 142, 348), (51, 249, 540), (102, 402, 795), (254, 603, 1073))
_RUNS = "".join(f"{n};{v};{c};{r}\n" for n in (1, 2) for v, c, r in _FORCES)
_TEXTS = (
    "Hinten rechts, Druck/Zug:\n" + "".join(f"{v} mm/s = {c} / {r} N\n" for v, c, r in _FORCES),
    "Rear left, 8 clicks out on compression and 6 on rebound.\n"
    + "".join(f"{v} mm/s: comp {c} N, reb {r} N\n" for v, c, r in _FORCES),
    "(mm/s: comp/reb N)\n" + "".join(f"{v}: {c}/{r}\n" for v, c, r in _FORCES),
    "".join(f"[14.02.26, 18:0{k}:20] Box: {v} mm/s = {c} | {r} N\n" for k, (v, c, r) in enumerate(_FORCES))
    + "comp | reb\n",
    "Speed (mm/s);Comp (N);Reb (N)\n25;142;348 (noisy)\n51;249;540\n102;402;795 ?\n152;470;bad run\n254;603;1073\n",
    "Shock: FL-01\nv mm/s,comp N,reb N,remark\n25,142,348,warm\n51,~249,540,\n102,402,>900,OVL\n254,603,1073,*\n",
    f"Run 1: LSC 4 LSR 6\nRun 2: LSC 8 LSR 10\nRun;Speed (mm/s);Comp (N);Reb (N)\n{_RUNS}",
    f"Run;Clicks C;Clicks R\n1;4;6\n2;8;10\n\nRun;Speed (mm/s);Comp (N);Reb (N)\n{_RUNS}",
    "Run 1: LSC 4; Run 2: LSC 8\nSpeed (mm/s),Run 1 Comp (N),Run 1 Reb (N),Run 2 Comp (N),Run 2 Reb (N)\n"
    + "".join(f"{v},{c},{r},{c - 9},{r - 9}\n" for v, c, r in _FORCES),
    ",Compression (N),,Rebound (N),\nVelocity (mm/s),2,6,2,6\n"
    + "".join(f"{v},{c},{c - 9},{r},{r - 9}\n" for v, c, r in _FORCES),
    "Compression (N)\nClicks \\ mm/s;25;51;102;254\n2;142;249;402;603\n6;130;230;380;570\n\nRebound (N)\n"
    "Clicks \\ mm/s;25;51;102;254\n2;348;540;795;1073\n6;320;500;740;990\n",
    "Clicks C/R;0/4;6/8;12/12\nSpeed mm/s;Comp N;Comp N;Comp N\n25;142;130;120\n51;249;230;210\n102;402;380;350\n",
    "Velocity [mm/s]: 25 51 102 254\nCompression [N]: 142 249 402 603\nRebound [N]: 348 540 795 1073\n",
    'Speed in/s,Comp lbf,Reb lbf\n10,"1,627","2,895"\n20,"2,258","3,861"\n40,"3,492",780\n',
    "Hub: 50 mm\nPleuellänge: 125,0 mm\nDrehzahl (1/min);Druck (N);Zug (N)\n30;142,5;348\n60;249;540\n120;402;795\n",
    _loops(),
)
HAND = tuple(text.encode() for text in _TEXTS)
