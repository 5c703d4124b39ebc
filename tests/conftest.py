"""What holds for all tests: hypothesis judges results, not the speed of a busy machine.

With CI set it tries the same cases each time, so that a run says what the change did; elsewhere
it looks for new ones.
"""

import os

from hypothesis import settings

settings.register_profile("sheetgen", deadline=None, derandomize=bool(os.environ.get("CI")))
settings.load_profile("sheetgen")
