"""A catalogue as linked data in the words of schema.org, for those who gather collections from the web."""

import json
from collections.abc import Mapping
from typing import Any

from daterun.exchange.outgoing import as_shown
from daterun.naming import listed
from daterun.readers.closed import ClosedCatalogue, ClosedCoin
from daterun.records.attribution import Attribution, attribute


def write_linked(closed: ClosedCatalogue, photos: Mapping[str, Mapping[str, str]] = {}) -> bytes:
    """Write a collection of single pieces: https://schema.org/Collection with https://schema.org/IndividualProduct.

    Weights are in grams (UN/CEFACT code GRM) and diameters in millimetres (MMT), as schema.org asks.
    """
    settings = closed.settings
    whole: dict[str, Any] = {
        "@context": "https://schema.org",
        "@type": "Collection",
        "name": settings.title,
        "description": settings.summary,
        "inLanguage": settings.language,
        "url": settings.web,
        "creator": {"@type": "Person", "name": settings.keeper} if settings.keeper else "",
        "collectionSize": len(closed.coins),
        "hasPart": [_coin(each, closed, photos.get(each.id, {})) for each in closed.coins],
    }
    return (json.dumps(_filled(whole), ensure_ascii=False, indent=1) + "\n").encode("utf-8")


def _coin(coin: ClosedCoin, closed: ClosedCatalogue, photos: Mapping[str, str]) -> dict[str, Any]:
    series = closed.series[coin.series]
    issuer = closed.issuers.get(series.issuer)
    found = attribute(coin, series, issuer)
    country = issuer.name if issuer else series.issuer
    address = f"{closed.settings.web}coins/{coin.id}/index.html" if closed.settings.web else ""
    return _filled(
        {
            "@type": "IndividualProduct",
            "@id": address or f"#{coin.id}",
            "url": address,
            "name": f"{series.name}, {country}, {coin.date}",
            "category": "coin",
            "identifier": coin.id,
            "productionDate": str(coin.date.year or ""),
            "countryOfOrigin": {"@type": "Country", "name": country},
            "material": found.standard.metal.name if found.standard else "",
            "weight": _quantity(coin.weight.grams if coin.weight else None, "GRM"),
            "width": _quantity(coin.diameter.mm if coin.diameter else None, "MMT"),
            "image": list(photos.values()),
            "additionalProperty": _properties(coin, found),
            "description": as_shown(coin.notes).strip(),
        }
    )


def _quantity(value: object, code: str) -> dict[str, Any]:
    if value is None:
        return {}
    return {"@type": "QuantitativeValue", "value": float(str(value)), "unitCode": code}


def _properties(coin: ClosedCoin, found: Attribution) -> list[dict[str, str]]:
    said = {
        "date on the coin": coin.date.key,
        "monarch": found.monarch.name if found.monarch else "",
        "mint mark": found.mint or "",
        "type": (found.type.name or found.type.id) if found.type else "",
        "variety": listed([each.name or each.id for each in found.varieties]),
        "strike": coin.strike.value,
        "kind": coin.kind.value,
        "grade": coin.grade.text if coin.grade else "",
        "graded by": coin.graded_by,
        "certificate number": coin.certificate_number,
        "problem": listed(coin.problems),
        "die axis": str(coin.axis) if coin.axis else "",
    }
    return [{"@type": "PropertyValue", "name": name, "value": value} for name, value in said.items() if value]


def _filled(values: Mapping[str, Any]) -> dict[str, Any]:
    return {key: each for key, each in values.items() if each not in ("", {}, [])}
