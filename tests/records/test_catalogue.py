"""A whole catalogue folder is read at once, with every problem met on the way."""

import pytest

from daterun.problems import CannotContinue
from daterun.records.catalogue import read_catalogue


def series(issuer="vessmark"):
    return f"name: Ort\nissuer: {issuer}\nissues: {{struck: {{1899: 1}}}}\n"


def test_a_folder_without_content_is_no_catalogue(tmp_path):
    with pytest.raises(CannotContinue, match="it has no folder named content"):
        read_catalogue(tmp_path)


def test_a_folder_without_its_settings_is_no_catalogue(tmp_path):
    (tmp_path / "content").mkdir()
    with pytest.raises(CannotContinue, match=r"content/catalogue\.yaml is not there"):
        read_catalogue(tmp_path)


def test_a_series_is_found_by_its_short_id_while_that_is_unique(read):
    catalogue, _ = read(
        {"series/norvik/ort.yaml": series("norvik"), "series/norvik/mark.yaml": series("norvik")}
    )
    assert catalogue.find_series("norvik/ort").key == "norvik/ort"
    assert catalogue.find_series("mark").key == "norvik/mark"
    assert catalogue.find_series("ort") is None
    assert catalogue.find_series("daler") is None


def test_a_series_in_the_folder_of_another_issuer_is_a_problem_and_goes_by_its_word(read):
    catalogue, (problem,) = read({"series/norvik/mark.yaml": series("vessmark")})
    assert problem.sentence == 'the series says issuer "vessmark" but lies in "series/norvik"'
    assert (problem.rule, problem.place.line, problem.place.column) == ("issuer", 2, 9)
    assert "vessmark/mark" in catalogue.series


def test_coins_are_sorted_by_id_and_found_by_it(read):
    text = "---\nseries: ort\ndate: 1899\n---\n"
    catalogue, _ = read({f"coins/{name}.md": text for name in ("b", "ort/1899", "a")})
    assert [each.id for each in catalogue.coins] == ["a", "b", "ort/1899"]
    assert catalogue.coin("ort/1899").path == "content/coins/ort/1899.md"
    assert catalogue.coin("c") is None


def test_one_bad_file_hides_no_other(read):
    files = {
        "coins/a.md": b"---\nseries: ort\ndate: \xff\n---\n",
        "coins/b.md": "no front matter",
        "coins/c.md": "---\nseries: [\n---\n",
        "coins/d.md": "---\n---\n",
        "coins/e.md": "---\nseries: ort\ndate: 1899\n---\n",
        "coins/f.md": "",
        "lots/x.yaml": "a: b: c\n",
    }
    catalogue, problems = read(files)
    assert [each.id for each in catalogue.coins] == ["e"]
    assert {each.place.path.removeprefix("content/") for each in problems} == set(files) - {"coins/e.md"}
    assert catalogue.broken == {f"content/{each}" for each in files if each != "coins/e.md"}


def test_front_matter_of_nothing_misses_what_is_required(problems_of):
    assert problems_of({"coins/d.md": "---\n---\nSharp.\n"}) == [
        'coins/d.md:2:1: a coin needs "series": the short id of its series [missing field]',
        'coins/d.md:2:1: a coin needs "date": the date on the coin [missing field]',
    ]


@pytest.mark.parametrize("ends", ["\r\n", "\r"])
def test_a_file_saved_on_another_system_reads_alike(read, ends):
    text = "---\nseries: ort\ndate: 1899\nkept: here\n---\nSharp.\nWorn.\n"
    files = {"coins/a.md": text, "coins/b.md": b"\xef\xbb\xbf" + text.replace("\n", ends).encode()}
    catalogue, problems = read(files)
    first, second = catalogue.coins
    assert problems == []
    assert (first.kept, first.notes, first.notes_line) == (second.kept, second.notes, second.notes_line)
    assert second.notes == "Sharp.\nWorn.\n"


def test_a_place_in_front_matter_counts_from_the_top_of_the_file(problems_of):
    assert problems_of({"coins/a.md": "---\nseries: ort\ndate: 1899\ngrade: MS-72\n---\n"}) == [
        'coins/a.md:4:8: grade "MS-72" is above the top of the 70-point scale [grade]'
    ]
    assert problems_of({"coins/a.md": "---\nseries: ort\ndate: 1899\ndesign: Weak: bold\n---\n"}) == [
        "coins/a.md:4:13: a colon stands here where a text goes on [yaml]"
    ]


def test_a_coin_of_no_known_series_is_read_all_the_same(read):
    catalogue, problems = read({"coins/a.md": "---\nseries: daler\ndate: 1899\n---\n"})
    assert problems == []
    assert catalogue.coins[0].series == "daler"


def test_a_folder_that_is_not_there_is_said_so(tmp_path):
    with pytest.raises(CannotContinue, match=r"there is no folder .*nowhere"):
        read_catalogue(tmp_path / "nowhere")
