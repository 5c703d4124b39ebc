"""Filing: numbers that are given once, records that are there whole or not at all."""

import multiprocessing
import os
import shutil
from pathlib import Path

import pytest

from sheetgen.archive import files, locks, shelf
from sheetgen.archive.numbers import folder_name
from sheetgen.archive.shelf import TakenError, held

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="crashes are tried in a fork")
RECORD = {"SW.yaml": b"piece: x\n", "SW.pdf": b"%PDF-1.7 ", "photographs/a.jpg": b"\xff"}
WRITES = ("open", "replace", "rename", "link", "fsync", "mkdir", "unlink", "rmdir")
"""What changes a folder or waits for the disc, by its name in ``os``."""


@pytest.fixture(autouse=True)
def quick_disc(monkeypatch):
    """Waiting for the disc takes most of the time, and no test here pulls the plug."""
    monkeypatch.setattr(os, "fsync", lambda descriptor: None)


def file_one(folder, source, content=RECORD, prefix="SW"):
    with held(folder) as it:
        number = it.claim_next(prefix, source)
        it.put(number, source, content)
    return number


def refile(folder, number, source, content):
    with held(folder) as it:
        it.claim_own(number, source, replace=True, file=Path("elsewhere.yaml"))
        it.put(number, source, content)


def seen(folder):
    """Everything in a folder that is not hidden: path -> bytes."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not any(p.startswith(".") for p in path.relative_to(folder).parts)
    }


def within(number, content):
    return {f"{number}/{name}": data for name, data in content.items()}


def die_at(step, work):
    """Do ``work`` in a process that is gone at its ``step``-th write, without any cleaning up.

    True if it was: False if it came to its end before."""
    child = os.fork()
    if not child:
        left = [step]

        def dying(real):
            def call(*given, **more):
                left[0] -= 1
                if not left[0]:
                    os._exit(9)
                return real(*given, **more)

            return call

        for name in WRITES:
            setattr(os, name, dying(getattr(os, name)))
        try:
            work()
        except BaseException:
            os._exit(7)
        os._exit(0)
    code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    assert code in (0, 9), code
    return code == 9


def test_numbers_follow_each_other_and_are_never_given_again(tmp_path):
    assert [file_one(tmp_path, bytes([i])) for i in range(3)] == ["SW-0001", "SW-0002", "SW-0003"]
    shutil.rmtree(tmp_path / "SW-0003")
    assert file_one(tmp_path, b"new") == "SW-0004"
    assert file_one(tmp_path, b"other row", prefix="LH") == "LH-0001"
    assert file_one(tmp_path, b"no prefix", prefix="") == "0001"


def test_numbers_go_on_where_the_claims_were_lost(tmp_path):
    file_one(tmp_path, b"a")
    file_one(tmp_path, b"b")
    shutil.rmtree(tmp_path / shelf.CLAIMS)
    (tmp_path / "by-hand.yaml").write_text('piece: x\nnumber: "SW-0041"  # from the old book\n')
    assert file_one(tmp_path, b"c") == "SW-0042"


BY_HAND = {
    "plain": ("a.yaml", b"piece: x\nnumber: SW-0041\n"),
    "first, behind a mark": ("a.yaml", b"\xef\xbb\xbfnumber: SW-0041\r\npiece: x\r\n"),
    "key in quotes": ("deep/er/a.yml", b"piece: x\n\"number\" : 'SW-0041'  # by hand\n"),
    "small letters": ("a.yaml", b"piece: x\nnumber:   sw-41 # old book\n"),
    "in braces": ("a.yaml", b"{piece: x, number: SW-0041, form: cord}"),
    "lines of an old Mac": ("a.yaml", b"piece: x\rnumber: SW-041\rform: cord\r"),
    "a scan of paper": ("scans/SW-0041.pdf", b"%PDF-1.4 a scan"),
    "a folder alone": ("SW-0041/letter.txt", b"laid there"),
}


@pytest.mark.parametrize("way", BY_HAND)
def test_what_was_filed_by_hand_keeps_its_number(tmp_path, way):
    name, data = BY_HAND[way]
    (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
    (tmp_path / name).write_bytes(data)
    assert file_one(tmp_path, b"new") == "SW-0042"
    assert (tmp_path / name).read_bytes() == data


@pytest.mark.parametrize("way", ["plain", "key in quotes", "small letters", "in braces"])
def test_a_number_by_hand_is_taken_however_it_is_written(tmp_path, way):
    name, data = BY_HAND[way]
    (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
    (tmp_path / name).write_bytes(data.replace(b"sw-41", b"sw-0041"))
    with held(tmp_path) as it, pytest.raises(TakenError):
        it.claim_own("SW-0041", b"new", replace=False, file=tmp_path / "elsewhere.yaml")


def test_numbers_that_are_none_do_not_move_the_row(tmp_path):
    """A photograph and a remark within a text."""
    (tmp_path / "old").mkdir()
    (tmp_path / "old" / "0457.jpg").write_bytes(b"\xff\xd8")
    (tmp_path / "old" / "a.yaml").write_bytes(b"piece: x\nnotes: |\n  number: 0099\n")
    assert file_one(tmp_path, b"new", prefix="") == "0001"


def test_replacing_keeps_all_that_was_laid_beside(tmp_path):
    """Hidden files and links too, in folders of any depth."""
    file_one(tmp_path, b"first")
    place = tmp_path / "SW-0001"
    deep = place.joinpath(*"abcdefghijklmnopqrst")
    deep.mkdir(parents=True)
    for file in (place / ".remarks", deep / "letter.txt"):
        file.write_bytes(b"kept")
    (place / "finds").symlink_to(tmp_path)
    refile(tmp_path, "SW-0001", b"second", {"SW.yaml": b"piece: y\n"})
    assert (place / "SW.yaml").read_bytes() == b"piece: y\n"
    assert (place / ".remarks").read_bytes() == (deep / "letter.txt").read_bytes() == b"kept"
    assert (place / "finds").readlink() == tmp_path


def test_a_crash_at_any_write_leaves_the_record_out_or_leaves_it_whole(tmp_path):
    """Then filing it again gives it the same number and leaves nothing over."""
    step = 0
    while True:
        step += 1
        folder = tmp_path / str(step)
        file_one(folder, b"first")
        before = seen(folder)
        died = die_at(step, lambda folder=folder: file_one(folder, b"second"))
        whole = before | within("SW-0002", RECORD)
        assert seen(folder) in (before, whole), step
        with held(folder) as it:
            number = it.filed_as(b"second")
        if number is None:
            number = file_one(folder, b"second")
        assert number == "SW-0002", step
        assert seen(folder) == whole
        assert sorted(p.name for p in (folder / shelf.CLAIMS).iterdir()) == [
            ".lock", "sw-0001", "sw-0002",
        ]  # fmt: skip
        if not died:
            break
    assert step > 15  # three files, a claim, a renaming: each of several writes


def test_a_crash_while_replacing_leaves_the_old_or_the_new(tmp_path):
    """What stands there the next time the shelf is held is one of them, whole."""
    new = {"SW.yaml": b"piece: y\n", "SW.pdf": b"%PDF-1.7 new"}
    step = 0
    while True:
        step += 1
        folder = tmp_path / str(step)
        file_one(folder, b"first")
        (folder / "SW-0001" / "letter.txt").write_bytes(b"laid beside it")
        old = seen(folder)
        after = old | within("SW-0001", new)
        died = die_at(step, lambda folder=folder: refile(folder, "SW-0001", b"second", new))
        with held(folder):
            pass
        assert seen(folder) in (old, after), step
        if not died:
            assert seen(folder) == after
            break
    assert step > 15


def test_a_full_disc_leaves_all_as_it_was(tmp_path, monkeypatch):
    file_one(tmp_path, b"first")
    before = seen(tmp_path)

    def full(path, data):
        raise OSError(28, "full")

    with monkeypatch.context() as patch:
        patch.setattr(shelf, "write_whole", full)
        with pytest.raises(OSError, match="full"):
            file_one(tmp_path, b"second")
    assert seen(tmp_path) == before
    assert file_one(tmp_path, b"second") == "SW-0002"
    assert files.write_whole is not full


def _file_some(folder, first, many, numbers):
    for i in range(many):
        numbers.put(file_one(folder, f"{first}-{i}".encode()))


@pytest.mark.parametrize("locked", [True, False])
def test_many_at_once_get_different_numbers(tmp_path, monkeypatch, locked):
    """Without locks, too, as on some network discs: a claim can be made only once."""
    if not locked:
        monkeypatch.setattr(locks, "lock", lambda descriptor: False)
    context = multiprocessing.get_context("fork")
    numbers = context.Queue()
    workers = [context.Process(target=_file_some, args=(tmp_path, n, 4, numbers)) for n in range(4)]
    for worker in workers:
        worker.start()
    given = [numbers.get(timeout=60) for _ in range(16)]
    for worker in workers:
        worker.join()
        assert worker.exitcode == 0
    assert len(set(given)) == 16
    assert set(given) == {f"SW-{n:04}" for n in range(1, 17)}
    expected = {}
    for number in given:
        expected |= within(number, RECORD)
    assert seen(tmp_path) == expected


def test_a_number_of_its_own_is_kept_and_not_given_twice(tmp_path):
    with held(tmp_path) as it:
        it.claim_own("1932.4/2", b"a", replace=False, file=tmp_path / "x.yaml")
        place = it.put("1932.4/2", b"a", RECORD)
    assert place.name == "1932.4-2"
    with held(tmp_path) as it, pytest.raises(TakenError) as taken:
        it.claim_own("1932.4/2", b"b", replace=False, file=tmp_path / "y.yaml")
    assert "1932.4-2" in taken.value.where
    with held(tmp_path) as it, pytest.raises(TakenError, match="has its folder"):
        it.claim_own("1932.4:2", b"b", replace=True, file=tmp_path / "y.yaml")


def test_a_number_that_a_description_below_has_is_taken(tmp_path):
    (tmp_path / "old").mkdir()
    (tmp_path / "old" / "x.yaml").write_text("piece: x\nnumber: SW-7\n")
    with held(tmp_path) as it, pytest.raises(TakenError) as taken:
        it.claim_own("SW-7", b"b", replace=True, file=tmp_path / "y.yaml")
    assert taken.value.where.endswith("x.yaml")


@pytest.mark.parametrize("number", ["..", "/etc/passwd", "a/../../b", ".hidden", "\x00", "x" * 300])
def test_no_number_leads_out_of_the_folder(number):
    name = folder_name(number)
    assert name not in ("", ".", "..")
    assert not name.startswith(".")
    assert Path(name).name == name
    assert len(name) <= 100
