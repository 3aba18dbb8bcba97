"""Cells that a spreadsheet would take for formulas, kept from it by an apostrophe, and freed of it again."""

_BEGINS = ("=", "+", "-", "@", "\t", "\r", "＝", "＋", "－", "＠", "'")
"""What a formula begins with in any spreadsheet, and the apostrophe itself, so that freeing undoes keeping."""


def _is_taken_for_more(text: str) -> bool:
    return text.lstrip(" \n\xa0").startswith(_BEGINS)


def guard(text: str) -> str:
    """Keep a text from being taken for a formula."""
    return f"'{text}" if _is_taken_for_more(text) else text


def unguard(text: str) -> str:
    """Free a text that was kept from being a formula; any other stays as it is."""
    return text[1:] if text.startswith("'") and _is_taken_for_more(text[1:]) else text
