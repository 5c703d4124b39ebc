"""What holds for all tests: hypothesis judges results, not the speed of a busy machine."""

from hypothesis import settings

settings.register_profile("sheetgen", deadline=None)
settings.load_profile("sheetgen")
