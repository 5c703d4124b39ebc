"""What holds for all tests: no network, and hypothesis judges results, not the speed of a machine.

With CI set it tries the same cases each time, so that a run says what the change did; elsewhere
it looks for new ones.
"""

import os
import runpy
from pathlib import Path

import pytest
from hypothesis import settings

settings.register_profile("sheetgen", deadline=None, derandomize=bool(os.environ.get("CI")))
settings.load_profile("sheetgen")

BAN = Path(__file__).parent / "no_network"
FORBIDDEN = runpy.run_path(str(BAN / "sitecustomize.py"))["NetworkForbiddenError"]


@pytest.fixture(scope="session", autouse=True)
def no_network():
    """Forbids the network here, by the line above, and in every Python that a test starts."""
    before = os.environ.get("PYTHONPATH")
    os.environ["PYTHONPATH"] = os.pathsep.join([str(BAN), *([before] if before else [])])
    yield FORBIDDEN
    if before is None:
        del os.environ["PYTHONPATH"]
    else:
        os.environ["PYTHONPATH"] = before
