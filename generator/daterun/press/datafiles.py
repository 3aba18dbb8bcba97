"""Data for the scripts of pages, as classic scripts: a page in a folder may read no other kind of file."""

import json
import re
from typing import Any

from daterun.pages.findviews import DataFile

_WHOLE = re.compile(r"\(window\.(\w+)=window\.\1\|\|\[\]\)\[(\d+)\]=(\[.*\]);\n")


def write_data(file: DataFile) -> bytes:
    """Word a part of the data as a script that lays its rows down in its place, whichever part is read first."""
    rows = json.dumps(file.rows, ensure_ascii=False, separators=(",", ":"))
    return f"(window.{file.name}=window.{file.name}||[])[{file.part}]={rows};\n".encode()


def read_data(address: str, data: bytes) -> DataFile:
    """Read a part of the data as ``write_data`` worded it. Raise ValueError where it is none."""
    whole = _WHOLE.fullmatch(data.decode("utf-8"))
    if whole is None:
        raise ValueError(f"{address} is no data for scripts")
    rows: Any = _frozen(json.loads(whole[3]))
    return DataFile(address, whole[1], int(whole[2]), rows)


def _frozen(value: object) -> object:
    return tuple(_frozen(each) for each in value) if isinstance(value, list) else value
