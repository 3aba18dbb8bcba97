"""The words of a theme, read from its files: ``words/en.yaml``, ``words/sv.yaml`` and so on.

A file holds phrases by key; keys may be nested, and are then joined by dots. A counted phrase has the forms
``one`` and ``other``. What is said with them is left to ``pages/words.py``.
"""

from collections.abc import Iterator

from daterun.pages.words import Phrase, Words
from daterun.press.theme import Theme, ThemeFile, ThemeMistake
from daterun.problems import Place, Problem
from daterun.records.located import Items, Mapping, Node, read_located

_FORMS = frozenset(("zero", "one", "other"))


def read_words(theme: Theme, language: str) -> Words:
    """Read the phrases for a language: English beneath, then the language, then its regional form.

    Within each, the folders of the theme go from the default up to the keeper's own, key by key, so that a
    keeper can change one phrase alone. Raise ThemeMistake for a file that cannot be read as phrases.
    """
    general = language.split("-")[0]
    phrases: dict[str, Phrase] = {}
    spoken = "en"
    for tongue, file in words_files(theme, language):
        phrases.update(_read_file(file))
        spoken = tongue
    return Words(language if spoken != "en" or general == "en" else "en", phrases)


def words_files(theme: Theme, language: str) -> Iterator[tuple[str, ThemeFile]]:
    """List the files that are read for a language, each with the language that it is in, the first beneath."""
    for tongue in dict.fromkeys(("en", language.split("-")[0], language)):
        for file in theme.words:
            if file.name.casefold() == f"{tongue}.yaml".casefold():
                yield tongue, file


def _read_file(file: ThemeFile) -> dict[str, Phrase]:
    try:
        text = file.path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        raise ThemeMistake(
            Problem("encoding", "this file of the theme is not UTF-8 text", Place(file.shown))
        ) from error
    node, problems = read_located(text, file.shown)
    if problems:
        raise ThemeMistake(problems[0])
    phrases: dict[str, Phrase] = {}
    if node is not None:
        _collect(node, "", phrases)
    return phrases


def _collect(node: Node, key: str, phrases: dict[str, Phrase]) -> None:
    if isinstance(node, Items) or (not key and not isinstance(node, Mapping)):
        raise ThemeMistake(
            Problem("theme", "phrases are written as keys with texts", node.place, "for example home: Home")
        )
    if not isinstance(node, Mapping):
        phrases[key] = node.value
        return
    if key and "other" in node.entries and _FORMS.issuperset(node.entries):
        forms = {form: entry.value for form, entry in node.entries.items()}
        phrases[key] = {
            form: text.value for form, text in forms.items() if not isinstance(text, Mapping | Items)
        }
        return
    for name, entry in node.entries.items():
        _collect(entry.value, f"{key}.{name}" if key else name, phrases)
