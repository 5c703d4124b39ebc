"""Which stage may know which: read off the imports of every module, inside functions too."""

import ast
from pathlib import Path

import pytest

import sheetgen

PACKAGE = Path(sheetgen.__file__).parent
MODULES = sorted(PACKAGE.rglob("*.py"))

# stage -> stages it may import besides itself
MAY = {
    "sheetgen": set(),
    "amounts": set(),
    "resources": set(),
    "diagnostics": set(),
    "units": {"diagnostics"},
    "model": {"diagnostics", "units"},
    "read": {"diagnostics", "units", "model", "resources"},
    "plan": {"diagnostics", "units", "model", "amounts"},
    "layout": {"model", "plan", "amounts", "diagnostics", "resources"},
    "draw": {"layout", "amounts", "resources"},
    "photographs": {"diagnostics"},
    "archive": {"amounts", "diagnostics", "resources", "units"},
}
EVERYTHING = {*MAY, "cli"}
DRAW_SEES = {"sheetgen.layout.shapes", "sheetgen.layout.blocks", "sheetgen.layout.paper"}
# library -> the only stage that imports it
ONLY = {
    "reportlab": "draw",
    "pypdf": "archive",
    "PIL": "photographs",
    "yaml": "read",
    "pint": "units",
    "click": "cli",
}
LONGEST = 300


def stage_of(dotted):
    parts = dotted.split(".")
    return parts[1] if len(parts) > 1 else "sheetgen"


def name_of(path):
    parts = path.relative_to(PACKAGE.parent).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def imported(tree, name, is_package):
    """(dotted name, inside a function) of everything that a module imports at any depth."""
    lazy = {
        node
        for top in ast.walk(tree)
        if isinstance(top, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda)
        for node in ast.walk(top)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((alias.name, node in lazy) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                parents = name.split(".")[: (1 if is_package else 0) - node.level or None]
                base = ".".join([*parents, *([base] if base else [])])
            whole = [f"{base}.{alias.name}" for alias in node.names]
            yield from ((n if base == "sheetgen" else base, node in lazy) for n in whole)


def arrows(path):
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return list(imported(tree, name_of(path), path.name == "__init__.py"))


def faults(name, found):
    """What is wrong with the imports ``found`` of a module ``name``, in words."""
    stage = stage_of(name)
    for target, lazy in found:
        top = target.split(".")[0]
        if top in ONLY and ONLY[top] != stage:
            yield f"{name} imports {top}, which is for {ONLY[top]} alone"
        ours = top == "sheetgen"
        if lazy and ours and stage != "cli":
            yield f"{name} hides an import of {target} in a function"
        if lazy and top in ONLY and stage not in ("cli", "units"):
            yield f"{name} hides an import of {target} in a function"
        if not ours or stage == "cli":
            continue
        to = stage_of(target)
        if to not in (stage, "sheetgen") and to not in MAY[stage]:
            yield f"{name} may not import {target}"
        if stage == "draw" and to == "layout" and target not in DRAW_SEES:
            yield f"{name} sees more of layout than boxes: {target}"


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_arrows(path):
    name = name_of(path)
    assert stage_of(name) in EVERYTHING, f"{name} is in no stage known here"
    assert not list(faults(name, arrows(path)))


@pytest.mark.parametrize(
    ("name", "source"),
    [
        ("sheetgen.plan.cord", "from sheetgen.read import load"),
        ("sheetgen.plan.cord", "def f():\n    from sheetgen.plan.yarn import x"),
        ("sheetgen.model.yarn", "import sheetgen.plan.cord"),
        ("sheetgen.read.nodes", "from sheetgen.plan import planner"),
        ("sheetgen.layout.loom", "import reportlab"),
        ("sheetgen.draw.pen", "from PIL import Image"),
        ("sheetgen.photographs", "from sheetgen.layout import shapes"),
        ("sheetgen.draw.pen", "from sheetgen.layout.loom import x"),
        ("sheetgen.draw.pen", "from sheetgen import plan"),
        ("sheetgen.draw.pen", "from ..plan import planner"),
        ("sheetgen.archive.files", "from sheetgen.draw import pen"),
        ("sheetgen.plan.yarn", "import pint"),
        ("sheetgen.plan.yarn", "from yaml import nodes"),
        ("sheetgen.units", "from sheetgen.model import Project"),
        ("sheetgen.amounts", "from sheetgen.units import registry"),
        ("sheetgen.plan.planner", "import click"),
    ],
)
def test_the_test_can_fail(name, source):
    assert list(faults(name, imported(ast.parse(source), name, False)))


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_no_module_is_too_long(path):
    lines = len(path.read_text(encoding="utf-8").splitlines())
    assert lines <= LONGEST


def test_every_stage_says_what_it_takes_and_gives():
    for folder in sorted(p for p in PACKAGE.iterdir() if (p / "__init__.py").exists()):
        text = ast.get_docstring(ast.parse((folder / "__init__.py").read_text("utf-8")))
        assert text, folder.name
