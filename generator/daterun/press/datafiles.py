"""Data for the scripts of pages, as classic scripts: a page in a folder may read no other kind of file."""

import json

from daterun.pages.findviews import DataFile


def write_data(file: DataFile) -> bytes:
    """Word a part of the data as a script that lays its rows down in its place, whichever part is read first."""
    rows = json.dumps(file.rows, ensure_ascii=False, separators=(",", ":"))
    return f"(window.{file.name}=window.{file.name}||[])[{file.part}]={rows};\n".encode()
