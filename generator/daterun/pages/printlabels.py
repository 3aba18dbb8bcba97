"""Labels for the tray: what stands on each, and what its code says."""

from urllib.parse import quote, urljoin

from daterun.pages import addresses
from daterun.pages.binder import Binder
from daterun.pages.printchoice import Choice, choose_coins
from daterun.pages.printpieces import Label, LabelSheets
from daterun.pages.printtitle import title_of
from daterun.pages.standing import Standing
from daterun.pages.wording import name_coin, say_grade_line, say_metal
from daterun.readers.reader import Reader
from daterun.records.coins import CoinKind
from daterun.trade.measures import show_grams, show_millimetres

_BOUND = "\u00a0"
"""The space that keeps a number and its unit on one line."""


def plan_labels(binder: Binder, choice: Choice) -> LabelSheets:
    """Plan a label for each coin chosen, in the order of the cabinet."""
    labels = tuple(_label(binder, each) for each in choose_coins(binder.cabinet, choice))
    return LabelSheets(title_of(binder, "labels"), labels)


def _label(binder: Binder, standing: Standing) -> Label:
    words, coin = binder.words, standing.coin
    lines = []
    if standing.monarch is not None:
        lines.append(standing.monarch.name)
    lines.append(say_grade_line(coin, words))
    if coin.certificate_number:
        lines.append(f"{coin.graded_by} {coin.certificate_number}".strip())
    measures = _measures(binder, standing)
    if measures:
        lines.append(measures)
    if coin.private is not None and coin.private.kept:
        lines.append(coin.private.kept)
    return Label(coin.id, name_coin(standing, words), tuple(lines), code_of(binder, coin.id))


def code_of(binder: Binder, coin_id: str) -> str:
    """Say what the code of a coin leads to: its page on the web, else its id.

    An edition that is not the public one is not on the web, so its codes say the id.
    """
    web = binder.catalogue.settings.web
    if not web or binder.catalogue.reader is not Reader.PUBLIC:
        return coin_id
    page = addresses.of_coin(coin_id).removesuffix("index.html")
    return urljoin(web if web.endswith("/") else f"{web}/", quote(page))


def _measures(binder: Binder, standing: Standing) -> str:
    """Word metal, weight and diameter, as measured where they were, else as laid down for a regular coin."""
    coin, standard = standing.coin, standing.place.standard
    if coin.kind is not CoinKind.REGULAR:
        standard = None
    weight = coin.weight or (standard.weight if standard is not None else None)
    across = coin.diameter or (standard.diameter if standard is not None else None)
    parts = [
        say_metal(standard, binder.words) if standard is not None else "",
        show_grams(weight.grams).replace(" ", _BOUND) if weight is not None else "",
        show_millimetres(across.mm).replace(" ", _BOUND) if across is not None else "",
    ]
    return ", ".join(each for each in parts if each)
