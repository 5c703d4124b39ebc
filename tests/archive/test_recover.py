"""Descriptions out of sheets: the very bytes, safe names, and nothing from harmful files."""

from __future__ import annotations

import io
import os
import sys
import time
import zlib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfWriter
from pypdf.generic import ArrayObject, DictionaryObject, NameObject, TextStringObject

from sheetgen.archive import recover as recovering
from sheetgen.archive.recover import Unrecovered, recover, safe_name

DESCRIPTION = "piece: Läce № 7\r\n# (kept) as written\n".encode()
TEMPLATE = b"words:\n  title: Mine\n"


def test_the_very_bytes_come_back(sample, tmp_path):
    (tmp_path / "a.pdf").write_bytes(sample)
    first, second = recover(tmp_path / "a.pdf")
    assert (first.name, first.data) == ("Läce (7).yaml", DESCRIPTION)
    assert (second.name, second.data) == ("loom.yaml", TEMPLATE)


def rewritten(pdf: bytes, change) -> bytes:
    """The file after ``change(writer)``, by another hand than the one that wrote it."""
    writer = PdfWriter(clone_from=io.BytesIO(pdf))
    change(writer)
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def named(name: str):
    def change(writer):
        for each in writer.root_object["/AF"]:
            for key in ("/F", "/UF"):
                each.get_object()[NameObject(key)] = TextStringObject(name)

    return change


def test_two_files_of_one_name_and_a_path_for_a_name(sheets, tmp_path):
    (tmp_path / "a.pdf").write_bytes(rewritten(sheets["sheet"], named("../../up/Cord.yaml")))
    first, second = recover(tmp_path / "a.pdf")
    assert (first.name, second.name) == ("Cord.yaml", "2-Cord.yaml")
    assert first.had == "../../up/Cord.yaml"


DEVICES = ("CON", "nul", "com1.yaml", "Lpt9.txt", "AUX.yaml")


@given(st.one_of(st.text(max_size=400), st.sampled_from(DEVICES)))
def test_no_name_leads_anywhere(name):
    safe = safe_name(name)
    assert safe
    assert not set(safe) & set('/\\:<>"|?*\0')
    assert safe.isprintable()
    assert safe[0] not in ".-~"
    assert not safe.endswith((" ", "."))
    assert len(safe.encode()) <= 255  # POSIX NAME_MAX on common systems
    # published: "Naming Files, Paths, and Namespaces", names kept for devices (from memory)
    assert safe.split(".")[0].strip().upper() not in {"CON", "PRN", "AUX", "NUL", "COM1", "LPT9"}


def encrypted(writer):
    writer.encrypt("secret", algorithm="RC4-128")


def foreign(writer):
    writer.metadata = {"/Producer": "another program", "/Creator": "another program"}


def unlisted(writer):
    """Without the list of relations, as a program leaves it that knows only PDF 1.7."""
    del writer.root_object[NameObject("/AF")]


def branched(writer):
    """The tree of names in branches, one of them itself: ISO 32000-1, 7.9.6, and a circle."""
    unlisted(writer)
    tree = writer.root_object["/Names"]["/EmbeddedFiles"].get_object()
    names = tree.pop(NameObject("/Names"))
    leaves = [
        writer._add_object(DictionaryObject({NameObject("/Names"): ArrayObject(names[i : i + 2])}))
        for i in range(0, len(names), 2)
    ]
    circle = writer._add_object(DictionaryObject())
    circle.get_object()[NameObject("/Kids")] = ArrayObject([circle])
    tree[NameObject("/Kids")] = ArrayObject([*leaves, circle])


def emptied(writer):
    unlisted(writer)
    del writer.root_object[NameObject("/Names")]


def changed(writer):
    stream = writer.root_object["/AF"][0].get_object()["/EF"]["/F"].get_object()
    stream.set_data(stream.get_data().replace(b"7", b"8"))


def bomb(writer):
    """A hundred megabytes that take up a tenth of one, and lie about their length."""
    stream = writer.root_object["/AF"][0].get_object()["/EF"]["/F"].get_object()
    packer = zlib.compressobj(9)
    stream._data = b"".join(packer.compress(bytes(1_000_000)) for _ in range(100)) + packer.flush()


@pytest.mark.parametrize(
    ("change", "code"),
    [
        (encrypted, "encrypted-pdf"),
        (foreign, "foreign-pdf"),
        (emptied, "nothing-inside"),
        (changed, "changed-inside"),
    ],
)
def test_what_cannot_be_had_is_told(sheets, tmp_path, change, code):
    (tmp_path / "a.pdf").write_bytes(rewritten(sheets["sheet"], change))
    found = recover(tmp_path / "a.pdf")
    assert isinstance(found, Unrecovered)
    assert found.code == code
    assert found.message
    assert found.hint


HEAD = b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"
LOOP = HEAD + b"xref\n0 1\n0000000000 65535 f \n"
LOOP += b"trailer\n<</Size 1/Root 1 0 R/Prev 15>>\nstartxref\n15\n%%EOF\n"
HARMFUL = {
    "no PDF": b"piece: Lace\n",
    "nothing": b"",
    "only its head": HEAD,
    "a table that leads to itself": LOOP,
    "a root that is itself": HEAD + b"1 0 obj\n1 0 R\nendobj\ntrailer\n<</Root 1 0 R>>\n",
    "a million brackets": HEAD + b"trailer\n<</Root " + b"[" * 1_000_000,
    "a million objects": HEAD + b"".join(b"%d 0 obj\n[]\nendobj\n" % n for n in range(1_000_000)),
}


@pytest.mark.parametrize("harm", HARMFUL, ids=str)
def test_harmful_files_are_told_of_in_bounded_time(tmp_path, monkeypatch, harm):
    monkeypatch.setattr(recovering, "DEADLINE", 3.0)
    (tmp_path / "a.pdf").write_bytes(HARMFUL[harm])
    begun = time.monotonic()
    found = recover(tmp_path / "a.pdf")
    assert isinstance(found, Unrecovered)
    assert found.code in ("damaged-pdf", "too-much-inside", "foreign-pdf")
    assert time.monotonic() - begun < 8


def test_a_bomb_is_not_unpacked_and_is_told_for_what_it_is(sheets, tmp_path):
    (tmp_path / "a.pdf").write_bytes(rewritten(sheets["sheet"], bomb))
    found = recover(tmp_path / "a.pdf")
    assert isinstance(found, Unrecovered)
    assert found.code == "too-large-inside"
    assert "once unpacked" in found.message


@pytest.mark.parametrize("change", [unlisted, branched])
def test_what_another_program_left_of_the_lists_is_enough(sheets, tmp_path, change):
    (tmp_path / "a.pdf").write_bytes(rewritten(sheets["sheet"], change))
    found = recover(tmp_path / "a.pdf")
    assert not isinstance(found, Unrecovered), found
    assert [each.data for each in found] == [DESCRIPTION, TEMPLATE]


def test_a_reader_that_does_not_come_back_is_ended(sheets, tmp_path, monkeypatch):
    monkeypatch.setattr(recovering, "DEADLINE", 0.2)
    monkeypatch.setattr(recovering, "_READING", ("sleep", "60"))
    (tmp_path / "a.pdf").write_bytes(sheets["sheet"])
    begun = time.monotonic()
    found = recover(tmp_path / "a.pdf")
    assert isinstance(found, Unrecovered)
    assert found.code == "too-much-inside"
    assert time.monotonic() - begun < 10


@pytest.mark.parametrize("part", [0.2, 0.5, 0.9, 0.99])
def test_half_a_file_gives_the_whole_description_or_none(sheets, tmp_path, part):
    pdf = sheets["sheet"]
    (tmp_path / "a.pdf").write_bytes(pdf[: int(part * len(pdf))])
    found = recover(tmp_path / "a.pdf")
    assert isinstance(found, Unrecovered) or found[0].data == DESCRIPTION


def test_nothing_in_the_current_folder_is_run(sample, tmp_path, monkeypatch):
    (tmp_path / "json.py").write_text("raise SystemExit('run')")
    (tmp_path / "a.pdf").write_bytes(sample)
    monkeypatch.chdir(tmp_path)
    assert len(recover(tmp_path / "a.pdf")) == 2


@pytest.mark.skipif(sys.platform == "win32", reason="there are no such files there")
def test_what_never_ends_is_not_read(tmp_path):
    os.mkfifo(tmp_path / "pipe.pdf")
    for path in (tmp_path / "pipe.pdf", Path("/dev/zero")):
        assert isinstance(recover(path), Unrecovered)
