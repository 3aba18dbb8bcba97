"""The addresses of pages, from the root of the edition."""

from daterun.naming import slug
from daterun.records.series import Series
from daterun.trade.dates import CoinDate

HOME = "index.html"
MONARCHS = "monarchs/index.html"
DENOMINATIONS = "denominations/index.html"
DATES = "dates/index.html"
COINS = "coins/index.html"
ESSAYS = "essays/index.html"
NOT_FOUND = "404.html"


def of_coin(coin_id: str) -> str:
    return f"coins/{coin_id}/index.html"


def of_monarch(issuer: str, monarch: str) -> str:
    return f"monarchs/{issuer}/{monarch}/index.html"


def of_denomination(series: Series) -> str:
    """Find the page of a series: series of one denomination share it."""
    return f"denominations/{series.issuer}/{slug(denomination_of(series))}/index.html"


def denomination_of(series: Series) -> str:
    return series.denomination or series.name


def of_year(year: int) -> str:
    return f"dates/{year}/index.html"


UNDATED = "dates/undated/index.html"
"""The page of coins whose date is worn away or was never there."""


def of_date(date: CoinDate) -> str:
    """Find the page of a date: that of its first year."""
    return of_year(date.year) if date.year is not None else UNDATED


def of_essay(essay_id: str) -> str:
    return f"essays/{essay_id}/index.html"
