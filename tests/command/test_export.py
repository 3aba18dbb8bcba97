"""Everything taken out as it is typed: forms, readers, photos, and nothing private for others."""

import json

import pytest
from PIL import Image

from daterun.command.main import main


def run(capfdbinary, *arguments):
    code = main([str(each) for each in arguments])
    said = capfdbinary.readouterr()
    return code, said.out.decode("utf-8"), said.err.decode("utf-8")


@pytest.fixture
def folder(catalogue_folder, coin):
    made = catalogue_folder(
        {
            "content/coins/ort/1891.md": coin(
                "1891", "grade: VF30", "acquired: {on: 2019-04-03, from: Robin Tarnowen}", notes="Sharp."
            ),
        }
    )
    photo = made / "content/photos/ort/1891.obverse.jpg"
    photo.parent.mkdir(parents=True)
    exif = Image.Exif()
    exif[0x010F] = "A camera of my own"
    Image.new("RGB", (90, 80), "tan").save(photo, exif=exif)
    return made


def test_an_export_is_printed_unless_a_file_is_named(capfdbinary, folder, tmp_path):
    code, out, _ = run(capfdbinary, "export", "--folder", folder)
    assert (code, out.replace("\r\n", "\n")) == (
        0,
        "\ufeffid,series,date,grades,notes\nort/1891,ort,1891,[{grade: VF30}],Sharp.\n",
    )
    target = tmp_path / "out.csv"
    assert run(capfdbinary, "export", "--folder", folder, "--output", target)[0] == 0
    assert target.read_bytes().decode("utf-8") == out


def test_an_export_writes_over_no_file(capfdbinary, folder, tmp_path):
    target = tmp_path / "out.csv"
    target.write_text("mine")
    code, _, err = run(capfdbinary, "export", "--folder", folder, "--output", target)
    assert code == 2
    assert "nothing is written over" in err
    assert target.read_text() == "mine"


def test_the_keepers_photos_are_copied_and_those_for_others_made_anew(capfdbinary, folder, tmp_path):
    mine, theirs = tmp_path / "mine", tmp_path / "theirs"
    for reader, photos in (("keeper", mine), ("public", theirs)):
        target = tmp_path / f"{reader}.json"
        options = ("--for", reader, "--as", "json", "--output", target, "--photos", photos)
        assert run(capfdbinary, "export", "--folder", folder, *options)[0] == 0
    original = (folder / "content/photos/ort/1891.obverse.jpg").read_bytes()
    assert (mine / "ort/1891.obverse.jpg").read_bytes() == original
    assert b"A camera of my own" in original
    assert b"A camera of my own" not in (theirs / "ort/1891/obverse.jpeg").read_bytes()
    told = json.loads((tmp_path / "public.json").read_text(encoding="utf-8"))
    assert told["coins"][0]["pictures"] == {"obverse": "theirs/ort/1891/obverse.jpeg"}


def test_photos_go_into_a_new_folder(capfdbinary, folder, tmp_path):
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "a.txt").write_text("mine")
    code, _, err = run(capfdbinary, "export", "--folder", folder, "--photos", tmp_path / "photos")
    assert code == 2
    assert "is in use" in err


def test_a_private_value_in_what_others_see_stops_the_export(capfdbinary, folder, tmp_path):
    path = folder / "content/coins/ort/1891.md"
    path.write_text(path.read_text(encoding="utf-8") + "Sold to me by Robin Tarnowen.\n", encoding="utf-8")
    target = tmp_path / "out.json"
    code, _, err = run(capfdbinary, "export", "--folder", folder, "--as", "json", "--output", target)
    assert code == 1
    assert 'would tell "Robin Tarnowen", which is private' in err
    assert err.endswith("Nothing was written.\n")
    assert not target.exists()
    assert run(capfdbinary, "export", "--folder", folder, "--for", "keeper", "--output", target)[0] == 0


def test_the_keepers_export_is_kept_out_of_what_is_published(capfdbinary, folder):
    assert run(capfdbinary, "build", "--folder", folder)[0] == 0
    target = folder / "output/public/all.csv"
    code, _, err = run(capfdbinary, "export", "--folder", folder, "--for", "keeper", "--output", target)
    assert code == 2
    assert "another reader's edition" in err
    assert not target.exists()


def test_the_schema_of_json_can_be_had(capfdbinary, folder):
    code, out, _ = run(capfdbinary, "export", "--folder", folder, "--as", "schema")
    assert code == 0
    assert json.loads(out)["properties"]["format"] == {"const": "daterun catalogue"}


def test_linked_data_can_be_had(capfdbinary, folder):
    _, out, _ = run(capfdbinary, "export", "--folder", folder, "--as", "json-ld")
    assert json.loads(out)["hasPart"][0]["name"] == "Ort, Kingdom of Vessmark, 1891"


def test_what_could_not_be_read_is_said_to_be_missing(capfdbinary, folder):
    (folder / "content/coins/ort/1892.md").write_text("---\nseries: ort\n---\n", encoding="utf-8")
    code, out, err = run(capfdbinary, "export", "--folder", folder)
    assert code == 1
    assert "ort/1891" in out
    assert "What could not be read is not in the export" in err


def test_the_schemas_for_editors_are_written_on_demand(capfdbinary, folder):
    code, _, err = run(capfdbinary, "check", "--folder", folder, "--schemas")
    assert code == 0
    assert "Wrote the schemas for editors into" in err
    schema = json.loads((folder / ".daterun/schemas/coin.schema.json").read_text(encoding="utf-8"))
    assert schema["title"] == "Daterun: coin"
