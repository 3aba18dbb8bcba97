"""The months by name, in the languages in which headings are known too: English, German and French."""

import unicodedata

_NAMES = (
    "january|januar|jänner|janvier",
    "february|februar|feber|février",
    "march|märz|maerz|mars",
    "april|avril",
    "may|mai",
    "june|juni|juin",
    "july|juli|juillet",
    "august|août",
    "september|septembre",
    "october|oktober|octobre",
    "november|novembre",
    "december|dezember|décembre",
)


def _folded(text: str) -> str:
    """Take the marks from letters, so that März and Marz are one."""
    return "".join(
        each for each in unicodedata.normalize("NFD", text.casefold()) if not unicodedata.combining(each)
    )


_MONTHS = {_folded(name): nth for nth, names in enumerate(_NAMES, start=1) for name in names.split("|")}


def month_of(word: str) -> int | None:
    """Find a month by its name, or by the first three letters of it or more; None where none or two begin so."""
    asked = _folded(word)
    if len(asked) < 3:
        return None
    found = {number for name, number in _MONTHS.items() if name.startswith(asked)}
    return found.pop() if len(found) == 1 else None
