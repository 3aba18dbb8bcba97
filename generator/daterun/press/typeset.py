"""Typesetting: data and a template of the theme into a PDF, by Typst.

The data are handed over as JSON, whose texts are never read as markup; the templates reach nothing but them and
the pictures under one folder. The PDF is tagged and to PDF/UA-1, and to PDF/A-2a where the catalogue has a day.
"""

import json
import re
from collections.abc import Mapping
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

    def set(self, template: str, data: Mapping[str, Any], day: tuple[int, ...]) -> bytes:
        """Set one document; the day is that of its making. Raise ThemeMistake for a mistake in a template."""
        try:
            made = typst.compile(
                self._files(template),
                root=str(self.root),
                font_paths=self._fonts(),
                sys_inputs=_inputs(data),
                format="pdf",
                pdf_standards=["a-2a", "ua-1"] if day else ["ua-1"],
                timestamp=datetime(day[0], day[1], day[2], 12, tzinfo=UTC) if day else _EARLIEST,
            )
        except typst.TypstError as error:
            raise self._mistake(template, error) from error
        assert isinstance(made, bytes)
        return made

    def ask(self, template: str, data: Mapping[str, Any], label: str) -> list[Any]:
        """Set a document and give the values that its template leaves under a label."""
        try:
            found = typst.query(
                self._files(template),
                f"<{label}>",
                field="value",
                root=str(self.root),
                font_paths=self._fonts(),
                sys_inputs=_inputs(data),
            )
        except RuntimeError as error:  # a query tells no place; setting the document does
            self.set(template, data, ())
            raise self._mistake(template, error) from error
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

    def _fonts(self) -> typst.Fonts:
        return typst.Fonts(
            include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(self.theme.fonts)]
        )

    def _mistake(self, template: str, error: RuntimeError) -> ThemeMistake:
        found = _AT.search(getattr(error, "diagnostic", "") or "")
        name, line, column = f"{template}.typ", 0, 0
        if found is not None:
            name = found[1].rpartition("/")[2]
            name = f"{template}.typ" if name == "main.typ" else name
            line, column = int(found[2]), int(found[3])
        place = Place(self.theme.shown.get(name, f"print/{name}"), line, column)
        sentence = getattr(error, "message", "") or str(error)
        return ThemeMistake(Problem("theme", sentence, place, "; ".join(getattr(error, "hints", None) or ())))


def _inputs(data: Mapping[str, Any]) -> dict[str, str]:
    return {"data": json.dumps(data, ensure_ascii=False, separators=(",", ":"))}
