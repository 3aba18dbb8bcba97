import pytest

from daterun.press.kept import fetch, keep


def test_what_is_kept_is_given_back(tmp_path):
    keep(tmp_path / "new/a", b"some bytes")
    assert fetch(tmp_path / "new/a") == b"some bytes"
    assert [each.name for each in (tmp_path / "new").iterdir()] == ["a"]


@pytest.mark.parametrize("spoil", [lambda data: data[:-1], lambda data: b"", lambda data: b"x" + data[1:]])
def test_what_is_not_as_it_was_counts_as_nothing(tmp_path, spoil):
    keep(tmp_path / "a", b"some bytes")
    (tmp_path / "a").write_bytes(spoil((tmp_path / "a").read_bytes()))
    assert fetch(tmp_path / "a") is None


def test_what_was_never_kept_is_nothing(tmp_path):
    assert fetch(tmp_path / "a") is None
