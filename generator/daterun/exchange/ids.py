"""Ids for new coins: named after series, date and what sets the coin apart, and never one that is taken."""

from collections.abc import Container

from daterun.exchange.yamltext import Plain
from daterun.naming import slug
from daterun.records.files import fold_name


def wish_id(series_name: str, values: dict[str, Plain]) -> str:
    """Name a coin as the keeper would: ``ort/1899``, ``ort/1902-k``, ``ort/1899-proof``."""
    apart = [values.get("date", "undated")]
    for key in ("mint", "variety", "strike", "kind"):
        value = values.get(key)
        words = [value] if isinstance(value, str) else list(value or ())
        apart += [each for each in words if each not in ("none", "ordinary", "regular")]
    own = "-".join(slug(str(each).replace("?", "x")) for each in apart if each)
    folder = "/".join(slug(each) for each in series_name.split("/"))
    return f"{folder}/{own}"


def free_id(wish: str, taken: Container[str], counted: dict[str, int] | None = None) -> str:
    """Choose an id that is not taken: the wish, or else the wish with a number. The taken are folded.

    Counted is a memory for many coins of one wish, of how far the numbers of each have gone.
    """
    counted = {} if counted is None else counted
    if wish not in counted and fold_name(wish) not in taken:
        return wish
    number = counted.get(wish, 2)
    while fold_name(f"{wish}-{number}") in taken:
        number += 1
    counted[wish] = number
    return f"{wish}-{number}"
