"""The part of a theme that is for print: templates for Typst, and the fonts that alone are used."""

import hashlib
from dataclasses import dataclass
from pathlib import Path

from daterun.press.glyphs import read_letters
from daterun.press.theme import Theme, ThemeFile, ThemeMistake, all_files
from daterun.problems import Place, Problem


@dataclass(frozen=True, slots=True)
class PrintTheme:
    """Templates by name with how each is shown to the keeper, the folder of the fonts, and their letters."""

    templates: dict[str, bytes]
    shown: dict[str, str]
    fonts: Path
    letters: frozenset[int]
    fingerprint: str


def read_print_theme(theme: Theme) -> PrintTheme:
    """Read a theme's templates for print, the keeper's own before the default's, file by file.

    The fonts are those of the first folder that has any. Raise ThemeMistake where there are none, or one cannot
    be read.
    """
    templates: dict[str, bytes] = {}
    shown: dict[str, str] = {}
    fonts: list[ThemeFile] = []
    for folder in reversed(theme.folders):
        found = tuple(all_files((folder,), "print"))
        for file in found:
            if file.name.endswith(".typ") and "/" not in file.name:
                templates[file.name] = file.path.read_bytes()
                shown[file.name] = file.shown
        fonts = [each for each in found if _is_font(each)] or fonts
    if not fonts:
        raise ThemeMistake(
            Problem("theme", "the theme has no fonts for print", Place(f"themes/{theme.name}/print/fonts"))
        )
    whole = hashlib.blake2b(digest_size=16)
    for file in fonts:
        whole.update(file.path.read_bytes())
    for name, text in sorted(templates.items()):
        whole.update(f"{name}\0{len(text)}\0".encode() + text)
    try:
        letters = read_letters([each.path for each in fonts])
    except ValueError as error:
        raise ThemeMistake(Problem("theme", str(error), Place(fonts[0].shown.rpartition("/")[0]))) from error
    return PrintTheme(templates, shown, fonts[0].path.parent, letters, whole.hexdigest())


def _is_font(file: ThemeFile) -> bool:
    folder, _, name = file.name.rpartition("/")
    return folder == "fonts" and name.lower().endswith((".ttf", ".otf"))
