"""The part of a theme that is for print: templates for Typst, and the fonts that alone are used."""

import hashlib
from dataclasses import dataclass
from pathlib import Path

from daterun.press.glyphs import read_letters
from daterun.press.theme import Theme, ThemeMistake
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
    fonts: Path | None = None
    for folder in reversed(theme.folders):
        for path in sorted((folder / "print").glob("*.typ")):
            templates[path.name] = path.read_bytes()
            shown[path.name] = f"themes/{folder.name}/print/{path.name}"
        if _fonts_in(folder / "print" / "fonts"):
            fonts = folder / "print" / "fonts"
    if fonts is None:
        raise ThemeMistake(
            Problem("theme", "the theme has no fonts for print", Place(f"themes/{theme.name}/print/fonts"))
        )
    whole = hashlib.blake2b(digest_size=16)
    for path in _fonts_in(fonts):
        whole.update(path.read_bytes())
    for name, text in sorted(templates.items()):
        whole.update(f"{name}\0{len(text)}\0".encode() + text)
    try:
        letters = read_letters(_fonts_in(fonts))
    except ValueError as error:
        raise ThemeMistake(
            Problem("theme", str(error), Place(f"themes/{fonts.parent.parent.name}/print/fonts"))
        ) from error
    return PrintTheme(templates, shown, fonts, letters, whole.hexdigest())


def _fonts_in(folder: Path) -> list[Path]:
    if not folder.is_dir():
        return []
    return sorted(each for each in folder.iterdir() if each.suffix.lower() in (".ttf", ".otf"))
