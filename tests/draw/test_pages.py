"""Blocks are shared out over pages: nothing overlaps, runs off, or is left alone."""

from __future__ import annotations

import itertools

import numpy as np
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheetgen.draw.boxes import LayoutError
from sheetgen.draw.pdf import render
from sheetgen.layout.blocks import (
    Boxed,
    Document,
    Figure,
    Heading,
    NeedRoom,
    PageBreak,
    Para,
    Run,
    SideBySide,
    Space,
    Step,
    Table,
    Together,
    WritingLines,
)
from sheetgen.layout.paper import PAPERS
from sheetgen.layout.shapes import Circle, Fill, Line, Picture, Rect, Text

MM = 25.4 / 72  # published: PDF counts in 1/72 inch
WORDS = "Turn every tablet one quarter forward and beat the weft home before the next pick. "


def runs(text):
    return (Run(text),)


def picture(width=40.0, height=20.0, name="", scaled=False):
    shapes = (
        Rect(0.0, 0.0, width, height, 0.25, Fill("#f0e0c0", "rising"), round=2.0),
        Circle(width / 2, height / 2, height / 4, 0.25, Fill(None, "dots")),
        Line(0.0, height / 2, width, height / 2, 0.3, (1.0, 1.0)),
    )
    return Picture(width, height, shapes, scaled, name)


def blank(height):
    """A picture with next to nothing in it, to fill a page down to where something happens."""
    return Picture(40.0, height, (Line(0.0, 0.0, 40.0, 0.0),))


def torture(paper, size=10.0):
    """Everything that a sheet can hold, in quantities that none should."""
    cells = (runs("A"), runs(WORDS), runs("12.5 m"))
    long_name = "The very long name of a band from a place with a long name " * 5
    blocks = (
        Heading(long_name),
        *(Step(runs(WORDS * (1 + i % 4)), str(i) if i % 5 else "") for i in range(100)),
        Table((runs("No."), runs("What"), runs("Length")), (cells,) * 120, (0.2, 0.5, 0.3), True),
        Table((), ((runs("W" * 300), runs(WORDS * 90)),), (0.1, 0.9)),
        *(Figure(picture(30.0 + i % 50, name=str(i), scaled=i % 9 == 0)) for i in range(150)),
        SideBySide(picture(60.0, 60.0), (Heading("Beside", 2), Para(runs(WORDS)), Step(runs("x")))),
        Boxed((Para(runs(WORDS * 200)),), "Too tall for a page", heavy=True),
        Together((Heading("Notes", 2), WritingLines(6))),
        WritingLines(60),
        Para(runs("W" * 5000), small=True),
    )
    return Document(
        title="t",
        sheet="A sheet with a name that goes on and on without an end",
        header=long_name,
        version="plan 0a1b2c3d4e5f",
        paper=PAPERS[paper],
        blocks=blocks,
        page_of="page {page} of {pages}",
        scale_sentence="This bar must measure 100 mm; if it does not, print at actual size. " * 2,
        print_sentence="Print at actual size, 100 %, and do not fit to the page. " * 3,
        text_size=size,
    )


@pytest.mark.parametrize(("paper", "size"), [("A4", 10.0), ("A5", 10.0), ("Letter", 13.0)])
def test_no_words_overlap_and_nothing_is_near_the_edge(read_back, paper, size):
    for page in read_back(render(torture(paper, size)), every=4):
        lines = page.extract_text_lines(x_tolerance=2, return_chars=False)
        for one, other in itertools.combinations(lines, 2):
            across = min(one["x1"], other["x1"]) - max(one["x0"], other["x0"])
            along = min(one["bottom"], other["bottom"]) - max(one["top"], other["top"])
            # geometry: boxes of ascent and descent may touch, letters may not
            assert across <= 0 or along < 1.5, (one["text"], other["text"])
        for char in page.chars:
            assert char["x0"] * MM >= 10
            assert char["x1"] * MM <= page.width * MM - 10
            assert char["top"] * MM >= 10
            assert char["bottom"] * MM <= page.height * MM - 12.4


@pytest.mark.parametrize("paper", PAPERS)
def test_no_ink_within_ten_millimetres_of_an_edge(paper):
    file = pypdfium2.PdfDocument(render(torture(paper)))
    for number in range(0, len(file), 5):
        bitmap = file[number].render(scale=100 / 72, grayscale=True)
        dark = bitmap.to_numpy().reshape(bitmap.height, bitmap.width) < 250
        edge, foot = int(9.9 * 100 / 25.4), int(12.9 * 100 / 25.4)
        assert dark.any()
        assert not dark[:edge].any()
        assert not dark[-foot:].any()
        assert not dark[:, :edge].any()
        assert not dark[:, -edge:].any()


def test_everything_is_printed_once_and_in_order(read_back, sheet):
    steps = [Step(runs(f"step{i:03d} " + WORDS)) for i in range(150)]
    text = " ".join(page.extract_text() for page in read_back(render(sheet(*steps))))
    found = [word for word in text.split() if word.startswith("step")]
    assert found == [f"step{i:03d}" for i in range(150)]


def test_a_tick_box_is_five_millimetres_and_level_with_its_first_line(read_back, sheet):
    blocks = (Step(runs("xxx " + WORDS * 3), "7"), Table((), ((runs("xxx"),),), (1.0,), True))
    (page,) = read_back(render(sheet(*blocks)))
    assert [r["width"] * MM for r in page.rects] == pytest.approx([5.0, 5.0], abs=0.01)
    words = [w for w in page.extract_words() if w["text"] == "xxx"]
    for box, word in zip(page.rects, words, strict=True):
        assert word["x0"] > box["x1"] + 1.5 / MM
        middle = (box["top"] + box["bottom"]) / 2
        assert abs((word["top"] + word["bottom"]) / 2 - middle) * MM < 0.7


def test_figures_in_a_right_column_end_level(read_back, sheet):
    rows = tuple((runs("a"), runs(f"{10**i}.5")) for i in range(5))
    (page,) = read_back(render(sheet(Table((runs("x"), runs("y")), rows, (0.5, 0.5), right=(1,)))))
    ends = [w["x1"] * MM for w in page.extract_words() if w["text"].endswith(".5")]
    assert ends == pytest.approx([197.0] * 5, abs=0.02)  # geometry: 210 less the margin of 13


def test_the_head_comes_again_on_every_page(read_back, sheet):
    table = Table((runs("Headword"),), tuple((runs(str(i)),) for i in range(120)), (1.0,))
    pages = read_back(render(sheet(table)))
    assert len(pages) > 1
    assert all(page.extract_text().count("Headword") == 1 for page in pages)


@pytest.mark.parametrize("fill", [225.0, 237.0, 244.0])
@pytest.mark.parametrize(
    "follower",
    [
        Para(runs(WORDS * 4)),
        Step(runs(WORDS * 4)),
        Figure(picture(40.0, 30.0)),
        Table((runs("h"),), ((runs("c"),),), (1.0,)),
        Boxed((Para(runs(WORDS)),)),
        Together((Para(runs(WORDS)), WritingLines(2))),
        SideBySide(picture(40.0, 30.0), (Para(runs(WORDS)),)),
        Table((), ((runs(WORDS * 90),),), (1.0,)),
        Boxed((Para(runs(WORDS * 90)),)),
        Heading("Second"),
    ],
)
def test_a_heading_is_never_alone_at_the_foot(read_back, sheet, fill, follower):
    blocks = (Figure(blank(fill - 10)), Heading("Firstly"), follower, Para(runs("tail")))
    pages = read_back(render(sheet(*blocks)))
    (page,) = [page for page in pages if "Firstly" in page.extract_text()]
    (word,) = [w for w in page.extract_words() if w["text"] == "Firstly"]
    below = [
        thing
        for thing in page.chars + page.rects + page.curves
        if thing["top"] > word["bottom"] and thing["bottom"] * MM < 297 - 13 - 6
    ]
    assert below


@pytest.mark.parametrize("words", [58, 61, 64])
def test_a_heading_at_the_top_is_not_left_alone_by_a_box_of_nearly_a_page(read_back, sheet, words):
    box = Boxed((Para(runs("begins " + WORDS * words)),))
    pages = read_back(render(sheet(Para(runs("before")), Heading("Firstly"), box)))
    (page,) = [page for page in pages if "Firstly" in page.extract_text()]
    assert "begins" in page.extract_text()


@pytest.mark.parametrize("fill", [205.0, 215.0, 225.0, 235.0, 245.0])
def test_a_table_leaves_no_row_alone_on_the_next_page(read_back, sheet, fill):
    table = Table((runs("head"),), tuple((runs(f"row{i}"),) for i in range(6)), (1.0,))
    for page in read_back(render(sheet(Figure(blank(fill - 20)), table))):
        assert page.extract_text().count("row") != 1


def test_a_row_higher_than_a_page_is_parted_and_loses_nothing(read_back, sheet):
    text = " ".join(f"word{i}" for i in range(2500))
    rows = ((runs("short"), runs("short")), (runs("left"), runs(text)), (runs("last"), runs("end")))
    pages = read_back(render(sheet(Table((runs("head"), runs("k")), rows, (0.3, 0.7), True))))
    assert len(pages) > 2
    words = [w for page in pages for w in page.extract_text().split() if w.startswith("word")]
    assert words == text.split()
    assert all(page.extract_text().count("head") == 1 for page in pages)
    assert sum(len(page.rects) for page in pages) == 3  # a tick box a row


def test_close_figures_stand_close(read_back, sheet):
    frame = Picture(40.0, 10.0, (Rect(0.0, 0.0, 40.0, 10.0),))
    near, far = Figure(frame, close=True), Figure(frame)
    blocks = (near, near, Together((near, Para(runs("x")))), far, far)
    (page,) = read_back(render(sheet(*blocks)))
    tops = [rect["top"] * MM for rect in page.rects]
    gaps = [below - above - 10.0 for above, below in itertools.pairwise(tops)]
    # common practice: 1 mm between rows that belong together, 4 mm between pictures
    assert [gaps[0], gaps[1], gaps[3]] == pytest.approx([1.0, 1.0, 4.0], abs=0.01)


@pytest.mark.parametrize("fill", [215.0, 220.0, 225.0, 230.0])
def test_a_step_is_read_on_one_page(read_back, sheet, fill):
    step = Step(runs("begins " + WORDS * 4 + "ends"))
    for page in read_back(render(sheet(Figure(blank(fill)), step))):
        assert ("begins" in page.extract_text()) == ("ends" in page.extract_text())


def test_what_stays_together_moves_together(read_back, sheet):
    group = Together(tuple(Para(runs(f"together{i}")) for i in range(8)))
    pages = read_back(render(sheet(Figure(blank(230.0)), group)))
    assert ["together0" in page.extract_text() for page in pages] == [False, True]
    assert "together7" in pages[1].extract_text()


def test_breaks_make_no_empty_pages(read_back, sheet):
    blocks = (PageBreak(), Para(runs("a")), PageBreak(), PageBreak(), Space(10.0), Para(runs("b")))
    pages = read_back(render(sheet(*blocks, NeedRoom(250.0), Para(runs("c")), PageBreak())))
    assert [page.extract_text().splitlines()[1] for page in pages] == ["a", "b", "c"]


def test_an_empty_document_is_one_page(read_back, sheet):
    assert len(read_back(render(sheet()))) == 1


def test_a_picture_wider_than_the_frame_is_named(sheet):
    frame = PAPERS["A4"].frame_width
    render(sheet(Figure(picture(frame + 1e-9))))
    with pytest.raises(LayoutError, match="warp drawing"):
        render(sheet(Figure(picture(frame + 1.0, name="warp drawing"))))


def test_a_picture_higher_than_the_page_is_named(sheet):
    frame = PAPERS["A4"].frame_height
    render(sheet(Figure(picture(40.0, frame))))
    for wrapped in (Figure, lambda p: Boxed((Figure(p),)), lambda p: SideBySide(p, ())):
        with pytest.raises(LayoutError, match="long strip"):
            render(sheet(wrapped(picture(40.0, frame + 1.0, name="long strip"))))


def test_a_table_that_does_not_add_up_is_refused(sheet):
    with pytest.raises(LayoutError, match="2 cells"):
        render(sheet(Table((), ((runs("a"), runs("b")),), (1.0,))))


def test_a_column_without_room_for_a_letter_is_refused(sheet):
    with pytest.raises(LayoutError, match="column"):
        render(sheet(Table((), ((runs("a"), runs("b")),), (0.02, 0.98), ticked=True)))


_plain = st.one_of(
    st.builds(Para, st.text(max_size=900).map(runs), st.booleans()),
    st.builds(Step, st.text(max_size=300).map(runs), st.text(max_size=4)),
    st.builds(Heading, st.text(max_size=200), st.sampled_from([1, 2])),
    st.builds(WritingLines, st.integers(0, 40)),
    st.builds(Space, st.floats(0, 400)),
    st.builds(NeedRoom, st.floats(0, 400)),
    st.just(PageBreak()),
    st.builds(lambda h: Figure(picture(30.0, h)), st.floats(5, 90)),  # what eight frames leave
    st.builds(
        lambda rows: Table((runs("h"), runs("k")), tuple(rows), (0.3, 0.7), True, (1,)),
        st.lists(st.tuples(st.text(max_size=900).map(runs), st.text(max_size=9).map(runs))),
    ),
)
_nested = st.recursive(
    _plain,
    lambda inner: st.one_of(
        st.builds(lambda b: Together(tuple(b)), st.lists(inner, max_size=5)),
        st.builds(
            lambda b, t: Boxed(tuple(b), t), st.lists(inner, max_size=4), st.text(max_size=9)
        ),
    ),
    max_leaves=8,
)


@settings(deadline=None, max_examples=40)
@given(st.lists(_nested, max_size=12))
def test_whatever_the_blocks_a_document_comes_out(blocks):
    document = torture("A5")
    small = Document(
        **{name: getattr(document, name) for name in document.__slots__} | {"blocks": tuple(blocks)}
    )
    pages = len(pypdfium2.PdfDocument(render(small)))
    assert 1 <= pages <= 400


def test_ink_of_text_follows_its_anchor_and_turn(sheet, read_back):
    shapes = (
        Text(50.0, 10.0, "HHHH", 10.0, "middle"),
        Text(100.0, 10.0, "HHHH", 10.0, "end", bold=True, halo=True),
        Text(120.0, 40.0, "IIIIIIIIIIIIIIII", 10.0, turn=90.0),
    )
    data = render(sheet(Figure(Picture(150.0, 50.0, shapes))))
    (page,) = read_back(data)
    words = [w for w in page.extract_words() if w["text"] == "HHHH"]
    left, right = sorted(words, key=lambda w: w["x0"])
    # geometry: margin 13 mm and the anchors
    assert (left["x0"] + left["x1"]) / 2 * MM == pytest.approx(63.0, abs=0.05)
    assert right["x1"] * MM == pytest.approx(113.0, abs=0.05)
    bitmap = pypdfium2.PdfDocument(data)[0].render(scale=10, grayscale=True)
    dark = bitmap.to_numpy().reshape(bitmap.height, bitmap.width) < 128
    px = 720 / 25.4
    rows, columns = np.nonzero(dark[round(25 * px) : round(75 * px), round(120 * px) :])
    # geometry: it runs up from (133, 60) and stands to the left of the line
    assert columns.max() / px + 120 <= 133.1
    assert rows.max() / px + 25 <= 60.0
    assert (rows.max() - rows.min()) > 4 * (columns.max() - columns.min())
