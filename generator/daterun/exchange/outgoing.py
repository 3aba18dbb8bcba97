"""What goes out to a reader: each coin as a coin's file would tell it, with what the reader may see and no more.

The keeper's coins go out as they are written; those of others come from the closed records alone.
"""

from collections.abc import Container, Mapping
from dataclasses import dataclass

from daterun.exchange.plain import plain_mapping
from daterun.exchange.yamltext import Plain
from daterun.readers.closed import (
    ClosedCatalogue,
    ClosedCertificate,
    ClosedCoin,
    ClosedGrade,
    ClosedOwner,
)
from daterun.readers.reader import Reader
from daterun.records.catalogue import Catalogue
from daterun.records.coins import CoinKind, Strike
from daterun.records.series import Series
from daterun.records.shown import without_hidden, without_targets


@dataclass(frozen=True, slots=True)
class Outgoing:
    """One coin as it goes out: its values by key as a coin's file has them, and its notes."""

    id: str
    values: Mapping[str, Plain]
    notes: str


def coins_for(catalogue: Catalogue, closed: ClosedCatalogue) -> tuple[Outgoing, ...]:
    """List the coins that the reader of a closed catalogue may have."""
    if closed.reader is Reader.KEEPER:
        return tuple(Outgoing(each.id, plain_mapping(each.at), each.notes) for each in catalogue.coins)
    ids = {each.id for each in closed.coins}
    return tuple(_of_closed(each, closed, ids) for each in closed.coins)


def as_shown(text: str, ids: Container[str] = ()) -> str:
    """Give a text in Markdown as it may go out to others, who are told of no other coins than these."""
    return without_targets(without_hidden(text), ids)


def short_name(series: Series, closed: ClosedCatalogue) -> str:
    """Name a series by its short id while that is unique, else by its whole name."""
    return series.id if closed.find_series(series.id) is series else series.key


def _of_closed(coin: ClosedCoin, closed: ClosedCatalogue, ids: Container[str]) -> Outgoing:
    values: dict[str, Plain | None] = {
        "series": short_name(closed.series[coin.series], closed),
        "date": coin.date.key,
        "variety": list(coin.varieties),
        "mint": coin.mint,
        "type": coin.type,
        "standard": coin.standard,
        "strike": "" if coin.strike is Strike.ORDINARY else coin.strike.value,
        "kind": "" if coin.kind is CoinKind.REGULAR else coin.kind.value,
        "departs": coin.departs,
        "struck in": coin.struck_in,
        "grades": _grades(coin),
        "problem": list(coin.problems),
        "certificates": [_certificate(each) for each in coin.certificates],
        **{key: str(each) for key, each in _measures(coin).items() if each is not None},
        "gravity": _without_blanks(
            {
                "dry": str(coin.gravity.dry),
                "wet": str(coin.gravity.wet),
                "reading": str(coin.gravity.reading or ""),
            }
            if coin.gravity
            else {}
        ),
        "design": coin.design,
        "references": list(coin.references),
        "added": str(coin.added or ""),
        "provenance": [_owner(each) for each in coin.provenance],
    }
    return Outgoing(coin.id, _without_blanks(values), as_shown(coin.notes, ids))


def _measures(coin: ClosedCoin) -> dict[str, object]:
    return {
        "weight": coin.weight,
        "diameter": coin.diameter,
        "thickness": coin.thickness,
        "axis": coin.axis,
    }


def _grades(coin: ClosedCoin) -> list[Plain]:
    """List the keeper's grades that the reader may see: all of them, or the one in force alone."""
    own = coin.own_grades
    if not own and coin.grade is not None and not coin.graded_by:
        own = (ClosedGrade(coin.grade, coin.graded_on, coin.grade_reasons),)
    return [
        _without_blanks({"grade": each.grade.text, "on": str(each.on or ""), "reasons": each.reasons})
        for each in own
    ]


def _certificate(certificate: ClosedCertificate) -> Plain:
    return _without_blanks(
        {
            "by": certificate.by,
            "grade": certificate.grade.text,
            "number": certificate.number,
            "on": str(certificate.on or ""),
            "sealed": "" if certificate.sealed else "no",
            "problem": list(certificate.problem),
        }
    )


def _owner(owner: ClosedOwner) -> Plain:
    return _without_blanks(
        {
            "owner": owner.owner,
            "since": str(owner.since or ""),
            "until": str(owner.until or ""),
            "sale": owner.sale,
            "lot": owner.lot,
            "note": owner.note,
            "publish": "yes" if owner.publish else "",
        }
    )


def _without_blanks(values: Mapping[str, Plain | None]) -> dict[str, Plain]:
    return {key: each for key, each in values.items() if each}
