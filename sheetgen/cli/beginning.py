"""Where a new description comes from and goes to: takes names, gives texts, faults and the file."""

from __future__ import annotations

from pathlib import Path

from sheetgen.cli.run import Outcome, file_error, read_bytes, reason, shown_source
from sheetgen.cli.sets import USUAL
from sheetgen.diagnostics import Diagnostic
from sheetgen.read.questions import Questions, read_questions
from sheetgen.resources import data_folder

ENDINGS = (".yaml", ".yml")


def with_ending(file: Path) -> Path:
    """The file's name with ``.yaml`` behind it if it had no ending."""
    return file if file.suffix or not file.name else file.with_name(f"{file.name}.yaml")


def fault_of(target: Path) -> Diagnostic | None:
    """Why no new description can be written there; what is there already is never touched."""
    try:
        if target.suffix.lower() not in ENDINGS:
            hint = f"write {target.with_suffix('.yaml')}" if target.name else ""
            return file_error(
                "unwritable-file",
                "the name of a description ends in .yaml",
                given=str(target),
                hint=hint,
            )
        if target.exists() or target.is_symlink():
            return _there_already(target)
        if not target.absolute().parent.is_dir():
            return file_error(
                "unwritable-file",
                "there is no such folder",
                given=str(target.parent),
                hint="make the folder first",
            )
    except (OSError, ValueError) as problem:
        return file_error("unwritable-file", reason(problem), given=str(target))
    return None


def _there_already(target: Path) -> Diagnostic:
    return file_error(
        "file-exists",
        "this file is there already, and is left as it is",
        given=str(target),
        hint="choose another name",
    )


def text_of(form: str, templates: str) -> str | Diagnostic:
    """The starting text of a form: from a folder of the user's own, or a set by its name."""
    data = _data(templates, f"{form}.yaml")
    return data if isinstance(data, Diagnostic) else shown_source(data)


def questions_of(templates: str) -> tuple[Questions | None, Outcome]:
    """The questions, and the file that they come from with what is wrong in it."""
    file = folder_of(templates) / "questions.yaml"
    data = _data(templates, "questions.yaml")
    if isinstance(data, Diagnostic):
        return None, Outcome(file, diagnostics=(data,))
    questions, told = read_questions(data)
    return questions, Outcome(file, data, shown_source(data), diagnostics=told)


def folder_of(templates: str) -> Path:
    """The folder of starting texts: ``new`` in a set's folder, or in the user's own."""
    shipped = data_folder("templates")
    if templates == USUAL:
        return shipped / "new"
    named = shipped / templates / "new"
    plain = Path(templates).name == templates and named.is_dir()
    return named if plain else Path(templates) / "new"


def _data(templates: str, name: str) -> bytes | Diagnostic:
    """The bytes of a file of the set; of the usual one where the user's own folder lacks it."""
    own = folder_of(templates)
    if not own.is_dir():
        return file_error(
            "no-such-templates",
            "there is no such set, and no folder of that name with a folder “new” in it",
            given=templates,
            allowed="english, german, or a folder",
        )
    file = own / name
    return read_bytes(file if file.is_file() else folder_of(USUAL) / name)


def write(target: Path, text: str) -> Diagnostic | None:
    """Write the new file whole; why, if nothing was written. It must not be there already."""
    from sheetgen.archive.files import write_new

    try:
        write_new(target, text.encode("utf-8", "replace"))
    except FileExistsError:
        return _there_already(target)
    except OSError as problem:
        return file_error("unwritable-file", reason(problem), given=str(target))
    return None
