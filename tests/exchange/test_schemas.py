import importlib
import pkgutil
from pathlib import Path

import jsonschema
import pytest
import yaml

import daterun.records
from daterun.exchange import schemas
from daterun.exchange.schemas import all_schemas, coin_schema, export_schema
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
        f"{name}.schema.json" for name in ("coin", "series", "issuer", "catalogue", "lot", "export")
    }


class Loader(yaml.SafeLoader):
    """Reads YAML as most editors do, by its version 1.2: yes, on and days are texts."""


_OLDER = {"tag:yaml.org,2002:timestamp", "tag:yaml.org,2002:int", "tag:yaml.org,2002:bool"}
Loader.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in found if tag not in _OLDER]
    for first, found in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


def text_keys(value):
    if isinstance(value, dict):
        return {str(key): text_keys(each) for key, each in value.items()}
    return [text_keys(each) for each in value] if isinstance(value, list) else value


@pytest.mark.parametrize(
    ("schema", "files"),
    [
        ("coin", "content/coins/**/*.md"),
        ("series", "content/series/*/*.yaml"),
        ("issuer", "content/issuers/*.yaml"),
        ("catalogue", "content/catalogue.yaml"),
        ("lot", "content/lots/*.yaml"),
    ],
)
def test_the_files_of_the_demo_are_as_the_schemas_say(made, schema, files):
    judge = jsonschema.Draft202012Validator(made[f"{schema}.schema.json"])
    paths = sorted(ROOT.glob(files))
    assert paths
    for path in paths:
        text = path.read_text(encoding="utf-8")
        matter = text.split("---\n")[1] if path.suffix == ".md" else text
        found = [each.message[:200] for each in judge.iter_errors(text_keys(yaml.load(matter, Loader)))]
        assert found == [], path


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
            if isinstance(value, Form) and not name.startswith("_") and name != "ESSAY":
                assert value.name in seen, f"{info.name}.{name}"


def test_the_schema_of_the_export_knows_no_catalogue():
    assert "allOf" not in export_schema()["properties"]["coins"]["items"]
