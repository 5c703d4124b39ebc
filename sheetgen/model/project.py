"""The whole description of one piece."""

from __future__ import annotations

from dataclasses import dataclass, field

from sheetgen.model.beads import Beads
from sheetgen.model.ends import Aglets, Tassels
from sheetgen.model.event import Event, Session
from sheetgen.model.kit import Kit
from sheetgen.model.made import Departure, Made
from sheetgen.model.pack import Tablets
from sheetgen.model.schema import entry
from sheetgen.model.turning import Step, Twist, Weft
from sheetgen.model.values import PicksOver, Reading, Unknown
from sheetgen.model.yarn import Yarn

FORMS = ("loop", "straight", "cord", "band")
PAPERS = ("A4", "A5", "Letter")
PRINT_UNITS = ("mm", "inches", "both")
FITTED_TO_PAGE = (
    "0.94 or 0.96 means that the page was fitted to the paper: print it again at actual size, "
    "100 %, and measure the bar then"
)
"""What is said of a printer factor that no printer has."""


@dataclass(frozen=True, slots=True)
class Find:
    """What the piece is based on: what was read, what cannot be known. A lone line: ``name``."""

    SHORTHAND = "name"

    name: str = entry("text", "What it is, and where it was found.", example="Cord from a well")
    invented: bool = entry("yes-no", "An invented find, for teaching or trying out.", default=False)
    dated: str | None = entry("text", "Its date.", default=None)
    kept: str | None = entry("text", "Where it is kept, with its number there.", default=None)
    reference: str | None = entry("text", "Publication it was read from.", default=None)
    read_from: str | None = entry(
        "text", "How it was read: in the hand, a photograph with a scale, a drawing.", default=None
    )
    thickness: Reading | Unknown | None = entry(
        "reading",
        "Thickness of the cord or band.",
        default=None,
        low=0.1,
        high=100,
        example="about 3 mm",
    )
    width: Reading | Unknown | None = entry(
        "reading", "Width of the band.", default=None, low=0.5, high=1000
    )
    length: Reading | Unknown | None = entry(
        "reading", "Length of what is left.", default=None, low=1, high=100000
    )
    beads: str | None = entry("text", "Its beads, in words.", default=None)
    tablets: str | None = entry("text", "Tablets or ends, if they can be told.", default=None)
    fibre: str | None = entry("text", "Its fibre.", default=None)
    colours: str | None = entry("text", "Its colours.", default=None)
    uncertain: tuple[str, ...] = entry("texts", "What is uncertain.", default=())
    not_known: tuple[str, ...] = entry("texts", "What cannot be known.", default=())


@dataclass(frozen=True, slots=True)
class Sample:
    """What was measured on a sample or an earlier piece; outranks every formula."""

    diameter: Reading | None = entry(
        "reading",
        "Diameter of the cord, or thickness of the band.",
        default=None,
        low=0.1,
        high=100,
    )
    width: Reading | None = entry("reading", "Width of the band.", default=None, low=0.5, high=1000)
    picks: PicksOver | None = entry(
        "picks", "Picks counted over a length.", default=None, example="32 in 5 cm"
    )
    take_up: float | None = entry(
        "number", "Warp used divided by length woven.", default=None, low=1, high=2, example="1.08"
    )


@dataclass(frozen=True, slots=True)
class Allowance:
    """What a warp end needs beyond the woven length. A lone length: ``whole``."""

    SHORTHAND = "whole"

    whole: float | None = entry(
        "length", "Tails and loom waste together.", default=None, low=0, high=10000
    )
    near_tail: float | None = entry(
        "length", "Tail at the end where weaving starts.", default=None, low=0, high=5000
    )
    far_tail: float | None = entry(
        "length", "Tail at the other end.", default=None, low=0, high=5000
    )
    loom_waste: float | None = entry(
        "length", "What cannot be woven.", default=None, low=0, high=5000
    )


@dataclass(frozen=True, slots=True)
class Warping:
    """How the warp is made. A lone word stands for ``way``."""

    SHORTHAND = "way"

    way: str = entry(
        "choice",
        "Ends cut to length, or one warp wound between two posts through the whole pack.",
        default="cut ends",
        choices=("cut ends", "between posts"),
    )
    room: float | None = entry(
        "length", "How far off the far post may stand.", default=None, low=100, high=50000
    )


@dataclass(frozen=True, slots=True)
class Project:
    """One description: lengths in mm, masses in g, times in min, rates per mm."""

    piece: str = entry("text", "What is made.", example="Purse cord")
    form: str = entry("choice", "What kind of piece.", choices=FORMS, example="cord")
    yarns: tuple[Yarn, ...] = entry(
        "named parts", "Yarns by name.", part=Yarn, example="{red: {fibre: wool, count: 20/2 Nm}}"
    )
    number: str | None = entry("text", "Number of the piece in your register.", default=None)
    maker: str | None = entry("text", "Who makes it.", default=None)
    belongs_to: str | None = entry("text", "Group or person it is made for.", default=None)
    date: str | None = entry("date", "Date of this plan.", default=None, example="2026-05-01")
    notes: tuple[str, ...] = entry("texts", "Anything to remember, printed as it is.", default=())
    find: Find | None = entry("part", "What it is based on.", default=None, part=Find)
    departures: tuple[Departure, ...] = entry(
        "parts", "Where the piece departs from the find, and why.", default=(), part=Departure
    )
    length: float | None = entry(
        "length",
        "Finished length; of a string of beads, the cord (left out, it follows from the beads).",
        default=None,
        low=5,
        high=50000,
        example="1.2 m",
    )
    pieces: int = entry("whole", "How many alike.", default=1, low=1, high=50)
    one_warp: bool = entry(
        "yes-no", "Weave them all on one warp, one after the other.", default=False
    )
    tablets: Tablets = entry(
        "part",
        "The pack of tablets.",
        default=Tablets(),
        part=Tablets,
        example="{number: 8, holes: 6, threaded: S}",
    )
    turning: tuple[Step, ...] = entry(
        "turning",
        "Turning steps, done again and again until the length is reached; left out, forward.",
        default=(),
        example="[forward 4, backward 4]",
    )
    twist: Twist = entry("part", "What is done about the twist.", default=Twist(), part=Twist)
    weft: Weft = entry("part", "The weft.", default=Weft(), part=Weft)
    sample: Sample | None = entry("part", "Measured on a sample.", default=None, part=Sample)
    allowance: Allowance = entry(
        "part", "Tails and loom waste.", default=Allowance(), part=Allowance
    )
    shrinkage: float = entry(
        "percent", "Length lost after weaving.", default=0.0, low=0, high=50, example="5 %"
    )
    reserve: float | None = entry(
        "percent",
        "Yarn to have beyond what is used; left out, 10 %.",
        default=None,
        low=0,
        high=200,
    )
    warping: Warping = entry("part", "How the warp is made.", default=Warping(), part=Warping)
    beads: Beads | None = entry("part", "Beads.", default=None, part=Beads)
    tassels: Tassels | None = entry(
        "part", "Tassels; left out, there are none.", default=None, part=Tassels
    )
    aglets: Aglets | None = entry(
        "part",
        "Aglets, the metal ends of a lace; left out, there are none.",
        default=None,
        part=Aglets,
    )
    event: Event | None = entry("part", "Where it is woven.", default=None, part=Event)
    sessions: tuple[Session, ...] = entry(
        "named parts",
        "Stretches of weaving, in order.",
        default=(),
        part=Session,
        example="{Saturday morning: 2 h}",
    )
    pace: float | None = entry(
        "number", "Picks a minute.", default=None, low=0.1, high=60, example="6"
    )
    tools: tuple[str, ...] = entry("texts", "Tools beyond the usual ones.", default=())
    made: Made | None = entry(
        "part", "The piece as it was made; left out until it is.", default=None, part=Made
    )
    templates: str | None = entry(
        "folder",
        "Sentences to print with: german, or a folder of your own below this description's.",
        default=None,
        example="german",
    )
    register: str | None = entry(
        "folder",
        "Folder of the pieces made before, below this description's (. for its own): what was "
        "measured on them is used in this plan.",
        default=None,
        example="filed",
    )
    stash: str | None = entry(
        "file",
        "The stash that is chosen from, in or below this description's folder.",
        default=None,
        example="stash.yaml",
        hint="put it beside the description, or name it with --stash",
    )
    paper: str = entry("choice", "Paper to print on.", default="A4", choices=PAPERS)
    units: str = entry("choice", "Units on the sheets.", default="mm", choices=PRINT_UNITS)
    printer_factor: float = entry(
        "number",
        "What your printer makes of 1 at 100 %: 0.97 if the bar of 100 mm comes out 97 mm long.",
        default=1.0,
        low=0.97,
        high=1.03,
        example="0.985",
        hint=FITTED_TO_PAGE,
    )
    kit: Kit | None = entry("part", "Kits to teach with.", default=None, part=Kit)
    kit_piece: Project | None = field(default=None)
    """What the kit is for: this description with what the kit says differs laid over it."""
    slower: float | None = field(default=None)
    """In a kit's piece: how many times a guest's pick takes as long as one by ``pace``."""
    digest: str = field(default="", compare=False)
    """First digits of the SHA-256 of the description's bytes: the version of the plan."""

    def yarn(self, name: str) -> Yarn:
        """The yarn of that name; KeyError if there is none (the reader has checked)."""
        for yarn in self.yarns:
            if yarn.name == name:
                return yarn
        raise KeyError(name)

    @property
    def is_tube(self) -> bool:
        """True for every form that is woven round; False for a flat band."""
        return self.form != "band"

    @property
    def is_string(self) -> bool:
        """True for strings of beads."""
        return self.form in ("loop", "straight")
