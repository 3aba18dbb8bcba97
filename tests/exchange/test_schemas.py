import importlib
import pkgutil
import re
from pathlib import Path

import jsonschema
import pytest
import yaml

import daterun.records
from daterun.exchange import schemas
from daterun.exchange.carried import carried_series
from daterun.exchange.schemas import all_schemas, coin_schema, export_schema
from daterun.exchange.start import lay_out
from daterun.records.catalogue import read_catalogue
from daterun.records.fields import Form

ROOT = Path(__file__).parent.parent.parent


@pytest.fixture(scope="module")
def catalogue():
    return read_catalogue(ROOT)[0]


@pytest.fixture(scope="module")
def made(catalogue):
    return all_schemas(catalogue)


def test_every_schema_is_a_sound_one(made):
    for schema in made.values():
        jsonschema.Draft202012Validator.check_schema(schema)
    assert set(made) == {
        f"{name}.schema.json" for name in ("coin", "series", "issuer", "catalogue", "lot", "essay", "export")
    }


class Loader(yaml.SafeLoader):
    """Reads YAML as editors do, by the core schema of its version 1.2: yes, on and days are texts."""


Loader.yaml_implicit_resolvers = {}
for tag, pattern, first in (
    ("null", r"~|null|Null|NULL|", ["~", "n", "N", ""]),
    ("bool", r"true|True|TRUE|false|False|FALSE", list("tTfF")),
    ("int", r"[-+]?[0-9]+", list("-+0123456789")),
    ("float", r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?", list("-+.0123456789")),
):
    Loader.add_implicit_resolver(f"tag:yaml.org,2002:{tag}", re.compile(f"(?:{pattern})$"), first)


def decimal_int(loader, node):
    return int(node.value)


Loader.add_constructor("tag:yaml.org,2002:int", decimal_int)


def text_keys(value):
    if isinstance(value, dict):
        return {str(key): text_keys(each) for key, each in value.items()}
    return [text_keys(each) for each in value] if isinstance(value, list) else value


def judged(schema, text):
    """Say what an editor would mark in a file, or in the front matter of one."""
    matter = text.split("---\n")[1] if text.startswith("---\n") else text
    judge = jsonschema.Draft202012Validator(schema)
    return [each.message[:200] for each in judge.iter_errors(text_keys(yaml.load(matter, Loader)))]


KINDS = {
    "coin": "content/coins/**/*.md",
    "series": "content/series/*/*.yaml",
    "issuer": "content/issuers/*.yaml",
    "catalogue": "content/catalogue.yaml",
    "lot": "content/lots/*.yaml",
    "essay": "content/pages/*.md",
}


def test_every_file_of_the_demo_is_of_a_kind_that_has_a_schema():
    known = {path for files in KINDS.values() for path in ROOT.glob(files)}
    written = {path for path in (ROOT / "content").rglob("*") if path.suffix in (".yaml", ".md")}
    assert written == known


@pytest.mark.parametrize(("schema", "files"), KINDS.items())
def test_the_files_of_the_demo_are_as_the_schemas_say(made, schema, files):
    paths = sorted(ROOT.glob(files))
    assert paths
    for path in paths:
        assert judged(made[f"{schema}.schema.json"], path.read_text(encoding="utf-8")) == [], path


@pytest.mark.parametrize(("schema", "files"), [each for each in KINDS.items() if each[0] != "lot"])
def test_the_files_that_a_start_lays_out_are_as_its_own_schemas_say(tmp_path, schema, files):
    lay_out(tmp_path / "example")
    lay_out(tmp_path / "whole", sorted({each.partition("/")[0] for each in carried_series()}))
    for folder in (tmp_path / "example", tmp_path / "whole"):
        made = all_schemas(read_catalogue(folder)[0])[f"{schema}.schema.json"]
        for path in sorted(folder.glob(files)):
            assert judged(made, path.read_text(encoding="utf-8")) == [], path


@pytest.mark.parametrize(
    ("schema", "text", "marked"),
    [
        ("coin", "series: ort\ndate: 1899\ngade: VF30\n", "'gade' was unexpected"),
        ("coin", "date: 1899\n", "'series' is a required property"),
        ("coin", "series: ort\ndate: 1899\nstrike: prof\n", "'prof' is not one of"),
        ("coin", "series: ort\ndate: 1899\nacquired: {on: 2019, fro: R. Tarn}\n", "'fro' was unexpected"),
        ("coin", "series: ort\ndate: [1899, 1900]\n", "is not valid under any of the given schemas"),
        ("coin", "series: ort\ndate: 1899\nphotos: {front: a.jpg}\n", "'front' was unexpected"),
        ("series", "name: Ort\nisuer: vessmark\n", "'isuer' was unexpected"),
        ("series", "issuer: vessmark\nface: 1 ort\n", "'name' is a required property"),
        ("series", "name: Ort\nissuer: vessmark\nstandards: [{wieght: 9 g}]\n", "not valid under any"),
        ("series", "name: Ort\nissuer: vessmark\nissues: {struk: {1899: 1}}\n", "'struk' was unexpected"),
        ("issuer", "name: Vessmark\nmints: [K]\n", "['K'] is not of type 'object'"),
        ("issuer", "name: V\nmonarchs: {i: {name: I, reing: {from: 1869}}}\n", "'reing' was unexpected"),
        ("catalogue", "title: A\npicture: {format: jpeg}\n", "'picture' was unexpected"),
        ("catalogue", "title: A\npictures: {format: gif}\n", "'gif' is not one of"),
        ("catalogue", "title: A\ngrading: french\n", "'french' is not one of"),
        ("catalogue", "title: A\nreaders: {keeper: {wants: yes}}\n", "'keeper' was unexpected"),
        ("catalogue", "summary: A\n", "'title' is a required property"),
        ("lot", "share: by weight\n", "is not valid under any of the given schemas"),
        ("lot", "prise: 12 VKR\n", "'prise' was unexpected"),
        ("essay", "titel: On orts\n", "'titel' was unexpected"),
    ],
)
def test_what_is_wrong_in_a_file_is_marked(made, schema, text, marked):
    found = judged(made[f"{schema}.schema.json"], text)
    assert any(marked in each for each in found), found


def test_what_others_are_not_to_judge_is_let_pass(made):
    coin = made["coin.schema.json"]
    assert judged(coin, "series: another\ndate: 18?2\nvariety: a-new-one\ngrade: nearly fine\n") == []
    assert judged(coin, "Notes below the front matter, which an editor takes for a text.\n") == []


def test_a_misspelt_key_and_a_word_that_is_none_are_marked(made):
    judge = jsonschema.Draft202012Validator(made["coin.schema.json"])
    assert not judge.is_valid({"series": "ort", "date": 1899, "gade": "VF"})
    assert not judge.is_valid({"series": "ort", "date": 1899, "strike": "prof"})
    assert not judge.is_valid({"series": "ort"})
    assert judge.is_valid({"series": "ort", "date": 1899, "grade": "VF"})


def offered(schema):
    return next(each["enum"] for each in schema["anyOf"] if "enum" in each)


def test_an_editor_is_offered_the_series_and_what_each_of_them_has(catalogue):
    schema = coin_schema(catalogue)
    assert "ort" in offered(schema["properties"]["series"])
    assert "VF30" in offered(schema["properties"]["grade"]["anyOf"][0]["anyOf"][0])
    of_ort = next(each for each in schema["allOf"] if "ort" in each["if"]["properties"]["series"]["enum"])
    dates = offered(of_ort["then"]["properties"]["date"])
    assert 1899 in dates and "1895-96" in dates and 1898 not in dates
    assert "old-spelling" in offered(of_ort["then"]["properties"]["variety"]["anyOf"][0])


def test_every_table_of_fields_is_in_some_schema(monkeypatch, catalogue):
    seen = set()
    make = schemas.schema_of

    def remember(form, *offered):
        seen.add(form.name)
        return make(form, *offered)

    monkeypatch.setattr(schemas, "schema_of", remember)
    all_schemas(catalogue)
    for info in pkgutil.iter_modules(daterun.records.__path__):
        for name, value in vars(importlib.import_module(f"daterun.records.{info.name}")).items():
            if isinstance(value, Form) and not name.startswith("_"):
                assert value.name in seen, f"{info.name}.{name}"


def test_the_schema_of_the_export_knows_no_catalogue():
    assert "allOf" not in export_schema()["properties"]["coins"]["items"]
