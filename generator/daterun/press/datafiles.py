"""Data for the scripts of pages, as classic scripts: a page in a folder may read no other kind of file."""

import json

from daterun.pages.findviews import DataFile


def write_data(file: DataFile) -> bytes:
    """Word a file of data as a script that adds its rows to those of the parts before it."""
    rows = json.dumps(file.rows, ensure_ascii=False, separators=(",", ":"))
    return f"window.{file.name}=(window.{file.name}||[]).concat({rows});\n".encode()
