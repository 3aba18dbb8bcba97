import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from daterun.checks.catalogue import check_catalogue
from daterun.exchange import placing
from daterun.exchange.add import prepare, write
from daterun.exchange.coinfile import read_text, write_coin
from daterun.problems import CannotContinue
from daterun.records.catalogue import read_catalogue

AIM = """title: Cabinet
currency: VKR
aims:
  - {id: good, name: Very Fine or better, series: [ort], at least: VF20, problems: refused}
"""


@pytest.fixture
def folder(catalogue_folder, coin):
    return catalogue_folder(
        {
            "content/catalogue.yaml": AIM,
            "content/coins/ort/1891.md": coin("1891", "grade: F12"),
        }
    )


def prepared(folder, series, date, **rest):
    return prepare(folder, read_catalogue(folder)[0], series, date, **rest)


def test_a_new_coin_reads_back_with_all_that_was_said(folder):
    values = {
        "grade": "VF30",
        "weight": "8.97 g",
        "problem": ["cleaned", "rim filed"],
        "acquired": {"on": "2024-02-11", "from": "A: B, \"C\"", "price": "45.00 VKR"},
    }  # fmt: skip
    new = prepared(folder, "ort", "1897", values=values, notes="Dark.")
    assert new.problems == ()
    assert write(folder, new) == ("content/coins/ort/1897.md",)
    catalogue, problems = read_catalogue(folder)
    assert [*problems, *check_catalogue(catalogue, None)] == []
    coin = catalogue.coin("ort/1897")
    assert (str(coin.grade), coin.problems, coin.notes) == ("VF30", ("cleaned", "rim filed"), "Dark.\n")
    assert (coin.acquired.source, str(coin.acquired.price)) == ('A: B, "C"', "45.00 VKR")


def test_fields_stand_in_order_and_what_is_known_of_the_date_in_comments(folder):
    new = prepared(
        folder, "ort", "1899", values={"weight": "9 g", "variety": ["old-spelling"], "grade": "VF20"}
    )
    lines = new.text.splitlines()
    keys = [line.partition(":")[0] for line in lines if line and line[0] not in "#-"]
    assert keys == ["series", "date", "variety", "grade", "weight"]
    assert any(line.startswith("# Variety of 1899: old-spelling") for line in lines)
    assert any(line.startswith("# Standard of 1899: silver .750, 9.000 g") for line in lines)
    assert lines.index("variety: [old-spelling]") > lines.index("date: 1899")


def test_a_coin_says_what_it_does_for_series_and_aims(folder):
    def gains(date, grade, **more):
        return prepared(folder, "ort", date, values={"grade": grade, **more}).gains

    assert gains("1897", "VF30") == (
        "fills a gap in Ort: 1897",
        "fills a gap in the aim “Very Fine or better”: 1897",
    )
    assert gains("1891", "EF40") == (
        "better than the piece held in Ort: ort/1891 (F12) is spare now",
        "fills 1891 in the aim “Very Fine or better”, for which ort/1891 (F12) was not good enough",
    )
    assert gains("1891", "G4") == (
        "spare in Ort: ort/1891 (F12) fills 1891 as well or better",
        "spare in the aim “Very Fine or better”: ort/1891 (F12) fills 1891 as well or better",
    )
    assert gains("1897", "F12")[1] == (
        "1897 in the aim “Very Fine or better” is there now, but below what is asked for"
    )


def test_an_id_that_is_taken_is_passed_over(folder):
    assert prepared(folder, "ort", "1891", values={}).id == "ort/1891-2"
    with pytest.raises(CannotContinue, match="is there already"):
        prepared(folder, "ort", "1891", values={}, coin_id="ort/1891")


def test_ids_name_what_sets_a_coin_apart(folder):
    new = prepared(folder, "ort", "1899", values={"variety": ["old-spelling"], "strike": "proof"})
    assert new.id == "ort/1899-old-spelling-proof"


def test_a_date_with_a_choice_is_no_sound_coin_until_it_is_said(folder):
    new = prepared(folder, "ort", "1902", values={})
    assert [each.rule for each in new.problems] == ["mint not said"]
    assert not new.is_sound


def test_photos_are_copied_and_not_moved(folder, tmp_path):
    photo = tmp_path / "0412.JPG"
    photo.write_bytes(b"a photo")
    new = prepared(folder, "ort", "1897", values={}, photos={"obverse": photo})
    assert write(folder, new) == ("content/coins/ort/1897.md", "content/photos/ort/1897.obverse.jpg")
    assert photo.read_bytes() == (folder / "content/photos/ort/1897.obverse.jpg").read_bytes() == b"a photo"


def test_a_photo_that_is_not_there_or_no_photo_is_told(folder, tmp_path):
    with pytest.raises(CannotContinue, match="there is no photo"):
        prepared(folder, "ort", "1897", values={}, photos={"obverse": tmp_path / "none.jpg"})
    with pytest.raises(CannotContinue, match="is no photo"):
        prepared(folder, "ort", "1897", values={}, photos={"obverse": tmp_path / "letter.doc"})


def test_where_a_photo_is_in_the_way_nothing_is_written(folder, tmp_path):
    photo = tmp_path / "a.jpg"
    photo.write_bytes(b"new")
    there = folder / "content/photos/ort/1897.obverse.jpg"
    there.parent.mkdir(parents=True)
    there.write_bytes(b"old")
    new = prepared(folder, "ort", "1897", values={}, photos={"obverse": photo})
    with pytest.raises(CannotContinue, match="nothing is written over"):
        write(folder, new)
    assert there.read_bytes() == b"old"
    assert not (folder / "content/coins/ort/1897.md").exists()


def test_a_file_is_never_written_over_even_where_the_disk_knows_no_links(tmp_path, monkeypatch):
    def refuse(*_):
        raise OSError("no links here")

    monkeypatch.setattr(placing.os, "link", refuse)
    placing.place_new(tmp_path / "a", b"one")
    with pytest.raises(CannotContinue, match="nothing is written over"):
        placing.place_new(tmp_path / "a", b"two")
    assert [each.name for each in tmp_path.iterdir()] == ["a"]
    assert (tmp_path / "a").read_bytes() == b"one"


@pytest.mark.parametrize(
    ("series", "date", "said"),
    [
        ("otr", "1891", 'there is no series "otr"; did you mean "ort"?'),
        ("vesmark/ort", "1891", 'there is no series "vesmark/ort"; did you mean "vessmark/ort"?'),
        ("ort", "189", "a year has four figures"),
    ],
)
def test_a_series_or_date_that_is_none_is_told(folder, series, date, said):
    with pytest.raises(CannotContinue, match=said):
        prepared(folder, series, date, values={})


def test_a_series_can_be_called_by_its_face_value_and_is_written_by_its_name(folder):
    new = prepared(folder, "1 ort", "1897", values={})
    assert new.id == "ort/1897"
    assert "\nseries: ort\n" in new.text


def test_a_misspelt_series_is_told_in_the_words_of_the_check(catalogue_folder):
    folder = catalogue_folder({"content/coins/a.md": "---\nseries: otr\ndate: 1891\n---\n"})
    catalogue, _ = read_catalogue(folder)
    (found,) = [each for each in check_catalogue(catalogue, None) if each.rule == "unknown series"]
    with pytest.raises(CannotContinue) as caught:
        prepared(folder, "otr", "1891", values={})
    assert str(caught.value) == f"{found.sentence}; {found.hint}"


def test_a_series_whose_file_has_errors_is_said_to_have_them(catalogue_folder, base_files):
    text = base_files["content/series/vessmark/ort.yaml"].replace("name: Ort", "nam: Ort")
    folder = catalogue_folder({"content/series/vessmark/ort.yaml": text})
    with pytest.raises(CannotContinue, match='the file of the series "ort" has errors; daterun check shows'):
        prepared(folder, "ort", "1891", values={})


TEXT = st.text(
    st.characters(blacklist_categories=("Cs",), blacklist_characters="\ue000"), min_size=1, max_size=30
)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(kept=TEXT, notes=TEXT, problem=st.lists(TEXT, min_size=1, max_size=3))
def test_any_text_reads_back_the_same_but_for_spaces(folder, kept, notes, problem):
    catalogue, _ = read_catalogue(folder)
    text = write_coin({"series": "ort", "date": "1891", "kept": kept, "problem": problem}, notes)
    coin = read_text("a", text, catalogue).coin
    assert coin.kept == " ".join(kept.split())
    assert coin.problems == tuple(" ".join(each.split()) for each in problem)
    assert coin.notes == (notes if notes.endswith("\n") else f"{notes}\n")
