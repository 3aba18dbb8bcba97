from pathlib import Path

import pytest

from daterun.press import sheets as module
from daterun.press.sheets import Sheets
from daterun.problems import CannotContinue


def test_sheets_wait_in_order_and_can_be_read_twice():
    with Sheets() as sheets:
        sheets.add("b.html", "ø".encode())
        sheets.add("a.html", b"")
        assert len(sheets) == 2
        assert list(sheets) == list(sheets) == [("b.html", "ø".encode()), ("a.html", b"")]


def test_more_than_memory_holds_waits_on_disk(monkeypatch):
    monkeypatch.setattr(module, "_IN_MEMORY", 10)
    with Sheets() as sheets:
        for n in range(5):
            sheets.add(str(n), b"x" * 7)
        assert [data for _, data in sheets] == [b"x" * 7] * 5


def test_a_folder_for_waiting_pages_that_is_full_or_not_there_is_named(monkeypatch, tmp_path):
    monkeypatch.setattr(module, "_IN_MEMORY", 10)
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path / "none"))
    with Sheets() as sheets, pytest.raises(CannotContinue, match="none"):
        sheets.add("a", b"x" * 11)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no full disk to try")
def test_a_page_is_never_cut_short_by_a_full_disk(monkeypatch):
    monkeypatch.setattr(module, "SpooledTemporaryFile", lambda max_size: open("/dev/full", "wb"))  # noqa: SIM115, PTH123
    with pytest.raises(CannotContinue, match="No space"), Sheets() as sheets:
        sheets.add("a", b"x" * 11)
