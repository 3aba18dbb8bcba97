"""A catalogue as JSON: coins, series and issuers as their files tell them, and for the keeper all the rest."""

import json
from collections.abc import Iterable, Mapping
from typing import Any

from daterun.exchange.outgoing import Outgoing, as_shown
from daterun.exchange.plain import plain_mapping
from daterun.readers.closed import ClosedCatalogue
from daterun.readers.reader import Reader
from daterun.records.catalogue import Catalogue

FORMAT = "daterun catalogue"
VERSION = 1
SCHEMA = "export.schema.json"


def write_json(
    catalogue: Catalogue,
    closed: ClosedCatalogue,
    coins: Iterable[Outgoing],
    photos: Mapping[str, Mapping[str, str]] = {},
) -> bytes:
    """Write what a reader may have; the photos go by coin and side to where they lie beside the file.

    Every value is a text, a list or an object, as it is typed in the files: nothing is rounded or reworded.
    """
    settings = closed.settings
    is_whole, ids = closed.reader is Reader.KEEPER, {each.id for each in closed.coins}
    whole: dict[str, Any] = {
        "$schema": SCHEMA,
        "format": FORMAT,
        "version": VERSION,
        "reader": closed.reader.value,
        "title": settings.title,
        "keeper": settings.keeper,
        "summary": settings.summary,
        "language": settings.language,
        "issuers": {each.id: plain_mapping(each.at) for each in closed.issuers.values()},
        "series": {key: plain_mapping(each.at) for key, each in closed.series.items()},
        "coins": [_coin(each, photos.get(each.id, {})) for each in coins],
        "pages": [
            {
                **{"id": each.id, "title": each.title, "summary": each.summary},
                "text": each.text if is_whole else as_shown(each.text, ids),
            }
            for each in closed.essays
        ],
    }
    if is_whole:
        whole["settings"] = plain_mapping(catalogue.settings.at)
        whole["lots"] = {key: plain_mapping(each.at) for key, each in catalogue.lots.items()}
    return (json.dumps(whole, ensure_ascii=False, indent=1) + "\n").encode("utf-8")


def _coin(coin: Outgoing, photos: Mapping[str, str]) -> dict[str, Any]:
    found: dict[str, Any] = {"id": coin.id, **coin.values}
    if coin.notes.strip():
        found["notes"] = coin.notes
    if photos:
        found["pictures"] = dict(photos)
    return found
