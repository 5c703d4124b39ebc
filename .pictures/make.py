"""Makes the pictures of README.md anew: ``.venv/bin/python .pictures/make.py``.

Needs ``pdftoppm`` (poppler-utils). Each picture notes the plan it shows, which is the beginning of
the SHA-256 digest of the description, as printed at the head of the page.
"""

from __future__ import annotations

import hashlib
import subprocess
import sys
import tempfile
from pathlib import Path

from PIL import Image
from PIL.PngImagePlugin import PngInfo

HERE = Path(__file__).resolve().parent
EXAMPLES = HERE.parent / "example_projects"
PER_INCH, GREYS, GAP = 72, 16, 12
STASH = ("--stash", str(EXAMPLES / "sedgewater-stash.yaml"))

PICTURES: dict[str, tuple[str, tuple[str, ...], str, tuple[int, ...]]] = {
    "loom": ("mill-race-loop", ("print",), "mill-race-loop-loom.pdf", (4, 6, 7)),
    "record": ("ferry-cross-string", ("print", "--sheet", "record"), "*-record.pdf", (1, 4)),
    "kit": ("town-day-workshop", ("kits",), "*-kit.pdf", (1,)),
    "organiser": ("town-day-workshop", ("kits",), "*-organiser.pdf", (1,)),
    "cutouts": ("mill-race-loop", ("print", "--sheet", "cutouts"), "*-cutouts.pdf", (1,)),
    "choice": ("mill-race-loop", ("print", "--sheet", "choice", *STASH), "*-choice.pdf", (1,)),
    "register": ("", ("register",), "register.pdf", (1,)),
}
"""Picture -> example, command, its file, and the pages shown side by side."""


def plan_mark(example: str) -> str:
    """What stands after “plan” on the pages of an example; of all examples together, nothing."""
    if not example:
        return ""
    return hashlib.sha256((EXAMPLES / f"{example}.yaml").read_bytes()).hexdigest()[:8]


def make(name: str, folder: Path) -> None:
    """Print the sheet into the folder and put its pages into the picture."""
    example, (command, *options), found, pages = PICTURES[name]
    source = EXAMPLES / f"{example}.yaml" if example else EXAMPLES
    out = folder if example else folder / found
    program = [sys.executable, "-m", "sheetgen.cli.main"]
    subprocess.run([*program, command, source, *options, "--out", out, "--quiet"], check=True)
    pdf = next(folder.glob(found))
    shown = []
    for page in pages:
        only = ["-f", str(page), "-l", str(page), "-singlefile", "-gray", "-png"]
        target = folder / f"{name}-{page}"
        subprocess.run(["pdftoppm", "-r", str(PER_INCH), *only, pdf, target], check=True)
        shown.append(Image.open(target.with_suffix(".png")))
    width = sum(page.width for page in shown) + GAP * (len(shown) - 1)
    whole = Image.new("L", (width, max(page.height for page in shown)), 160)
    left = 0
    for page in shown:
        whole.paste(page, (left, 0))
        left += page.width + GAP
    note = PngInfo()
    note.add_text("plan", plan_mark(example))
    whole.quantize(GREYS).save(HERE / f"{name}.png", pnginfo=note, optimize=True)


if __name__ == "__main__":
    for each in PICTURES:
        with tempfile.TemporaryDirectory() as room:
            make(each, Path(room))
