"""The addresses of pages, from the root of the edition."""

from functools import lru_cache
from typing import TYPE_CHECKING

from daterun.naming import slug

if TYPE_CHECKING:
    from daterun.records.series import CoinType, Series
    from daterun.trade.dates import CoinDate

HOME = "index.html"
MONARCHS = "monarchs/index.html"
DENOMINATIONS = "denominations/index.html"
DATES = "dates/index.html"
COINS = "coins/index.html"
ESSAYS = "essays/index.html"
FIND = "find/index.html"
COMPARE = "compare/index.html"
FEED = "feed.xml"
SITE_MAP = "sitemap.xml"
NOT_FOUND = "404.html"


def of_part(address: str, nth: int) -> str:
    """Find a page of several over which one is spread, counted from 1; the first is at the address itself."""
    return address if nth == 1 else f"{address.removesuffix('index.html')}page-{nth}.html"


def of_coin(coin_id: str) -> str:
    return f"coins/{coin_id}/index.html"


def of_monarch(issuer: str, monarch: str) -> str:
    return f"monarchs/{issuer}/{monarch}/index.html"


def of_denomination(series: "Series") -> str:
    """Find the page of a series: series of one denomination share it."""
    return _of_denomination(series.issuer, denomination_of(series))


@lru_cache(maxsize=2048)
def _of_denomination(issuer: str, name: str) -> str:
    return f"denominations/{issuer}/{slug(name)}/index.html"


def denomination_of(series: "Series") -> str:
    return series.denomination or series.name


def of_year(year: int) -> str:
    return f"dates/{year}/index.html"


UNDATED = "dates/undated/index.html"
"""The page of coins whose date is worn away or was never there."""


def of_date(date: "CoinDate") -> str:
    """Find the page of a date: that of its first year."""
    return of_year(date.year) if date.year is not None else UNDATED


def of_essay(essay_id: str) -> str:
    return f"essays/{essay_id}/index.html"


FIGURES = "figures/index.html"
STRUCK_AND_HELD = "figures/struck/index.html"
METAL = "figures/metal/index.html"
WEIGHTS = "figures/weights/index.html"
CERTIFICATES = "figures/certificates/index.html"
COSTS = "figures/costs/index.html"
SIDE_BY_SIDE = "grades/index.html"


def of_figures(series: "Series") -> str:
    """Find the page on which every coin of a series stands with its figures."""
    return f"figures/series/{series.issuer}/{series.id}/index.html"


def of_grade(step: int | None) -> str:
    """Find the list of coins of one step of the scale, by its number; that of the ungraded for None."""
    return f"figures/grades/{'ungraded' if step is None else step}/index.html"


def of_acquisitions(year: int | None) -> str:
    """Find the list of coins acquired in a year; that of coins without a day for None."""
    return f"figures/acquired/{'undated' if year is None else year}/index.html"


def of_type(series: "Series", coin_type: "CoinType") -> str:
    """Find the page of a type's coins side by side."""
    return f"grades/{series.issuer}/{series.id}/{coin_type.id}/index.html"


AIMS = "aims/index.html"
COMPLETENESS = "completeness/index.html"
WANTED = "wanted/index.html"
SCARCE = "scarce/index.html"
FORMER = "former/index.html"
UNUSUAL = "unusual/index.html"


def of_aim(aim_id: str) -> str:
    return f"aims/{aim_id}/index.html"
