"""Invented yarns and pieces for the engine's tests, as factories."""

import pytest

from sheetgen.model.beads import BeadKind, Beads, Strung
from sheetgen.model.pack import Tablets
from sheetgen.model.project import Project
from sheetgen.model.turning import Move, Turns
from sheetgen.model.values import Count, Reading
from sheetgen.model.yarn import Yarn
from sheetgen.plan.planner import make_plan


def _yarn(name="madder", diameter=0.4, **more):
    if diameter is not None:
        more.setdefault("diameter", Reading(diameter, diameter, diameter))
    more.setdefault("fibre", "wool")
    return Yarn(name, **more)


def _project(**more):
    more.setdefault("piece", "an invented cord")
    more.setdefault("form", "cord")
    more.setdefault("yarns", (_yarn(count=Count("100 tex", 100.0, "tex")),))
    more.setdefault("tablets", Tablets(number=3))
    if more["form"] in ("cord", "band"):
        more.setdefault("length", 280.0)
    return Project(**more)


def _beads(order=None, kinds=None, **more):
    order = order or (Strung("small", 10),)
    kinds = kinds or (BeadKind("small", 10.0, hole=3.0), BeadKind("large", 12.0, hole=4.0))
    return Beads(kinds, tuple(order), **more)


def _turns(picks, motion="forward", group=""):
    return Turns(picks, (Move(group, motion),))


@pytest.fixture(scope="session")
def yarn():
    """Make a yarn, 0.4 mm wool unless told otherwise."""
    return _yarn


@pytest.fixture(scope="session")
def project():
    """Make a project: 28 cm of cord on three four-hole tablets unless told otherwise."""
    return _project


@pytest.fixture(scope="session")
def beads():
    """Make a string of beads of two kinds."""
    return _beads


@pytest.fixture(scope="session")
def turns():
    """Make one turning step."""
    return _turns


@pytest.fixture(scope="session")
def codes():
    """Plan a project and give the codes of its diagnostics."""
    return lambda project: [d.code for d in make_plan(project).diagnostics]


@pytest.fixture(scope="session")
def told():
    """Plan a project and give its one diagnostic of a code."""

    def one(project, code):
        found = [d for d in make_plan(project).diagnostics if d.code == code]
        assert len(found) == 1, [d.code for d in make_plan(project).diagnostics]
        return found[0]

    return one
