"""Nothing that the demo's keeper keeps to himself stands anywhere in what the public and the club get.

Every private value is taken from the keeper's files themselves and sought in every file of the edition.
"""

import html
import re
from collections.abc import Iterator

import pytest

from daterun.bundled import content_folder
from daterun.records.catalogue import Catalogue, read_catalogue
from daterun.records.coins import Coin

SHORTEST = 4
"""Texts shorter than this stand in any page by chance."""


@pytest.fixture(scope="module")
def catalogue() -> Catalogue:
    return read_catalogue(content_folder().parent)[0]


def of_coin(coin: Coin) -> Iterator[str]:
    yield from (coin.kept, coin.private, coin.set, coin.lot)
    if (acquired := coin.acquired) is not None:
        yield from (acquired.source, acquired.note, str(acquired.price or ""))
    if (parted := coin.parted) is not None:
        yield from (parted.to, str(parted.price or ""))
    if coin.value is not None:
        yield from (str(coin.value.amount), coin.value.basis)
    for owner in coin.provenance:
        if not owner.publish:
            yield from (owner.owner, owner.sale, owner.note)
    yield from (each.number for each in coin.certificates)
    yield from (each.file for each in coin.photos.values())


def private_texts(catalogue: Catalogue) -> set[str]:
    """Gather what only the keeper sees, as it was typed."""
    found = {text for coin in catalogue.coins for text in of_coin(coin)}
    for coin in catalogue.coins:
        if not coin.is_held:
            found |= {*(line for line in coin.notes.splitlines()), coin.design}
    for lot in catalogue.lots.values():
        found |= {lot.id, lot.name, lot.source, lot.note, str(lot.price or "")}
    for want in catalogue.settings.wants:
        found |= {str(want.at_most or ""), want.remark}
    for aim in catalogue.settings.aims:
        found |= {reason for slots in aim.leave_out.values() for reason in slots.values()}
    found |= {f".{side}.jpg" for side in ("obverse", "reverse", "edge")}
    return {" ".join(each.split()) for each in found if len(each.strip()) >= SHORTEST}


def amounts(catalogue: Catalogue) -> set[str]:
    """Gather every price, cost and value as it might be written with its currency before or after it."""
    found = set()
    money = [coin.acquired.price for coin in catalogue.coins if coin.acquired and coin.acquired.price]
    money += [coin.parted.price for coin in catalogue.coins if coin.parted and coin.parted.price]
    money += [coin.value.amount for coin in catalogue.coins if coin.value]
    money += [lot.price for lot in catalogue.lots.values() if lot.price]
    money += [want.at_most for want in catalogue.settings.wants if want.at_most]
    for each in money:
        for number in (f"{each.amount:.2f}", f"{each.amount:,.2f}", f"{each.amount.normalize():f}"):
            found |= {f"{number} {each.currency}", f"{each.currency} {number}"}
    return found


def published_by_the_keeper(catalogue: Catalogue) -> str:
    """What the keeper wrote for everybody: a private text that stands there too is no secret."""
    texts = [essay.text for essay in catalogue.essays]
    for coin in catalogue.coins:
        if coin.is_held:
            texts += [coin.notes, coin.design, *coin.references, *(each.reasons for each in coin.own_grades)]
            texts += [f"{each.owner} {each.sale} {each.note}" for each in coin.provenance if each.publish]
    for series in catalogue.series.values():
        texts += [series.note, series.struck.note, *(each.figures.note for each in series.issues)]
    return " ".join(" ".join(texts).split())


def searched(files: dict[str, bytes]) -> dict[str, str]:
    """The files as texts: as they are, and as a reader sees them with tags gone and spaces evened out.

    Pictures and fonts are left to the test of what they carry.
    """
    texts = {}
    for address, data in files.items():
        if address.endswith((".jpg", ".woff2")):
            continue
        text = data.decode("utf-8")
        plain = html.unescape(re.sub(r"<[^>]+>", " ", text)) if address.endswith(".html") else ""
        texts[address] = " ".join(f"{text} {plain}".replace("\u00a0", " ").replace("\u202f", " ").split())
    return texts


def standing_alone(text: str) -> re.Pattern[str]:
    """Match a text where it is not a part of a longer word or number."""
    return re.compile(rf"(?<![\w.,]){re.escape(text)}(?![\w])" if text[0].isalnum() else re.escape(text))


def find(texts: set[str], files: dict[str, bytes]) -> list[str]:
    patterns = {text: standing_alone(text) for text in texts}
    return [
        f"{address}: {text}"
        for address, said in searched(files).items()
        for text, pattern in patterns.items()
        if text in said and pattern.search(said)
    ]


@pytest.mark.parametrize("name", ["demo", "clubs_demo"])
def test_no_private_value_is_in_any_file_of_an_edition_for_others(name, request, catalogue):
    edition = request.getfixturevalue(name)
    texts = private_texts(catalogue)
    public = published_by_the_keeper(catalogue)
    secrets = {each for each in texts if each not in public}
    assert len(secrets) > 150
    assert find(secrets, edition.files) == []


@pytest.mark.parametrize("name", ["demo", "clubs_demo"])
def test_no_price_or_value_is_in_any_file_of_an_edition_for_others(name, request, catalogue):
    edition = request.getfixturevalue(name)
    assert len(amounts(catalogue)) > 100
    assert find(amounts(catalogue), edition.files) == []


def test_the_keepers_edition_does_hold_what_was_sought(keepers_demo, catalogue):
    sought = {each for coin in catalogue.coins for each in (coin.kept, coin.private) if len(each) >= SHORTEST}
    found = {each.partition(": ")[2] for each in find(sought, keepers_demo.files)}
    assert len(found) > len(sought) * 0.9


def test_a_private_value_would_be_found_in_text_attribute_and_script():
    page = b'<p title="R.&nbsp;Tarn">paid <b>45.00</b> VKR; cabinet\n 2, tray 4</p>'
    files = {"index.html": page, "list.js": b'x = ["cabinet 2, tray 4"]'}
    assert find({"45.00 VKR"}, files) == ["index.html: 45.00 VKR"]
    assert find({"cabinet 2, tray 4"}, files) == [
        "index.html: cabinet 2, tray 4",
        "list.js: cabinet 2, tray 4",
    ]
    assert find({"5.00 VKR", "tray 41"}, files) == []
