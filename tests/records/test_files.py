"""The files of a catalogue folder are found, and read with care."""

import os
import sys

import pytest

from daterun.problems import Place, Problem
from daterun.records.files import LARGEST_TEXT, fold_name, list_files, read_text

POSIX = pytest.mark.skipif(sys.platform == "win32", reason="this system has no such names or links")


@pytest.fixture
def folder(tmp_path):
    def filled(*names):
        for name in names:
            path = tmp_path / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(b"")
        return tmp_path

    return filled


def said(problems):
    return [(each.place.path, each.sentence) for each in problems]


def text_of(tmp_path, data):
    (tmp_path / "a.md").write_bytes(data)
    return read_text(tmp_path, "a.md")


def test_files_are_listed_by_path_with_forward_slashes_in_order(folder):
    root = folder(
        "content/coins/ort/1899.md", "content/coins/b.md", "content/coins/a/z.MD", "content/lots/x.yaml"
    )
    assert list_files(root, "content/coins", ".md") == (
        ["content/coins/a/z.MD", "content/coins/b.md", "content/coins/ort/1899.md"],
        [],
    )


def test_a_folder_that_is_not_there_has_no_files(folder):
    assert list_files(folder(), "content/lots", ".yaml") == ([], [])


def test_hidden_files_and_folders_are_passed_over(folder):
    root = folder("content/coins/.a.md", "content/coins/.git/b.md", "content/coins/c.md")
    assert list_files(root, "content/coins", ".md") == (["content/coins/c.md"], [])


@pytest.mark.parametrize(
    ("name", "suffix", "better"),
    [("ort.yml", ".yaml", "ort.yaml"), ("1899.markdown", ".md", "1899.md"), ("1899.txt", ".md", "1899.md")],
)
def test_a_file_that_looks_meant_but_is_not_read_is_a_problem(folder, name, suffix, better):
    found, (problem,) = list_files(folder(f"content/{name}"), "content", suffix)
    assert found == []
    assert problem.sentence == f"this file is not read, for its name does not end in {suffix}"
    assert problem.hint == f"name it {better}"


@pytest.mark.parametrize("pair", [("Ort.md", "ort.md"), ("é.md", "e\u0301.md"), ("ß.md", "ss.md")])
def test_names_that_differ_only_in_case_or_form_are_a_problem(folder, pair):
    root = folder(*(f"content/{name}" for name in pair))
    if len(list(root.joinpath("content").iterdir())) < 2:
        pytest.skip("this file system takes the two for one")
    found, (problem,) = list_files(root, "content", ".md")
    assert len(found) == 2
    assert problem.rule == "same name"
    assert {problem.place.path, problem.others[0].path} == {f"content/{name}" for name in pair}


def test_names_fold_alike_in_any_case_and_form():
    assert fold_name("Ö/Ort") == fold_name("o\u0308/ORT")
    assert fold_name("ort") != fold_name("orts")


@POSIX
def test_a_name_that_is_not_text_is_a_problem(folder):
    root = folder("content/b.md")
    try:
        (root / "content" / os.fsdecode(b"a\xff.md")).write_bytes(b"")
    except OSError:
        pytest.skip("this file system takes only names that are text")
    (root / "content" / "new\nline.md").write_bytes(b"")
    found, problems = list_files(root, "content", ".md")
    assert found == ["content/b.md"]
    assert said(problems) == [
        ("content/a?.md", "the name of this file is not text"),
        ("content/new\nline.md", "the name of this file is not text"),
    ]


@POSIX
def test_links_that_lead_out_of_the_folder_are_not_read(folder, tmp_path_factory):
    secret = tmp_path_factory.mktemp("elsewhere") / "secret.md"
    secret.write_text("secret")
    root = folder("content/coins/a.md")
    (root / "content/coins/out.md").symlink_to(secret)
    (root / "content/coins/in.md").symlink_to(root / "content/coins/a.md")
    (root / "content/coins/folder").symlink_to(secret.parent)
    (root / "content/coins/ring.md").symlink_to(root / "content/coins/ring.md")
    found, problems = list_files(root, "content/coins", ".md")
    assert found == ["content/coins/a.md", "content/coins/in.md", "content/coins/ring.md"]
    assert said(problems) == [
        ("content/coins/folder", "a link to a folder is not followed"),
        ("content/coins/out.md", "this link leads out of the catalogue folder"),
    ]
    assert isinstance(read_text(root, "content/coins/ring.md"), Problem)


@POSIX
@pytest.mark.skipif(hasattr(os, "geteuid") and os.geteuid() == 0, reason="nothing is closed to root")
def test_a_folder_that_cannot_be_read_is_a_problem(folder):
    root = folder("content/coins/a/b.md")
    closed = root / "content/coins/a"
    closed.chmod(0)
    try:
        assert said(list_files(root, "content/coins", ".md")[1]) == [
            ("content/coins/a", "this folder cannot be read: Permission denied")
        ]
    finally:
        closed.chmod(0o755)


@pytest.mark.parametrize(
    "data", [b"a\nb\n", b"a\r\nb\r\n", b"a\rb\r", b"\xef\xbb\xbfa\nb\n", b"\xef\xbb\xbfa\r\nb\n"]
)
def test_line_ends_of_any_kind_and_a_byte_order_mark_are_read_alike(tmp_path, data):
    assert text_of(tmp_path, data) == "a\nb\n"


@pytest.mark.parametrize(
    ("data", "line", "column"),
    [
        (b"a\nkept: \xe9tui\n", 2, 7),
        (b"\xef\xbb\xbfa\r\n\xc3\xa9\xff", 2, 2),
        (b"\xff\xfea\x00", 1, 1),
    ],
)
def test_a_file_that_is_not_utf8_is_a_problem_at_the_letter_where_it_shows(tmp_path, data, line, column):
    problem = text_of(tmp_path, data)
    assert problem.sentence == "this file is not UTF-8 text from here on"
    assert problem.rule == "encoding"
    assert problem.place == Place("a.md", line, column, 1)


def test_a_nul_byte_is_a_problem_where_it_stands(tmp_path):
    problem = text_of(tmp_path, b"a\r\nb\x00c")
    assert problem.sentence == "a NUL byte stands here, which no text holds"
    assert problem.place == Place("a.md", 2, 2, 1)


def test_a_file_of_five_megabytes_is_not_a_text_of_a_catalogue(tmp_path):
    problem = text_of(tmp_path, b"x" * 5_000_000)
    assert problem.sentence == "this file holds 5,000,000 bytes, too many for a text of a catalogue"
    assert text_of(tmp_path, b"x" * LARGEST_TEXT) == "x" * LARGEST_TEXT


def test_what_is_no_file_is_not_read(tmp_path):
    (tmp_path / "folder.md").mkdir()
    assert read_text(tmp_path, "folder.md").sentence == "this is not a file that can be read"


def test_a_file_that_is_gone_is_a_problem(tmp_path):
    assert read_text(tmp_path, "gone.md").sentence == "this file cannot be read: No such file or directory"
