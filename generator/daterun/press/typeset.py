"""Typesetting: data and a template of the theme into a PDF, by Typst.

The data are handed over as JSON, whose texts are never read as markup; the templates reach nothing but them and
the pictures under one folder. The PDF is tagged and to PDF/UA-1, and to PDF/A-2a where the catalogue has a day.
"""

import json
import multiprocessing
import re
from collections.abc import Mapping
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import typst

from daterun.press.printtheme import PrintTheme
from daterun.press.theme import ThemeMistake
from daterun.problems import Place, Problem

_EARLIEST = datetime(1980, 1, 1, tzinfo=UTC)
"""The time of making that a PDF bears whose catalogue has no day: always the same, and plainly no real one."""

_AT = re.compile(r"┌─ (?:\\\\\?\\|/)?([^\s:]+):(\d+):(\d+)")


@dataclass(frozen=True, slots=True)
class Typesetter:
    """Sets data by a theme's templates; pictures lie under the root."""

    theme: PrintTheme
    root: Path

    def set(self, template: str, data: Mapping[str, Any], day: tuple[int, ...], apart: bool = False) -> bytes:
        """Set one document; the day is that of its making. Raise ThemeMistake for a mistake in a template.

        Apart, it is set in a process of its own: Typst keeps what it has read, and several volumes in one process
        would add up.
        """
        job = _Job(self._files(template), str(self.root), str(self.theme.fonts), _inputs(data), day)
        if apart:
            spawn = multiprocessing.get_context("spawn")
            with ProcessPoolExecutor(1, mp_context=spawn) as process:
                made = process.submit(_compile, job).result()
        else:
            made = _compile(job)
        if isinstance(made, _Failure):
            raise self._mistake(template, made)
        return made

    def ask(self, template: str, data: Mapping[str, Any], label: str) -> list[Any]:
        """Set a document and give the values that its template leaves under a label."""
        try:
            found = typst.query(
                self._files(template),
                f"<{label}>",
                field="value",
                root=str(self.root),
                font_paths=_fonts(str(self.theme.fonts)),
                sys_inputs=_inputs(data),
            )
        except RuntimeError as error:  # a query tells no place; setting the document does
            self.set(template, data, ())
            raise self._mistake(template, _Failure(str(error), "", ())) from error
        values: list[Any] = json.loads(found)
        return values

    def _files(self, template: str) -> Any:
        """Give the template and all that it may import; the stubs of typst do not know that it takes several."""
        name = f"{template}.typ"
        if name not in self.theme.templates:
            raise ThemeMistake(
                Problem("theme", f"the theme has no template {name} for print", Place(f"print/{name}"))
            )
        others = {each: text for each, text in self.theme.templates.items() if each != name}
        return {"main.typ": self.theme.templates[name], **others}

    def _mistake(self, template: str, failure: "_Failure") -> ThemeMistake:
        found = _AT.search(failure.diagnostic)
        name, line, column = f"{template}.typ", 0, 0
        if found is not None:
            name = found[1].rpartition("/")[2]
            name = f"{template}.typ" if name == "main.typ" else name
            line, column = int(found[2]), int(found[3])
        place = Place(self.theme.shown.get(name, f"print/{name}"), line, column)
        return ThemeMistake(Problem("theme", failure.message, place, "; ".join(failure.hints)))


@dataclass(frozen=True, slots=True)
class _Job:
    """All that setting one document needs, so that another process can do it."""

    files: Any
    root: str
    fonts: str
    inputs: dict[str, str]
    day: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class _Failure:
    """What Typst says of a template that it cannot set."""

    message: str
    diagnostic: str
    hints: tuple[str, ...]


def _compile(job: _Job) -> bytes | _Failure:
    day = job.day
    try:
        made = typst.compile(
            job.files,
            root=job.root,
            font_paths=_fonts(job.fonts),
            sys_inputs=job.inputs,
            format="pdf",
            pdf_standards=["a-2a", "ua-1"] if day else ["ua-1"],
            timestamp=datetime(day[0], day[1], day[2], 12, tzinfo=UTC) if day else _EARLIEST,
        )
    except typst.TypstError as error:
        return _Failure(error.message, error.diagnostic or "", tuple(error.hints or ()))
    assert isinstance(made, bytes)
    return made


def _fonts(folder: str) -> typst.Fonts:
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[folder])


def _inputs(data: Mapping[str, Any]) -> dict[str, str]:
    return {"data": json.dumps(data, ensure_ascii=False, separators=(",", ":"))}
