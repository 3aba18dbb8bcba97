"""How a problem words years, and the verbs that go with a number of them."""

from collections.abc import Iterable

from daterun.naming import listed


def listed_years(years: Iterable[int]) -> str:
    """Word years in their order; three or more in a row become a range."""
    runs: list[list[int]] = []
    for year in sorted(set(years)):
        if runs and year == runs[-1][-1] + 1:
            runs[-1].append(year)
        else:
            runs.append([year])
    words: list[str] = []
    for run in runs:
        words += [f"{run[0]:04}–{run[-1]:04}"] if len(run) > 2 else [f"{year:04}" for year in run]
    return listed(words)


def verb(number: int, one: str, several: str) -> str:
    """Choose the form of a verb that goes with a number of things."""
    return one if number == 1 else several
