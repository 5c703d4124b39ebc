"""Many descriptions printed by one command."""

import pytest

NAMES = ("cord", "loop", "band", "warned", "faulty", "cord", "loop", "band", "cord")


@pytest.fixture
def pieces(piece):
    """More than one process would be worth, one of them with mistakes, in order."""
    return [piece(name, to=f"{i}-{name}.yaml") for i, name in enumerate(NAMES)]


@pytest.mark.parametrize("count", [2, len(NAMES)])
def test_each_sheet_is_what_it_is_alone(run, pieces, tmp_path, count):
    out, alone = tmp_path / "out", tmp_path / "alone.pdf"
    out.mkdir()
    result = run("print", *pieces[:count], "--out", out)
    wanted = [file for file in pieces[:count] if "faulty" not in file.name]
    told = [line.split(":")[0] for line in result.stdout.splitlines()]
    assert told == [f"wrote {out / file.stem}-loom.pdf" for file in wanted], "in their order"
    for file in wanted:
        assert run("print", file, "--out", alone).exit_code == 0
        assert (out / f"{file.stem}-loom.pdf").read_bytes() == alone.read_bytes()


def test_a_mistake_in_one_stops_no_other(run, pieces, tmp_path):
    result = run("print", *pieces)
    assert result.exit_code == 1
    assert "4-faulty.yaml:" in result.stderr
    assert len(list(tmp_path.glob("*-loom.pdf"))) == len(pieces) - 1
    assert not (tmp_path / "4-faulty-loom.pdf").exists()


def test_several_sheets_do_not_go_into_one_file(run, pieces, tmp_path):
    result = run("print", *pieces[:2], "--out", tmp_path / "one.pdf")
    assert (result.exit_code, result.stdout) == (1, "")
    assert "several sheets need a folder" in result.stderr


def test_two_of_one_name_are_not_written_over_each_other(run, pieces, tmp_path):
    other = tmp_path / "other"
    other.mkdir()
    twin = other / pieces[0].name
    twin.write_bytes(pieces[0].read_bytes())
    result = run("print", pieces[0], twin, "--out", other)
    assert (result.exit_code, result.stdout) == (1, "")
    assert "[same-name]" in result.stderr
    assert not list(other.glob("*.pdf"))


def test_one_sheet_may_go_into_a_folder(run, pieces, tmp_path):
    out = tmp_path / "out"
    out.mkdir()
    assert run("print", pieces[0], "--out", out).exit_code == 0
    assert [file.name for file in out.iterdir()] == ["0-cord-loom.pdf"]
