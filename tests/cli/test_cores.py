"""The same work on many things, on every core: in order, and as one core would do it."""

import os

import pytest

from sheetgen.cli import cores, records
from sheetgen.cli.cores import spread

PIECE = """piece: Cord {n} (invented)
number: T-{n}
form: cord
length: {long} cm
yarns: {{madder: {{fibre: wool, count: 20/2 Nm, preparation: worsted}}}}
tablets: 6
"""


def squared(n):
    if n == 13:
        raise ValueError(f"13 in {os.getpid()}")
    return n * n, os.getpid()


@pytest.fixture
def two_cores(monkeypatch):
    monkeypatch.setattr(cores.os, "cpu_count", lambda: 2)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="one core does all")
def test_what_comes_of_each_comes_in_order_from_more_than_one_process(two_cores):
    with spread(range(100, 140), squared) as each:
        found = list(each)
    assert [square for square, _ in found] == [n * n for n in range(100, 140)]
    assert found[0][1] == os.getpid()
    assert {process for _, process in found} - {os.getpid()}


def test_few_things_are_done_here(two_cores):
    with spread(range(5), squared) as each:
        assert {process for _, process in each} == {os.getpid()}


def test_a_bug_in_another_process_is_not_hidden(two_cores):
    with pytest.raises(ValueError, match="13 in"), spread(range(30), squared) as each:
        list(each)


def test_a_register_is_the_same_on_one_core_and_on_two(two_cores, tmp_path, monkeypatch):
    for n in range(30):
        (tmp_path / f"{n}.yaml").write_text(PIECE.format(n=n % 29, long=20 + n), "utf-8")
    (tmp_path / "torn.yaml").write_text("piece: x\nform: kord\n", "utf-8")
    (tmp_path / "again.yaml").write_bytes((tmp_path / "3.yaml").read_bytes())
    monkeypatch.setattr(records, "FEW", 4)
    several = records.records_below(tmp_path)
    monkeypatch.setattr(cores.os, "cpu_count", lambda: 1)
    assert several == records.records_below(tmp_path)
    assert (len(several.rows), several.copies, len(several.unread)) == (30, 1, 1)
    assert list(several.twice) == ["T-0"]
