"""What was written but could not be read, so that a rule stays quiet where another has already spoken."""

from collections.abc import Sized

from daterun.records.catalogue import Catalogue
from daterun.records.fields import Reading
from daterun.records.located import Items, Mapping
from daterun.records.series import Series
from daterun.records.struck import dates_of


def is_broken(catalogue: Catalogue, under: str, name: str) -> bool:
    """Tell whether a file of this name is there but gave no record; a series goes by its short id too."""
    start = f"content/{under}/"
    paths = [path for path in catalogue.broken if path.startswith(start)]
    stems = [path.removeprefix(start).rsplit(".", 1)[0] for path in paths]
    return any(stem == name or (under == "series" and stem.endswith(f"/{name}")) for stem in stems)


def list_is_whole(at: Mapping, key: str, values: Sized) -> bool:
    """Tell whether every item written under a key was read; one value standing alone is a list of one."""
    node = at.get(key)
    if node is None:
        return True
    return len(values) == (len(node.items) if isinstance(node, Items) else 1)


def mapping_is_whole(at: Mapping, key: str, values: Sized) -> bool:
    """Tell whether every entry written under a key was read."""
    node = at.get(key)
    if node is None:
        return True
    return isinstance(node, Mapping) and len(values) == len(node.entries)


def misread_issues(series: Series) -> frozenset[str]:
    """Find the keys of the dates that the table of issues names but whose numbers could not be read."""
    return _said(series)[0] - {each.date.key for each in series.issues}


def dates_are_whole(series: Series) -> bool:
    """Tell whether every key of the table of issues was read as a date, and every year beside it."""
    struck = series.struck
    lists = (("not struck", struck.not_struck), ("not known", struck.not_known))
    return _said(series)[1] and all(list_is_whole(struck.at, key, spans) for key, spans in lists)


def _said(series: Series) -> tuple[frozenset[str], bool]:
    table = series.struck.at.get("struck")
    if not isinstance(table, Mapping):
        return frozenset(), False
    quiet = Reading(series.path, labels=series.labels)
    keys = {date.key for key, entry in table.entries.items() for date in dates_of(key, entry.place, quiet)}
    return frozenset(keys), not quiet.problems
