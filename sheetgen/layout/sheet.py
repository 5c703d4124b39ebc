"""A sheet of one plan: takes the plan, its template, the paper and its parts, gives a Document."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from sheetgen import amounts
from sheetgen.layout.blocks import Block, Document
from sheetgen.layout.described import described
from sheetgen.layout.desk import Desk, Measure
from sheetgen.layout.facts import flags_of
from sheetgen.layout.fields import Fields
from sheetgen.layout.paper import Paper, Setting
from sheetgen.layout.shapes import Raster
from sheetgen.layout.words import writing_of
from sheetgen.model.template import Template
from sheetgen.plan.plan import Plan

Part = Callable[[Desk], Iterator[Block]]
"""What makes one part of a sheet."""

AS_IT_IS = Setting()


def lay_out(
    parts: Mapping[str, Part],
    plan: Plan,
    template: Template,
    paper: Paper,
    measure: Measure,
    setting: Setting,
    photographs: Mapping[str, Raster] | None = None,
    columns: int = 1,
) -> Document:
    """Lay the parts out in the template's order. KeyError for a part that is not among them."""
    paper = setting.on(paper)
    several = plan.project.pieces > 1
    own = {
        "paper": paper.name,
        "of_one_piece": template.words["of one piece"] if several else "",
        "of_all_pieces": template.words["of all pieces"] if several else "",
    }
    fields = Fields(plan, described(plan, template) | own, writing_of(template))
    # A drawing at true scale grows by the printer's factor when it is drawn, so all get less room.
    width, height = setting.room(paper.column(columns)), setting.room(paper.frame_height)
    flags = flags_of(plan)
    desk = Desk(plan, template, fields, flags, width, height, measure, photographs or {})
    blocks = [block for part in template.parts for block in parts[part.name](desk)]
    project = plan.project
    return Document(
        title=f"{project.piece} · {template.words['title']}",
        sheet=template.words["title"],
        header=project.piece,
        version=desk.common("version", version=project.digest),
        paper=paper,
        blocks=tuple(blocks),
        page_of=template.words["page of"],
        scale_sentence=template.words["scale"],
        print_sentence=desk.common(
            "print booklet" if setting.booklet else "print", paper=paper.name
        ),
        author=project.maker or "",
        subject=template.words["subject"],
        language=template.language,
        date=project.date,
        text_size=setting.text_size,
        columns=columns,
        **_corrected(desk, setting.printer_factor),
    )


def _corrected(desk: Desk, factor: float) -> dict[str, Any]:
    """What the Document says of a printer's factor; nothing of one that changes nothing."""
    if factor == 1:
        return {}
    told = {
        "factor": amounts.plain(factor, 6, desk.writing),
        "comes_out": amounts.plain(100 * factor, 1, desk.writing),
    }
    return {
        "printer_factor": factor,
        "factor_sentence": desk.common("factor", **told),
        "uncorrected": desk.common("uncorrected", **told),
    }
