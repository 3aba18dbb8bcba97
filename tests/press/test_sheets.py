from daterun.press import sheets as module
from daterun.press.sheets import Sheets


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
