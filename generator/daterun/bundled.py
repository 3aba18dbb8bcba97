"""Where the folders lie that travel with the program: the default theme, and the demo's content.

In a wheel they lie inside the package; in a checkout they are the top level's own.
"""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def find_bundled(name: str, package: Path = _PACKAGE) -> Path:
    """Find a bundled folder, ``themes`` or ``content``: the package's own, else the checkout's.

    Raise FileNotFoundError where neither is there, which only a damaged installation shows.
    """
    for folder in (package / "bundle" / name, package.parent.parent / name):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"the folder {name} that came with Daterun is missing; install it again")


def themes_folder() -> Path:
    return find_bundled("themes")


def content_folder() -> Path:
    return find_bundled("content")
