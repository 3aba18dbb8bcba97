"""JSON Schemas of the catalogue's files, made from the one table of fields, for editors and for programs.

With a catalogue at hand they offer its series, dates, varieties and grades while one types. They offer and do not
judge: what is wrong is for ``daterun check`` to say.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from daterun.records.aims import AIM
from daterun.records.catalogue import Catalogue, find_series
from daterun.records.coins import COIN
from daterun.records.essays import ESSAY
from daterun.records.fields import Field, Form, Kind
from daterun.records.issuers import ISSUER, MONARCH
from daterun.records.lots import LOT
from daterun.records.photographed import CROP, NAMED_PHOTO, PHOTOS
from daterun.records.series import SERIES, STANDARD, Series
from daterun.records.settings import METAL_PRICE, PICTURES, READERS, SETTINGS
from daterun.records.struck import DATE_ISSUE, PART, STRUCK
from daterun.trade.grading import STEPS
from daterun.trade.scales import BRITISH_NAMES

DRAFT = "https://json-schema.org/draft/2020-12/schema"

Schema = dict[str, Any]

SCALAR: Schema = {"type": ["string", "number"]}
"""A value that is read as the text that was typed; other readers of YAML take 1899 for a number."""


def schema_of(form: Form, offered: Mapping[str, Schema] = {}) -> Schema:
    """Make the schema of a record; the offered stand in place of what is known of a field by itself."""
    properties: dict[str, Schema] = {}
    for field in form.fields:
        made = offered.get(field.key) or _of_field(form, field)
        properties[field.key] = {"description": field.about, **made}
        if field.short:
            properties[field.short] = {"description": f"{field.about}; the short form", **made}
    schema: Schema = {"type": "object", "properties": properties, "additionalProperties": False}
    if required := [field.key for field in form.fields if field.required]:
        schema["required"] = required
    return schema


def coin_schema(catalogue: Catalogue | None = None) -> Schema:
    """Make the schema of a coin's front matter; with a catalogue it offers its series and what each has.

    A text alone is let pass, for that is what an editor takes the notes below the front matter to be.
    """
    offered: dict[str, Schema] = {}
    chosen: list[Schema] = []
    if catalogue is not None:
        names = _names(catalogue.series)
        offered["series"] = _offer(names)
        chosen = [_of_series(name, series) for name, series in names.items()]
        offered["lot"] = _offer(catalogue.lots)
        offered["set"] = _offer(sorted({each.set for each in catalogue.coins if each.set}))
    schema = {**schema_of(COIN, offered), "type": ["object", "string", "null"]}
    return {**schema, "allOf": chosen} if chosen else schema


def series_schema(catalogue: Catalogue | None = None) -> Schema:
    """Make the schema of a series; with a catalogue it offers its issuers."""
    return schema_of(SERIES, {"issuer": _offer(catalogue.issuers)} if catalogue is not None else {})


def issuer_schema() -> Schema:
    """Make the schema of an issuer."""
    return schema_of(ISSUER)


def settings_schema(catalogue: Catalogue | None = None) -> Schema:
    """Make the schema of the settings; with a catalogue, aims are offered its series."""
    schema = schema_of(SETTINGS)
    if catalogue is not None:
        aim = schema_of(AIM, {"series": _one_or_several(_offer(_names(catalogue.series)))})
        schema["properties"]["aims"] = {"description": "the aims", **_one_or_several(aim)}
    return schema


def export_schema() -> Schema:
    """Make the schema of what ``daterun export --as json`` writes."""
    coin = schema_of(COIN)
    coin["properties"] = {
        "id": {"type": "string", "description": "the coin's id, the path of its file"},
        **coin["properties"],
        "notes": {"type": "string", "description": "the notes, in Markdown"},
        "pictures": {
            "type": "object",
            "description": "its photos by side, as they lie beside the file",
            "additionalProperties": {"type": "string"},
        },
    }
    coin["required"] = ["id", *coin["required"]]
    text: Schema = {"type": "string"}
    properties: dict[str, Schema] = {
        "$schema": text,
        "format": {"const": "daterun catalogue"},
        "version": {"const": 1},
        "reader": {"enum": ["public", "club", "keeper"]},
        **dict.fromkeys(("title", "keeper", "summary", "language"), text),
        "issuers": {"type": "object", "additionalProperties": issuer_schema()},
        "series": {"type": "object", "additionalProperties": series_schema()},
        "coins": {"type": "array", "items": coin},
        "pages": {
            "type": "array",
            "items": {
                "type": "object",
                "properties": dict.fromkeys(("id", "title", "summary", "text"), text),
                "required": ["id", "title", "text"],
                "additionalProperties": False,
            },
        },
        "settings": settings_schema(),
        "lots": {"type": "object", "additionalProperties": schema_of(LOT)},
    }
    kept_from_others = ("$schema", "settings", "lots")
    return {
        "type": "object",
        "properties": properties,
        "required": [key for key in properties if key not in kept_from_others],
        "additionalProperties": False,
    }


def all_schemas(catalogue: Catalogue) -> dict[str, Schema]:
    """Make every schema by the name of its file."""
    made = {
        "coin": coin_schema(catalogue),
        "series": series_schema(catalogue),
        "issuer": issuer_schema(),
        "catalogue": settings_schema(catalogue),
        "lot": schema_of(LOT),
        "essay": {**schema_of(ESSAY), "type": ["object", "string", "null"]},
        "export": export_schema(),
    }
    return {
        f"{name}.schema.json": {"$schema": DRAFT, "title": f"Daterun: {name}", **schema}
        for name, schema in made.items()
    }


def _of_field(form: Form, field: Field) -> Schema:
    if (own := _OWN.get((form.name, field.key))) is not None:
        return own()
    return _of_kind(field.kind)


def _of_kind(kind: Kind[Any]) -> Schema:
    shape = kind.shape
    if kind.rule == "grade" and shape is None:
        return {**_offer(_GRADES), "examples": [kind.example]}
    if shape is None:
        return {**SCALAR, "examples": [kind.example]}
    if shape.words:
        truths = [True, False] if shape.words == ("yes", "no") else []
        return {"enum": [*shape.words, *truths]}
    if shape.items is not None:
        return _one_or_several(_of_kind(shape.items))
    if shape.values is not None:
        return _mapping(_of_kind(shape.values))
    assert shape.form is not None, "a shape is made of something"
    full = schema_of(shape.form)
    return {"anyOf": [_of_kind(shape.short), full]} if shape.short is not None else full


def _mapping(values: Schema) -> Schema:
    return {"type": "object", "additionalProperties": values}


def _one_or_several(item: Schema) -> Schema:
    return {"anyOf": [item, {"type": "array", "items": item}]}


def _offer(words: Iterable[str]) -> Schema:
    """Offer words without refusing others; years are offered as the numbers that editors take them for."""
    offered = [int(word) if word.isascii() and word.isdigit() and word[0] != "0" else word for word in words]
    return {"anyOf": [{"enum": offered}, SCALAR]} if offered else SCALAR


def _names(series: Mapping[str, Series]) -> dict[str, Series]:
    """Name every series as a keeper writes it: by its short id while that is unique."""
    return {each.id if find_series(series, each.id) is each else key: each for key, each in series.items()}


def _of_series(name: str, series: Series) -> Schema:
    """Offer, for coins of one series, its dates, and the mints, varieties, types and standards it has."""
    mints = dict.fromkeys(mint for each in series.issues for mint in each.values_of("mint"))
    offered: dict[str, Schema] = {
        "date": _offer([each.date.key for each in series.issues]),
        "variety": _one_or_several(_offer(each.id for each in series.varieties)),
        "mint": _offer(mints),
        "type": _offer(each.id for each in series.types),
        "standard": _offer(each.name for each in series.standards),
    }
    names = sorted({name, series.key})
    return {
        "if": {"properties": {"series": {"enum": names}}, "required": ["series"]},
        "then": {"properties": offered},
    }


_GRADES = [*(str(each) for each in STEPS), *BRITISH_NAMES]

_FIGURE: Schema = {"anyOf": [SCALAR, {"type": "array", "items": SCALAR}]}


def _figures() -> Schema:
    fields = tuple(each for each in PART.fields if each.key not in ("mint", "variety", "type"))
    return _mapping({"anyOf": [_FIGURE, schema_of(Form(PART.name, fields))]})


_OWN: Mapping[tuple[str, str], Callable[[], Schema]] = {
    (COIN.name, "photos"): lambda: schema_of(PHOTOS),
    (NAMED_PHOTO.name, "crop"): lambda: schema_of(CROP),
    (SERIES.name, "issues"): lambda: schema_of(STRUCK),
    (STRUCK.name, "struck"): lambda: _mapping({"anyOf": [_FIGURE, schema_of(DATE_ISSUE)]}),
    (STANDARD.name, "alloy"): lambda: _mapping(SCALAR),
    (DATE_ISSUE.name, "by mint"): _figures,
    (DATE_ISSUE.name, "by variety"): _figures,
    (DATE_ISSUE.name, "by type"): _figures,
    (DATE_ISSUE.name, "issues"): lambda: _one_or_several(schema_of(PART)),
    (ISSUER.name, "money"): lambda: _mapping(SCALAR),
    (ISSUER.name, "decimal"): lambda: _mapping(SCALAR),
    (ISSUER.name, "mints"): lambda: _mapping(SCALAR),
    (ISSUER.name, "monarchs"): lambda: _mapping(schema_of(MONARCH)),
    (SETTINGS.name, "metals"): lambda: _mapping(schema_of(METAL_PRICE)),
    (SETTINGS.name, "readers"): lambda: schema_of(READERS),
    (SETTINGS.name, "pictures"): lambda: schema_of(PICTURES),
    (AIM.name, "leave out"): lambda: _mapping(_mapping(SCALAR)),
    (LOT.name, "share"): lambda: {"anyOf": [{"enum": ["equally"]}, _mapping(SCALAR)]},
    **{
        (form.name, field.key): (lambda: _FIGURE)
        for form in (DATE_ISSUE, PART)
        for field in form.fields
        if field.key == "mintage"
    },
}
"""Fields that are read by a rule of their own, and what they are made of."""
