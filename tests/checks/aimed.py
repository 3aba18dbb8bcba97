"""Stand-ins for aims and coins, with just what filling slots needs to know of them."""

from dataclasses import dataclass

from daterun.records.aims import Divider, End, Problems
from daterun.records.coins import CoinKind, Strike
from daterun.records.fields import Reading
from daterun.records.located import read_located
from daterun.records.series import read_series
from daterun.trade.dates import CoinDate, Span, parse_coin_date
from daterun.trade.grading import Grade, Habit, parse_grade
from daterun.trade.measures import Weight


@dataclass(frozen=True)
class Aimed:
    id: str = "an-aim"
    name: str = "An aim"
    series: tuple[str, ...] = ("ort",)
    span: Span | None = None
    one_per: tuple[Divider, ...] = (Divider.DATE,)
    strikes: tuple[Strike, ...] = (Strike.ORDINARY,)
    at_least: Grade | None = None
    counts: End = End.LOW
    problems: Problems = Problems.ACCEPTED
    kinds: tuple[CoinKind, ...] = (CoinKind.REGULAR,)
    across_series: bool = False


@dataclass(frozen=True)
class Piece:
    id: str
    series: str
    date: CoinDate
    grade: Grade | None = None
    type: str | None = None
    mint: str | None = None
    strike: Strike = Strike.ORDINARY
    problems: tuple[str, ...] = ()
    varieties: tuple[str, ...] = ()
    kind: CoinKind = CoinKind.REGULAR
    graded_by: str = ""
    weight: Weight | None = None
    is_held: bool = True

    @property
    def is_problem(self):
        return bool(self.problems)


def read(series_id, text):
    node, problems = read_located(text, "series.yaml")
    reading = Reading("series.yaml")
    series = read_series(series_id, node, reading)
    assert not problems
    assert not reading.problems
    return series


def graded(text):
    return parse_grade(text, Habit.SEVENTY)


def piece(coin_id, series, date, grade=None, **rest):
    return Piece(coin_id, series, parse_coin_date(date), graded(grade) if grade else None, **rest)
