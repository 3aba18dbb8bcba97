"""Printing, told as a story: read all, check all, close for the reader, plan, make the pictures, set the sheets.

Nothing is written before all of it is made, so that a mistake leaves the last good print as it was.
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from daterun.bundled import themes_folder
from daterun.pages.printchoice import Choice
from daterun.pages.printpieces import CatalogueSheets, LabelSheets, Sheets
from daterun.pages.printplan import LABELS, WANTS, PrintPlan, plan_print
from daterun.pages.words import MissingWord, Words
from daterun.press.codes import draw_code
from daterun.press.folders import MEMORY, choose_output
from daterun.press.labelsheets import LabelSheet
from daterun.press.notetree import NoteTrees
from daterun.press.printdata import BREAK, PrintData, say_lacking
from daterun.press.printed import FOLDER, volume_name, write_printed
from daterun.press.printstore import PrintStore
from daterun.press.printtheme import read_print_theme
from daterun.press.searching import Search, word_finds
from daterun.press.theme import ThemeMistake, find_theme
from daterun.press.turns import taking_turns
from daterun.press.typeset import Typesetter
from daterun.press.words import read_words
from daterun.problems import Place, Problem, sort_problems
from daterun.readers.closed import ClosedCatalogue
from daterun.readers.closing import close_catalogue
from daterun.readers.reader import Reader
from daterun.result import Progress, silent
from daterun.site import check, search_for

WANT_SIZES = (100, 95, 90, 85, 80, 75, 70)
"""Sizes of type of the want list in tenths of a point: the largest that needs no more sheets is taken."""


@dataclass(frozen=True, slots=True)
class Form:
    """How sheets are laid out: paper, columns of entries, the pocket form, the sheet of labels or its test."""

    paper: str = "a4"
    columns: int = 2
    fold: bool = False
    labels: LabelSheet | None = None
    is_test: bool = False


@dataclass(frozen=True, slots=True)
class PrintResult:
    """What printing came to. With errors among the problems, what was printed before is as it was.

    Written are the files whose bytes changed. Advice tells of letters that the fonts lack, and of labels whose
    text does not fit.
    """

    problems: tuple[Problem, ...]
    files: tuple[Path, ...] = ()
    written: tuple[str, ...] = ()
    pictures_made: int = 0
    advice: tuple[str, ...] = ()

    @property
    def has_errors(self) -> bool:
        return any(each.is_error for each in self.problems)


def print_sheets(
    folder: Path,
    what: str,
    reader: Reader,
    choice: Choice = Choice(),  # noqa: B008 - frozen, as is the next
    form: Form = Form(),
    progress: Progress = silent,
) -> PrintResult:
    """Print one thing for a reader into ``output/<reader>/print``.

    Raise CannotContinue where the reader may not have it, or a choice names what is not there.
    """
    root = choose_output(folder, reader.value, None)
    with taking_turns(folder, reader.value, root):
        return _print(folder, root, what, reader, choice, form, progress)


def _print(
    folder: Path, root: Path, what: str, reader: Reader, choice: Choice, form: Form, progress: Progress
) -> PrintResult:
    checked = check(folder, progress)
    if checked.has_errors:
        return PrintResult(checked.problems)
    settings = checked.catalogue.settings
    try:
        theme = find_theme(settings.theme, folder, themes_folder(), settings.at.place_of("theme"))
        words = read_words(theme, settings.language)
        printing = read_print_theme(theme)
        closed = close_catalogue(checked.catalogue, checked.photos, reader)
        plan = _plan(closed, what, words, choice)
        data = PrintData(printing.letters, NoteTrees(settings.language).make)
        volumes = [_data_of(each, data, words, form) for each in plan.volumes]
        if found := _search(search_for(checked, closed, words, theme), what, volumes, reader):
            return PrintResult(sort_problems([*checked.problems, *found]))
        store = PrintStore(folder / MEMORY / "print")
        store.note(f"{reader.value}-{what}", data.gathered.pictures, choice.is_whole)
        made, found = store.make(
            [plan.orders[each] for each in sorted(data.gathered.pictures)],
            {photo.key: (folder / photo.path, photo.path) for photo in checked.photos.values()},
            lambda done, total: progress("pictures", done, total),
        )
        if found:
            return PrintResult(sort_problems([*checked.problems, *found]))
        typesetter = Typesetter(printing, store.root)
        sheets, advice = _set(typesetter, what, volumes, plan, form, progress)
    except ThemeMistake as mistake:
        return PrintResult(sort_problems([*checked.problems, mistake.problem]))
    progress("writing", 0, 0)
    name = "labels-test" if form.is_test else what
    written = write_printed(root, reader.value, name, sheets)
    store.prune()
    advice = [*_lacking_advice(data), *advice]
    files = tuple(root / FOLDER / each for each in sheets)
    return PrintResult(checked.problems, files, written, made, tuple(advice))


def _plan(closed: ClosedCatalogue, what: str, words: Words, choice: Choice) -> PrintPlan:
    try:
        return plan_print(what, closed, words, choice)
    except MissingWord as missing:
        raise ThemeMistake(Problem("theme", str(missing), Place("themes/words"))) from missing


def _search(
    search: Search, what: str, volumes: Iterable[Mapping[str, Any]], reader: Reader
) -> tuple[Problem, ...]:
    """Seek what the reader may not see in all that is about to be set."""
    finds = []
    for volume in volumes if search else ():
        text = json.dumps(volume["view"], ensure_ascii=False).replace(BREAK, "")
        finds += search.in_file(f"{FOLDER}/{what}.json", text.encode())
    return word_finds(finds, reader.value)


def _data_of(sheets: Sheets, data: PrintData, words: Words, form: Form) -> dict[str, Any]:
    """Make the data of one volume: its view, the templates' words, the form, and the entry of each address."""
    made = data.make(sheets)
    if isinstance(sheets, LabelSheets):
        for label in made["labels"]:
            label["drawn"] = draw_code(label["code"])
    entries = {}
    if isinstance(sheets, CatalogueSheets):
        entries = {each.address: each.number for section in sheets.sections for each in section.entries}
    prefix = "print.sheet."
    return {
        "view": made,
        "words": {
            key.removeprefix(prefix): data.text(phrase)
            for key, phrase in words.phrases.items()
            if key.startswith(prefix) and isinstance(phrase, str)
        },
        "form": {
            "paper": "a4" if form.paper == "a4" else "us-letter",
            "columns": form.columns,
            "fold": form.fold,
            "test": form.is_test,
            "size": WANT_SIZES[0],
            "labels": form.labels.as_data() if form.labels is not None else {},
        },
        "entries": entries,
    }


def _set(
    typesetter: Typesetter,
    what: str,
    volumes: list[dict[str, Any]],
    plan: PrintPlan,
    form: Form,
    progress: Progress,
) -> tuple[dict[str, bytes], list[str]]:
    """Set every volume; tell of what does not fit."""
    sheets: dict[str, bytes] = {}
    advice: list[str] = []
    for nth, (volume, view) in enumerate(zip(volumes, plan.volumes, strict=True), start=1):
        progress("typesetting", nth - 1, len(volumes))
        day = view.title.day
        name = "labels-test.pdf" if form.is_test else volume_name(what, nth, len(volumes))
        if what == WANTS:
            volume = _with_fewest_sheets(typesetter, volume)
        sheets[name] = typesetter.set(what, volume, day, apart=len(volumes) > 1)
        if what == LABELS and not form.is_test:
            advice += [
                f"the text of {each.replace(BREAK, '')} does not fit its label, and is cut"
                for each in typesetter.ask(what, volume, "overfull")
            ]
        progress("typesetting", nth, len(volumes))
    return sheets, advice


def _with_fewest_sheets(typesetter: Typesetter, data: Mapping[str, Any]) -> dict[str, Any]:
    """Choose the largest type at which the want list needs no more sheets than at the smallest."""

    def at(size: int) -> dict[str, Any]:
        return {**data, "form": {**data["form"], "size": size}}

    def sheets(size: int) -> int:
        found = typesetter.ask(WANTS, at(size), "sheets")
        return int(found[0]) if found else 0

    fewest = sheets(WANT_SIZES[-1])
    return at(next((each for each in WANT_SIZES if sheets(each) <= fewest), WANT_SIZES[-1]))


def _lacking_advice(data: PrintData) -> Iterable[str]:
    for owner, letters in say_lacking(data.gathered.lacking):
        yield f"the fonts have no letter for {letters}, in {owner or 'the catalogue'}; ¤ is printed"
