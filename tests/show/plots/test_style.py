"""Pictures: told apart without colour, written whole, the same bytes each time, fit to stand in a page."""

import itertools
import re
import xml.etree.ElementTree as ET

import matplotlib
import numpy as np
import pytest

from dynoan.errors import CallError
from dynoan.show.plots import low_speeds, saving, style
from tests.made import made_curve
from tests.often import often

# Simulation matrices at severity 1.0 in linear RGB: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A
# Physiologically-based Model for Simulation of Color Vision Deficiency", IEEE TVCG 15(6), 2009, table 1.
DEFICIENCY = {
    "none": np.eye(3),
    "protan": np.array(
        [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]]
    ),
    "deutan": np.array(
        [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]]
    ),
}
# sRGB to XYZ (D65): IEC 61966-2-1
XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])


def linear(colour):
    c = np.array([int(colour[i : i + 2], 16) for i in (1, 3, 5)]) / 255
    return np.where(c <= 0.04045, c / 12.92, ((c + 0.055) / 1.055) ** 2.4)


def lab(rgb):
    t = (XYZ @ np.clip(rgb, 0, 1)) / np.array([0.9505, 1.0, 1.089])
    f = np.where(t > (6 / 29) ** 3, np.cbrt(t), t / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


@pytest.mark.parametrize("eye", DEFICIENCY)
def test_palette_is_told_apart_by_every_eye(eye):
    seen = [lab(DEFICIENCY[eye] @ linear(c)) for c in style.PALETTE]
    gaps = [np.linalg.norm(a - b) for a, b in itertools.combinations(seen, 2)]
    assert min(gaps) > 10  # a just noticeable difference is about 2.3 (Mahy et al. 1994)


def test_directions_differ_in_grey_by_dash_and_by_marker():
    c, r = style.COMPRESSION, style.REBOUND
    assert abs(lab(linear(c["color"]))[0] - lab(linear(r["color"]))[0]) > 20
    assert c["linestyle"] != r["linestyle"]
    assert c["marker"] != r["marker"]


def test_series_never_repeats_both_colour_and_dash_within_eighteen():
    looks = {(s["color"], str(s["linestyle"])) for s in map(style.series, range(18))}
    assert len(looks) == 18


def drawn():
    figure, ax = style.new_figure()
    v = np.linspace(-0.3, 0.3, 61)
    ax.plot(style.in_units(v, "velocity"), made_curve()(v), **style.COMPRESSION, label="<gravel> & co")
    style.legend(style.title(style.zero_lines(style.label_axes(ax)), "lsc 6"))
    return figure


@pytest.mark.parametrize("suffix", often(1, [".svg", ".png", ".pdf"]))
def test_saving_twice_gives_the_same_bytes(tmp_path, suffix):
    a, b = saving.save(drawn(), tmp_path / f"a{suffix}"), saving.save(drawn(), tmp_path / f"b{suffix}")
    assert a.read_bytes() == b.read_bytes()
    assert len(a.read_bytes()) > 3000
    assert sorted(p.name for p in tmp_path.iterdir()) == [f"a{suffix}", f"b{suffix}"]


def test_other_suffix_or_missing_folder_is_one_line_that_says_what_to_do(tmp_path):
    with pytest.raises(CallError, match=r"\.png, \.svg or \.pdf"):
        saving.save(drawn(), tmp_path / "plot.bmp")
    with pytest.raises(CallError, match="there is no folder"):
        saving.save(drawn(), tmp_path / "nowhere" / "plot.png")
    assert list(tmp_path.iterdir()) == []


def test_making_a_figure_leaves_matplotlib_as_it_was():
    before = dict(matplotlib.rcParams)
    drawn()
    assert dict(matplotlib.rcParams) == before


def test_axes_carry_units_of_both_systems():
    _, ax = style.new_figure()
    style.label_axes(ax, y=("damping ratio", ""), units="us")
    assert (ax.get_xlabel(), ax.get_ylabel()) == ("velocity [in/s]", "damping ratio")
    # 1 in = 0.0254 m exactly: NIST SP 811, appendix B.8
    assert style.in_units([0.0254], "velocity", "us") == pytest.approx([1.0])


def test_two_inline_pictures_share_no_id_and_every_reference_resolves():
    one, two = saving.svg_text(drawn(), "one"), saving.svg_text(drawn(), "two")
    ids = [set(re.findall(r' id="([^"]+)"', s)) for s in (one, two)]
    assert ids[0]
    assert not ids[0] & ids[1]
    for text, own in zip((one, two), ids, strict=True):
        wanted = set(re.findall(r'(?:href="#|url\(#)([^")]+)', text))
        assert wanted == own


def test_inline_picture_needs_no_inline_style_and_escapes_text():
    text = saving.svg_text(drawn(), "a & <b>")
    assert " style=" not in text
    assert "<style" not in text
    root = ET.fromstring(text)
    assert root.get("aria-label") == "a & <b>"
    assert any("<gravel> & co" in (e.text or "") for e in root.iter())


def test_inline_picture_keeps_bold_and_size_of_text():
    root = ET.fromstring(saving.svg_text(drawn()))
    head = next(e for e in root.iter() if e.text == "lsc 6")
    assert (head.get("font-size"), head.get("font-weight")) == ("10px", "bold") or head.get("font-weight") == "700"


def test_show_without_a_display_says_what_to_do(monkeypatch):
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    monkeypatch.setattr("sys.platform", "linux")
    with pytest.raises(CallError, match="--plot"):
        saving.show(drawn())


def contrast(colour):
    """Return the contrast against the paper; WCAG 2.2, relative luminance."""
    return 1.05 / (XYZ[1] @ linear(colour) + 0.05)


def test_every_mark_stands_out_from_the_paper_3_to_1():
    for colour in (*style.PALETTE, style.PLUM, style.CLAY, style.MIST, style.GREY, style.SOFT, style.INK):
        assert contrast(colour) >= 3.0, colour


@pytest.mark.parametrize("eye", DEFICIENCY)
def test_no_curve_looks_like_a_direction(eye):
    seen = lambda c: lab(DEFICIENCY[eye] @ linear(c))  # noqa: E731
    for colour in style.PALETTE:
        for own in (style.PLUM, style.CLAY):
            assert np.linalg.norm(seen(colour) - seen(own)) > 10


def test_a_legend_hides_no_data():
    figure = drawn()
    figure.canvas.draw()
    (ax,) = figure.axes
    assert not ax.get_legend().get_window_extent().overlaps(ax.get_window_extent())


def test_low_speeds_fill_their_panel():
    curve = made_curve()
    _, ax = style.new_figure()
    v = np.linspace(-0.5, 0.5, 401)
    ax.plot(v * 1e3, curve(v))
    style.zero_lines(ax)
    low_speeds.low_speeds(ax)
    assert ax.get_xlim() == (-100, 100)
    near = curve(v)[np.abs(v) <= 0.1]
    low, high = ax.get_ylim()
    assert near.min() - low < 0.1 * np.ptp(near)
    assert high - near.max() < 0.1 * np.ptp(near)


@pytest.mark.parametrize(("units", "low", "top"), [("metric", 100, 550), ("us", 4, 21.7)])
@pytest.mark.parametrize("signed", [True, False])
def test_low_speeds_take_the_room_that_their_square_root_has(units, low, top, signed):
    _, ax = style.new_figure()
    at = np.linspace(-top if signed else 0.25 * low, top, 9)
    style.label_axes(ax, ("speed", "velocity"), ("off", "%"), units)
    ax.plot(at, np.ones(9))
    low_speeds.stretch_low_speeds(ax, units)
    to = [float(ax.transData.transform((v, 0.0))[0]) for v in (0.0, low, top)]
    assert (to[1] - to[0]) / (to[2] - to[0]) == pytest.approx((low / top) ** 0.5, rel=1e-6)
    ticks = [float(t) for t in ax.get_xticks()]
    assert low in ticks
    assert (-low in ticks) == signed
    assert ax.get_xlim()[0] <= min(at)
    assert ax.get_xlim()[1] > top
    assert "low ones drawn larger" in ax.get_xlabel()


def test_speeds_that_are_all_low_stay_on_an_even_axis():
    _, ax = style.new_figure()
    ax.plot([10.0, 80.0], [1.0, 1.0])
    assert low_speeds.stretch_low_speeds(ax).get_xscale() == "linear"
