"""Bytes are text in one encoding, or they are said to be something else."""

from __future__ import annotations

import codecs

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import ReadError
from dynoan.model.importing import HEAD
from importers.decoding import Encoding, as_utf8, detect_encoding, head_text
from tests.importers.making import quick

#: lines as rigs write them, accents and all that Windows' western code page holds
LINES = st.lists(
    st.text(st.sampled_from("abcXYZ 0123456789.,;-+äöüéèñçßÄÖ°µ²±"), min_size=1, max_size=40), min_size=1, max_size=30
)
MARKED = {"utf-8-sig": "utf-8", "utf-16": "utf-16-le", "utf-32": "utf-32-le"}
BIG = {"utf-16-be": codecs.BOM_UTF16_BE, "utf-32-be": codecs.BOM_UTF32_BE}


def read(data: bytes) -> str:
    encoding = detect_encoding(data[:HEAD], "rig.csv")
    return head_text(data[:HEAD], encoding, whole=len(data) <= HEAD)


@quick
@given(LINES, st.sampled_from(["utf-8", *MARKED]), st.sampled_from(["\n", "\r\n", "\r", "\r\r\n"]))
def test_text_comes_back_whatever_the_encoding_and_the_line_ends(lines, code, eol):
    text = "Kraft;Weg;Zeit\n" + "\n".join(lines)
    assert read(text.replace("\n", eol).encode(code)) == text


@quick
@given(LINES, st.sampled_from(sorted(BIG)))
def test_text_with_the_large_byte_first_comes_back(lines, code):
    text = "Force,Travel\n" + "\n".join(lines)
    assert read(BIG[code] + text.encode(code)) == text


@quick
@given(LINES, st.sampled_from(["utf-16-le", "utf-16-be"]))
def test_two_byte_text_without_a_mark_is_known_by_its_zeros(lines, code):
    text = "Force,Travel,Time\n1.00,2.00,3.00\n" * 4 + "\n".join(lines)
    assert detect_encoding(text.encode(code), "rig.csv") == Encoding(code)


@quick
@given(LINES)
def test_western_bytes_that_are_no_utf8_are_windows(lines):
    text = "Dämpferkraft;Weg\n" + "\n".join(lines)
    data = text.encode("cp1252")
    assert detect_encoding(data, "rig.csv") == Encoding("cp1252")
    assert read(data) == text


@pytest.mark.parametrize(("code", "name"), MARKED.items())
def test_a_mark_is_counted_and_named(code, name):
    encoding = detect_encoding("Force\n1\n".encode(code), "rig.csv")
    assert (encoding.name, encoding.mark) == (name, len("".encode(code)))
    assert encoding.words == f"{name} with a byte order mark"


def test_a_letter_cut_at_the_end_of_the_head_is_still_utf8():
    data = ("ä" * HEAD).encode()[: HEAD + 1]
    assert detect_encoding(data[: HEAD - 1], "rig.csv") == Encoding("utf-8")


@quick
@given(LINES, st.sampled_from(["utf-8", "utf-8-sig", "cp1252", "utf-16", "utf-32"]))
def test_the_body_has_ascii_digits_and_plain_line_ends(lines, code):
    text = "Kraft;Weg;Öl;1\n" + "\n".join(lines) + "\n"
    data = text.replace("\n", "\r").encode(code)
    encoding = detect_encoding(data[:HEAD], "rig.csv")
    body = as_utf8(data, encoding)
    assert b"\r" not in body
    assert body.decode(encoding.of_body).removeprefix("\ufeff") == text


def test_a_sign_of_two_voices_before_a_latin_letter_is_no_japanese_word():
    for word in ("ßc", "Xßß"):
        assert detect_encoding(f"Kraft;Weg;Öl\n{word}\n".encode("cp1252"), "rig.csv").name == "cp1252"


def test_a_plain_body_is_not_copied():
    data = b"Force,Travel\r\n1,2\r\n"
    assert as_utf8(data, Encoding("utf-8")) is data


def test_a_half_line_at_the_end_of_a_head_is_left_out_unless_it_is_the_whole_file():
    assert head_text(b"a\nb\nc", Encoding("utf-8"), whole=False) == "a\nb\n"
    assert head_text(b"a\nb\nc", Encoding("utf-8"), whole=True) == "a\nb\nc"


@pytest.mark.parametrize(
    ("name", "wide", "of_body"),
    [
        ("utf-8", False, "utf-8"),
        ("utf-16-le", True, "utf-8"),
        ("utf-32-be", True, "utf-8"),
        ("cp1252", False, "cp1252"),
    ],
)
def test_what_a_wide_encoding_becomes(name, wide, of_body):
    assert (Encoding(name).wide, Encoding(name).of_body) == (wide, of_body)


FOREIGN = {
    b"PK\x03\x04": "zip archive", b"\xd0\xcf\x11\xe0": "old .xls", b"\x1f\x8b": "gzip", b"BZh": "bzip2",
    b"\xfd7zXZ": "xz archive", b"Rar!": "RAR", b"7z\xbc\xaf": "7z", b"%PDF": "PDF", b"\x89PNG": "picture",
    b"\xff\xd8\xff": "picture", b"\x89HDF": "HDF5", b"{\\rtf": "word processor", b"<html>": "web page",
    b"\n <?xml version": "XML", b"<TABLE>": "web page", b'{"a": 1}': "JSON", b"[{": "JSON", b"{\n": "JSON",
}  # fmt: skip


@pytest.mark.parametrize(("start", "what"), FOREIGN.items(), ids=str)
def test_another_kind_of_file_is_named(start, what):
    with pytest.raises(ReadError, match=rf"^rig\.bin: this is .*{what}"):
        detect_encoding(start + bytes(60) * 3, "rig.bin")


@pytest.mark.parametrize("data", [b"", b" \r\n\t", b"\xef\xbb\xbf\r\n", b"\xff\xfe", b"\0\0\0"])
def test_nothing_is_said_to_be_empty(data):
    with pytest.raises(ReadError, match=r"^rig\.csv: the file is empty; wanted"):
        detect_encoding(data, "rig.csv")


@quick
@given(st.integers(0, 8) | st.integers(14, 25) | st.just(127), st.integers(0, 200))
def test_many_control_bytes_are_no_text_and_the_first_is_shown(byte, at):
    text = b"1,2,3\n" * 50
    data = text[:at] + bytes([byte]) + text[at:] + bytes([byte]) * 20
    with pytest.raises(ReadError, match=rf"not text \(byte {byte:#04x} at offset {at}\)"):
        detect_encoding(data, "rig.csv")


@quick
@given(st.binary(max_size=3000))
def test_any_bytes_are_judged_or_refused_in_one_line(data):
    refusal, text = "", ""
    try:
        text = head_text(data, detect_encoding(data, "rig.bin"), whole=True)
    except ReadError as error:
        refusal = str(error)
    assert bool(refusal.startswith("rig.bin: ")) != bool(text)
    assert "\n" not in refusal


def test_a_code_page_of_dos_is_known_by_its_words():
    text = "Dämpfer-Nr.: 0417\nÖltemp.: 34 °C\nWeg (mm)\tKraft (N)\n0\t1\n"
    assert detect_encoding(text.encode("cp850"), "old.txt").name == "cp850"
    assert detect_encoding(text.encode("cp1252"), "new.txt").name == "cp1252"


@pytest.mark.parametrize(("code", "text"), [
    ("mac_roman", "Détente: 9 clics\nTempérature: 30 °C"), ("cp857", "Amortisör: A-3\nSıcaklık: 30 °C"),
    ("cp850", "Shock: A-3\nTemp: 34 °C"), ("cp852", "Tłumik: A-3\nŚciskanie: 6 klik"),
    ("mac_cyrillic", "Амортизатор: А-3\nСжатие: 6 щелчков"), ("iso8859-5", "Амортизатор: А-3\nСжатие: 6 щелчков"),
    ("cp1252", "Shock: A-3\nNotes: d’origine, 30 °C"), ("cp1254", "Sıcaklık: 30 °C\nBası 6 klik"),
    ("big5", "試驗日期 2026/03/14\n時間 位移 速度 荷重"), ("gb18030", "时间 位移 速度 力"),
])  # fmt: skip
def test_code_pages_are_told_by_words_and_by_degrees(code, text):
    assert read(f"{text}\nV mm/s;Comp N;Reb N\n".encode(code)).startswith(text)
