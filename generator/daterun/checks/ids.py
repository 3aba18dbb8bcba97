"""Which coin a misspelt id most likely meant, found quickly among thousands."""

from collections.abc import Iterable

from daterun.problems import nearest

_MOST = 200
"""Ids that are compared letter by letter. Among 5,000 that takes a tenth of a second, and for every bad link."""


def hint_for_coin(coin_id: str, ids: Iterable[str]) -> str:
    """Word the hint for an id that is of no coin: the one with its name elsewhere, else the nearest in sight.

    Only ids of one folder or of one name are compared, those that begin alike first.
    """
    folder, _, name = coin_id.rpartition("/")
    same_name, same_folder = [], []
    for each in ids:
        its_folder, _, its_name = each.rpartition("/")
        if its_name == name:
            same_name.append(each)
        elif its_folder == folder:
            same_folder.append(each)
    if len(same_name) == 1:
        return f'did you mean "{same_name[0]}"?'
    same_folder.sort(key=lambda each: (-_alike(each, coin_id), each))
    close = nearest(coin_id, sorted(same_name)[:_MOST] + same_folder[:_MOST])
    return f'did you mean "{close}"?' if close is not None else ""


def _alike(first: str, second: str) -> int:
    """Count the letters with which two words begin alike."""
    pairs = zip(first, second, strict=False)
    return next((nth for nth, (one, other) in enumerate(pairs) if one != other), min(len(first), len(second)))
