"""A shelf of filed records: takes files for a number, puts them into a folder of their own, whole.

``DIR/SW-0001`` holds one record. ``DIR/.numbers`` holds a claim for each number ever given, so
that none is given twice, though its record be removed, and what is being filed at the moment. A
record is written there first and then given its place by one renaming, so that a crash at any
moment leaves it out or leaves it whole; the next filing finishes what was begun.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from itertools import chain
from pathlib import Path

from sheetgen.archive import locks
from sheetgen.archive.files import LEFT_BY_A_CRASH, settle, write_whole
from sheetgen.archive.numbers import described, folder_name, greatest, names_below, same

CLAIMS = ".numbers"
_NEW, _READY, _OLD = ".new", ".ready", ".old"
_DIGITS = 4
_MOST_BYTES = 100_000
"""Bytes of a claim that are read; one of ours has a hundredth of it."""


class TakenError(Exception):
    """A number or a description that is filed already; ``where`` says where."""

    def __init__(self, number: str, where: str) -> None:
        super().__init__(f"{number}: {where}")
        self.number, self.where = number, where


class Shelf:
    """A folder of records that this process holds; made by :func:`held`."""

    def __init__(self, folder: Path, locked: bool) -> None:
        self.folder, self._claims, self._locked = folder, folder / CLAIMS, locked
        self._finish()

    def place(self, number: str) -> Path:
        """Where the record of a number stands or will stand."""
        return self.folder / folder_name(number)

    def filed_as(self, source: bytes) -> str | None:
        """The number under which these very bytes were filed before."""
        digest = _digest(source)
        for _, claim in self._all_claims():
            if claim.get("source") == digest and self._is_filed(claim):
                return str(claim["number"])
        return None

    def claim_next(self, prefix: str, source: bytes) -> str:
        """Claim the next number for a description: one more than the greatest ever given.

        Where a crash left a claim of the same bytes without its record, that number is taken up.
        """
        digest = _digest(source)
        if self._locked:
            for _, claim in self._all_claims():
                if claim.get("source") == digest and not self._is_filed(claim):
                    return str(claim["number"])
        last = self._greatest(prefix)
        while True:
            last += 1
            number = f"{prefix}-{last:0{_DIGITS}}" if prefix else f"{last:0{_DIGITS}}"
            with suppress(FileExistsError):
                self._claim(number, digest)
                return number

    def claim_own(self, number: str, source: bytes, *, replace: bool, file: Path) -> None:
        """Claim the number that a description has itself. TakenError if another has it.

        ``file`` is the description, which may itself lie on the shelf.
        """
        place = self.place(number)
        for other in self._described(number):
            mine = replace and other.is_relative_to(place)
            if not mine and not (file.exists() and other.samefile(file)):
                raise TakenError(number, str(other))
        try:
            self._claim(number, _digest(source))
        except FileExistsError:
            claim = self._read_claim(self._claims / folder_name(number).casefold())
            if not same(str(claim.get("number", number)), number):
                raise TakenError(number, f"number {claim['number']} has its folder") from None
            if self._is_filed(claim) and not replace:
                raise TakenError(number, str(place)) from None
        if place.exists() and not replace:
            raise TakenError(number, str(place))

    def put(self, number: str, source: bytes, files: Mapping[str, bytes]) -> Path:
        """File the record of a claimed number, in place of the one that may be there.

        Files that somebody laid beside that one stay.

        ``files`` are its bytes by name, strokes parting folders. OSError leaves all as it was.
        """
        name = folder_name(number)
        new = self._claims / f"{name}{_NEW}"
        shutil.rmtree(new, ignore_errors=True)
        try:
            for inside, data in files.items():
                target = new / inside
                target.parent.mkdir(parents=True, exist_ok=True)
                write_whole(target, data)
            _keep_others(self.place(number), new)
            settle(new)
        except BaseException:
            shutil.rmtree(new, ignore_errors=True)
            raise
        new.rename(self._claims / f"{name}{_READY}")  # from here on it will be filed
        settle(self._claims)
        self._finish_one(name)
        claim = {"number": number, "source": _digest(source), "filed": True}
        write_whole(self._claims / name.casefold(), json.dumps(claim).encode())
        return self.place(number)

    def _finish(self) -> None:
        """Finish what a crash left: all that was ready is filed, all that was not is dropped."""
        self._claims.mkdir(parents=True, exist_ok=True)
        if not self._locked:
            return
        for path in sorted(self._claims.iterdir()):
            if path.name.endswith(_NEW):
                shutil.rmtree(path, ignore_errors=True)
            elif path.name.startswith(LEFT_BY_A_CRASH):
                path.unlink()
            elif path.name.endswith(_READY):
                self._finish_one(path.name.removesuffix(_READY))
        for path in sorted(self._claims.iterdir()):
            if path.name.endswith(_OLD):
                place = self.folder / path.name.removesuffix(_OLD)
                if place.exists():
                    shutil.rmtree(path, ignore_errors=True)
                else:
                    path.rename(place)

    def _finish_one(self, name: str) -> None:
        """Give a ready record its place, the one before it out of the way until then."""
        ready, place = self._claims / f"{name}{_READY}", self.folder / name
        old = self._claims / f"{name}{_OLD}"
        if place.exists():
            shutil.rmtree(old, ignore_errors=True)
            place.rename(old)
        ready.rename(place)
        settle(self.folder)
        shutil.rmtree(old, ignore_errors=True)

    def _claim(self, number: str, digest: str) -> None:
        """Make the claim of a number. FileExistsError if there is one."""
        path = self._claims / folder_name(number).casefold()
        content = json.dumps({"number": number, "source": digest, "filed": False}).encode()
        if self._locked and path.is_file() and not path.stat().st_size:
            path.unlink()  # a crash between the making of the claim and its first byte
        descriptor = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
        with open(descriptor, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        settle(self._claims)

    def _is_filed(self, claim: Mapping[str, object]) -> bool:
        number = str(claim.get("number", ""))
        return bool(claim.get("filed")) or self.place(number).exists()

    def _all_claims(self) -> Iterator[tuple[Path, dict[str, object]]]:
        for path in sorted(self._claims.iterdir()):
            if path.is_file() and not path.name.startswith("."):
                yield path, self._read_claim(path)

    def _read_claim(self, path: Path) -> dict[str, object]:
        try:
            with path.open("rb") as file:
                claim = json.loads(file.read(_MOST_BYTES))
        except (OSError, ValueError, RecursionError):  # not one of ours
            return {}
        return claim if isinstance(claim, dict) else {}

    def _greatest(self, prefix: str) -> int:
        """The greatest number ever given with a prefix: claimed, filed, described or named here."""
        claimed = (path.name for path in self._claims.iterdir())
        written = (number for number, _ in described(self.folder))
        return greatest(prefix, chain(claimed, names_below(self.folder), written))

    def _described(self, number: str) -> Iterator[Path]:
        """The descriptions on the shelf that have a number."""
        return (path for found, path in described(self.folder) if same(found, number))


def _keep_others(old: Path, new: Path) -> None:
    """Give what lies in ``old`` and is not in ``new`` a place there too, hidden files and links.

    Files get a second name, or are copied where a disc knows no second names.
    """
    for folder, inner, files in os.walk(old):
        beside = new / Path(folder).relative_to(old)
        for name in [*files, *(name for name in inner if (Path(folder) / name).is_symlink())]:
            source, target = Path(folder) / name, beside / name
            if os.path.lexists(target):
                continue
            beside.mkdir(parents=True, exist_ok=True)
            try:
                os.link(source, target, follow_symlinks=False)
            except (OSError, NotImplementedError):
                if source.is_symlink():
                    target.symlink_to(os.readlink(source))
                elif source.is_file():
                    write_whole(target, source.read_bytes())
                    shutil.copystat(source, target)
        settle(beside)


@contextmanager
def held(folder: Path) -> Iterator[Shelf]:
    """The shelf, made if it is not there, held against others until the block ends.

    Whoever else files waits; a process that dies lets go. OSError if it cannot be written.
    """
    (folder / CLAIMS).mkdir(parents=True, exist_ok=True)
    with (folder / CLAIMS / ".lock").open("ab") as claims:
        yield Shelf(folder, locks.lock(claims.fileno()))


def _digest(source: bytes) -> str:
    return hashlib.sha256(source).hexdigest()
