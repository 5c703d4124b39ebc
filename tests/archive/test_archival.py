"""Files fit to be kept, held against ISO 19005-3:2012 (PDF/A-3, conformance B) clause by clause.

The clauses are told from memory. No validator of part 3 was to be had; that of part 1 passes the
same files written as PDF 1.4 with nothing inside (by hand, see DEVELOPERS.md).
"""

from __future__ import annotations

import io
import json
import re
import shutil
import subprocess
import xml.etree.ElementTree as ET
from hashlib import md5

import pdfplumber
import pytest
from PIL import Image, ImageCms
from pypdf import PdfReader

from sheetgen.draw.profile import srgb

needs = pytest.mark.skipif
QPDF = needs(shutil.which("qpdf") is None, reason="qpdf is not installed")
POPPLER = needs(shutil.which("pdfdetach") is None, reason="poppler's tools are not installed")
TITLE = "Laces & <cords> ā (Зимний)"
DESCRIPTION = "piece: Läce № 7\r\n# (kept) as written\n".encode()
TEMPLATE = b"words:\n  title: Mine\n"
DC = "{http://purl.org/dc/elements/1.1/}"
XMP = "{http://ns.adobe.com/xap/1.0/}"
PDF = "{http://ns.adobe.com/pdf/1.3/}"
AID = "{http://www.aiim.org/pdfa/ns/id/}"
RDF = "{http://www.w3.org/1999/02/22-rdf-syntax-ns#}"


@pytest.fixture
def reader(kept):
    return PdfReader(io.BytesIO(kept), strict=True)


@pytest.fixture
def root(reader):
    return reader.trailer["/Root"]


def objects(pdf: bytes, tmp_path) -> dict:
    """Every object of a file as qpdf sees it: a reader that has nothing to do with ours."""
    path = tmp_path / "kept.pdf"
    path.write_bytes(pdf)
    done = subprocess.run(["qpdf", "--json=2", str(path)], capture_output=True, check=True)
    found: dict = json.loads(done.stdout)["qpdf"][1]
    return found


def dictionaries(value):
    """All dictionaries in a value of qpdf's, at any depth."""
    if isinstance(value, dict):
        yield value
        for part in value.values():
            yield from dictionaries(part)
    elif isinstance(value, list):
        for part in value:
            yield from dictionaries(part)


def test_6_1_2_header(kept):
    assert re.match(rb"%PDF-1\.[0-7]\n%[\x80-\xff]{4}", kept)


def test_6_1_3_trailer_has_an_identity_and_no_encryption_and_nothing_follows_the_end(reader, kept):
    first, second = reader.trailer["/ID"]
    assert len(first.original_bytes) == 16
    assert first == second
    assert "/Encrypt" not in reader.trailer
    assert kept.rstrip(b"\r\n").endswith(b"%%EOF")
    assert len(kept) - len(kept.rstrip(b"\r\n")) <= 2


def test_6_1_3_the_identity_follows_what_is_in_the_file(sheets):
    from sheetgen.draw.archival import Attachment
    from sheetgen.draw.pdf import render
    from sheetgen.layout.blocks import Document, Para, Run
    from sheetgen.layout.paper import PAPERS

    def identity(text: str, inside: bytes) -> bytes:
        blocks = (Para((Run(text),)),)
        document = Document("t", "s", "h", "v", PAPERS["A5"], blocks, "", "", "")
        pdf = render(document, (Attachment("a.yaml", inside),))
        found: bytes = PdfReader(io.BytesIO(pdf)).trailer["/ID"][0].original_bytes
        return found

    assert identity("a", b"x") == identity("a", b"x")
    assert len({identity("a", b"x"), identity("b", b"x"), identity("a", b"y")}) == 3


def test_6_1_7_1_every_stream_ends_on_a_line_of_its_own_after_its_length(kept):
    """Lengths stand in the dictionary itself, so they can be followed by hand."""
    heads = list(re.finditer(rb"/Length (\d+)\b[^\0]{0,2000}?>>\s*stream\r?\n", kept))
    assert len(heads) == len(re.findall(rb"\bendstream\b", kept)) > 6
    for head in heads:
        end = head.end() + int(head[1])
        assert kept[end : end + 10] == b"\nendstream"


@QPDF
def test_6_1_7_and_6_1_13_filters_and_limits(kept, tmp_path):
    found = objects(kept, tmp_path)
    for each in (d for o in found.values() for d in dictionaries(o)):
        filters = each.get("/Filter") or []
        used = {filters} if isinstance(filters, str) else set(filters)
        assert used <= {"/FlateDecode", "/DCTDecode"}  # no LZW, no Crypt
        if each.get("/Subtype") == "/Image":
            assert each["/ColorSpace"] in ("/DeviceRGB", "/DeviceGray")  # 6.2.4.3, a photograph
            assert not each.get("/Interpolate")  # 6.2.8
        for name, value in each.items():
            assert len(name) <= 128
            if isinstance(value, str):
                assert len(value) <= 2 * 32767 + 2
    streams = [each["stream"]["dict"] for each in found.values() if "stream" in each]
    assert streams
    for each in streams:
        assert not {"/F", "/FFilter", "/FDecodeParms"} & set(each)  # its bytes are in the file
    assert len(found) < 8_388_607


def test_6_1_13_the_state_is_kept_at_most_28_deep(reader):
    """Counted through the forms, as each is drawn within what draws it."""

    def deepest(stream, resources, depth=0):
        assert depth < 10
        most = level = depth
        forms = resources.get("/XObject", {})
        drawn = re.sub(rb"\((?:\\.|[^\\)])*\)", b"()", stream.get_data())
        for word in re.findall(rb"(?<!\S)(?:q|Q|/\S+(?=\s+Do))(?!\S)", drawn):
            if word in (b"q", b"Q"):
                level += 1 if word == b"q" else -1
            else:
                form = forms[word.decode()].get_object()
                most = max(most, deepest(form, form.get("/Resources", {}), level))
            most = max(most, level)
        assert level == depth
        return most

    for page in reader.pages:
        assert 0 < deepest(page.get_contents(), page["/Resources"]) <= 28
        # 6.1.13: between 3 and 14 400 units either way
        assert all(3 <= float(side) <= 14_400 for side in page.mediabox[2:])


@QPDF
def test_nothing_acts_or_points_outside_and_nothing_is_seen_through(kept, tmp_path):
    """6.5.1 actions, 6.5.2 triggers, 6.2.8 images, 6.2.9 forms, 6.2.10 transparency, 6.4 forms."""
    for each in (d for o in objects(kept, tmp_path).values() for d in dictionaries(o)):
        assert not {"/AA", "/OpenAction", "/JavaScript", "/JS", "/URI", "/Launch"} & set(each)
        assert not {"/AcroForm", "/XFA", "/Alternates", "/OPI", "/Ref", "/PS", "/SMask"} & set(each)
        assert not {"/TR", "/HTP", "/BM", "/ca", "/CA", "/NeedsRendering", "/Requirements"} & set(
            each
        )
        assert each.get("/Subtype") != "/PS"
        assert each.get("/Type") != "/Annot"
        assert each.get("/Type") != "/Action" or each["/S"] == "/GoTo"  # a bookmark may lead


def test_6_2_3_output_intent(root):
    (intent,) = root["/OutputIntents"]
    assert intent["/S"] == "/GTS_PDFA1"
    assert intent["/OutputConditionIdentifier"] == "sRGB IEC61966-2.1"
    profile = intent["/DestOutputProfile"]
    assert profile["/N"] == 3
    data = profile.get_data()
    assert data[12:24] == b"mntrRGB XYZ "
    assert data[36:40] == b"acsp"
    assert data[8] == 2  # a version that all parts of the standard allow


def test_6_2_3_the_profile_is_srgb():
    """Held against Little CMS, which makes a profile of the same colour space by itself."""
    ours = ImageCms.ImageCmsProfile(io.BytesIO(srgb()))
    theirs = ImageCms.createProfile("sRGB")
    assert int.from_bytes(srgb()[:4], "big") == len(srgb())
    colours = Image.new("RGB", (17 * 17, 17))
    levels = [min(255, 16 * i) for i in range(17)]
    colours.putdata([(r, g, b) for r in levels for g in levels for b in levels])
    changed = ImageCms.profileToProfile(colours, ours, theirs, renderingIntent=1)
    pairs = zip(colours.tobytes(), changed.tobytes(), strict=True)
    assert max(abs(a - b) for a, b in pairs) <= 1


def test_6_2_4_3_colours_are_grey_or_rgb(reader):
    """DeviceCMYK would want an output intent of its own kind."""
    for page in reader.pages:
        forms = page["/Resources"].get("/XObject", {}).values()
        streams = [page.get_contents(), *(form.get_object() for form in forms)]
        for stream in streams:
            drawn = re.sub(rb"\((?:\\.|[^\\)])*\)", b"()", stream.get_data())
            assert not re.search(rb"(?<!\S)(?:k|K|cs|CS|ri|sh)(?!\S)", drawn)


def test_6_2_11_4_another_reader_sees_the_fonts_and_the_text(sample):
    with pdfplumber.open(io.BytesIO(sample)) as pdf:  # pdfminer: reads the embedded fonts itself
        names = {character["fontname"] for page in pdf.pages for character in page.chars}
        assert "ā thread" in "".join(page.extract_text() or "" for page in pdf.pages)
    assert names
    assert all(re.match(r"[A-Z]{6}\+|.*\+DejaVu", name) for name in names)


def test_6_2_11_4_fonts_are_embedded(reader):
    seen = 0
    for page in reader.pages:
        for font in _fonts(page["/Resources"]):
            assert font["/FontDescriptor"]["/FontFile2"].get_data()[:4] == b"\0\1\0\0"
            # 6.2.11.5: as many widths as codes
            assert len(font["/Widths"]) == font["/LastChar"] - font["/FirstChar"] + 1
            seen += 1
    assert seen


def _fonts(resources):
    yield from (font.get_object() for font in resources.get("/Font", {}).values())
    for form in resources.get("/XObject", {}).values():
        yield from _fonts(form.get_object().get("/Resources", {}))


def test_6_6_2_1_metadata_are_plain_and_well_formed(root):
    stream = root["/Metadata"]
    assert (stream["/Type"], stream["/Subtype"]) == ("/Metadata", "/XML")
    assert "/Filter" not in stream
    packet = stream.get_data().decode("utf-8")
    opening = packet.split("?>")[0]
    assert "bytes=" not in opening
    assert "encoding=" not in opening
    ET.fromstring(packet)


def properties(root) -> dict[str, str]:
    packet = root["/Metadata"].get_data().decode("utf-8")
    (described,) = ET.fromstring(packet).iter(f"{RDF}Description")
    return {each.tag: "".join(each.itertext()) for each in described}


def test_6_6_4_the_file_says_which_part_it_follows(root):
    said = properties(root)
    assert (said[f"{AID}part"], said[f"{AID}conformance"]) == ("3", "B")


def test_metadata_are_in_step_with_the_document_information(root, reader):
    """ISO 19005-1, 6.7.3, table 1 (from memory): the pairs; part 3 does not ask for them."""
    said, told = properties(root), reader.metadata
    assert said[f"{DC}title"] == told.title
    assert said.get(f"{DC}creator") == told.author
    assert said[f"{DC}description"] == told.subject
    assert said.get(f"{PDF}Keywords") == told.get("/Keywords")
    assert said[f"{PDF}Producer"] == told.producer == "sheetgen"
    assert said[f"{XMP}CreatorTool"] == told.creator == "sheetgen"
    assert said[f"{XMP}CreateDate"] == told.creation_date.isoformat()
    assert said[f"{XMP}ModifyDate"] == told.modification_date.isoformat()
    assert not set(told) - {
        "/Title", "/Author", "/Subject", "/Keywords", "/Producer", "/Creator",
        "/CreationDate", "/ModDate",
    }  # fmt: skip


def test_metadata_say_what_the_document_does(sample):
    told = PdfReader(io.BytesIO(sample)).metadata
    assert (told.title, told.author, told.subject, told["/Keywords"]) == (
        TITLE, "A. Maker & daughter", "Sheets", "lace, cord",
    )  # fmt: skip
    assert told.creation_date.date().isoformat() == "2024-05-01"


def test_6_8_every_file_inside_is_listed_and_named_and_whole(root):
    """The register has none: it was not printed from one description."""
    if "/AF" not in root:
        assert "/Names" not in root
        return
    by_name = root["/Names"]["/EmbeddedFiles"]["/Names"]
    assert sorted(each.idnum for each in root["/AF"]) == sorted(e.idnum for e in by_name[1::2])
    for specification in (each.get_object() for each in root["/AF"]):
        assert (specification["/Type"], specification["/AFRelationship"]) == (
            "/Filespec", "/Source",
        )  # fmt: skip
        stream = specification["/EF"]["/F"]
        assert stream["/Type"] == "/EmbeddedFile"
        assert re.fullmatch(r"/\w+/[\w.+-]+", stream["/Subtype"])
        assert stream["/Params"]["/CheckSum"].original_bytes == md5(stream.get_data()).digest()


def test_6_8_files_inside(sample):
    root = PdfReader(io.BytesIO(sample)).trailer["/Root"]
    by_name = root["/Names"]["/EmbeddedFiles"]["/Names"]
    named = [each.get_object() for each in by_name[1::2]]
    listed = [each.get_object() for each in root["/AF"]]
    assert [each["/UF"] for each in listed] == ["Läce (7).yaml", "loom.yaml"]
    assert sorted(e["/UF"] for e in named) == sorted(e["/UF"] for e in listed)
    keys = [key.original_bytes for key in by_name[::2]]
    assert keys == sorted(keys)  # ISO 32000-1, 7.9.6
    for specification, data in zip(listed, (DESCRIPTION, TEMPLATE), strict=True):
        assert specification["/Type"] == "/Filespec"
        assert specification["/F"] == specification["/UF"]
        assert specification["/AFRelationship"] == "/Source"
        stream = specification["/EF"]["/F"]
        assert stream["/Type"] == "/EmbeddedFile"
        assert stream["/Subtype"] == "/application/yaml"  # RFC 9512
        assert stream.get_data() == data
        told = stream["/Params"]
        assert told["/Size"] == len(data)
        assert told["/CheckSum"].original_bytes == md5(data).digest()
        assert told["/ModDate"] == "D:20240501120000+00'00'"


def test_the_language_is_told(root):
    assert re.fullmatch(r"(en|de)-[A-Z]{2}", root["/Lang"])  # RFC 5646


@QPDF
def test_qpdf_has_nothing_to_say(kept, tmp_path):
    path = tmp_path / "kept.pdf"
    path.write_bytes(kept)
    done = subprocess.run(["qpdf", "--check", str(path)], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "WARNING" not in done.stdout + done.stderr


@POPPLER
def test_poppler_takes_the_very_bytes_out(sample, tmp_path):
    path = tmp_path / "kept.pdf"
    path.write_bytes(sample)
    subprocess.run(["pdfdetach", "-saveall", "-o", str(tmp_path), str(path)], check=True)
    assert (tmp_path / "Läce (7).yaml").read_bytes() == DESCRIPTION
    assert (tmp_path / "loom.yaml").read_bytes() == TEMPLATE
