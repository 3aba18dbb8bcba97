"""Whether the links in notes and essays lead to coins and dates that are there, and show what they ask for."""

from collections.abc import Collection, Iterator

from daterun.checks.dates import hint_for_date
from daterun.checks.ids import hint_for_coin
from daterun.checks.wholeness import is_broken, misread_issues
from daterun.problems import Misread, Problem, Severity, meant
from daterun.records.catalogue import Catalogue
from daterun.records.links import PlacedLink, Plate, find_images, find_links
from daterun.trade.dates import parse_coin_date

RULE = "link"


def check_links(catalogue: Catalogue) -> Iterator[Problem]:
    """Find links that lead nowhere, and pictures that are not shown; a link to a file at fault is let be."""
    ids = {each.id for each in catalogue.coins}
    texts = [(each.notes, each.path, each.notes_line) for each in catalogue.coins]
    texts += [(each.text, each.path, each.text_line) for each in catalogue.essays]
    for text, path, line in texts:
        yield from check_text(catalogue, ids, text, path, line)


def check_text(
    catalogue: Catalogue, ids: Collection[str], text: str, path: str, line: int
) -> Iterator[Problem]:
    """Find what is wrong with the links and pictures of one text, which begins on a line of a file."""
    if "[" not in text:
        return
    for place in find_images(text, path, line):
        said = "notes show no picture but those of coins, so only its words will stand here"
        hint = "write [[ort/1897]] or [[ort/1897 both]] for the pictures of a coin"
        yield Problem(RULE, said, place, hint, Severity.ADVICE)
    for placed in find_links(text, path, line):
        if placed.link.is_coin:
            yield from _check_coin(catalogue, placed, ids)
        elif placed.link.series in ids:
            said = f'"{placed.link.date}" in {placed.text} is none of the sides that a plate can show'
            yield Problem(RULE, said, placed.place, meant(placed.link.date, list(Plate)))
        else:
            yield from _check_date(catalogue, placed)


def _check_coin(catalogue: Catalogue, placed: PlacedLink, ids: Collection[str]) -> Iterator[Problem]:
    coin_id = placed.link.coin
    if coin_id in ids or is_broken(catalogue, "coins", coin_id):
        return
    said = f'there is no coin "{coin_id}" for {placed.text} to lead to'
    yield Problem(RULE, said, placed.place, hint_for_coin(coin_id, ids))


def _check_date(catalogue: Catalogue, placed: PlacedLink) -> Iterator[Problem]:
    link = placed.link
    if not link.series:
        hint = "write [[ort/1897]] for a coin, [[ort 1881]] for a date"
        yield Problem(RULE, f"{placed.text} names nothing", placed.place, hint)
        return
    series = catalogue.find_series(link.series)
    if series is None:
        if not is_broken(catalogue, "series", link.series):
            alike = sorted(key for key, each in catalogue.series.items() if each.id == link.series)
            if alike:
                said = f'several series are called "{link.series}", so {placed.text} leads to none'
                hint = f"write {' or '.join(f'[[{key} {link.date}]]' for key in alike)}"
                yield Problem(RULE, said, placed.place, hint)
                return
            names = [each.id for each in catalogue.series.values()]
            said = f'there is no series "{link.series}" for {placed.text} to lead to'
            yield Problem(RULE, said, placed.place, meant(link.series, names))
        return
    try:
        date = parse_coin_date(link.date, series.labels)
    except Misread as misread:
        yield Problem(RULE, misread.sentence, placed.place, misread.hint)
        return
    if series.issue(date.key) is None and date.key not in misread_issues(series):
        said = f'the series {series.name} has no date "{link.date}" for {placed.text} to lead to'
        yield Problem(RULE, said, placed.place, hint_for_date(series, date))
