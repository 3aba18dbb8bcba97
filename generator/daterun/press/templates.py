"""Pages made of views by a theme's templates. A mistake in a template is told with its file and line."""

from collections import defaultdict
from collections.abc import Callable, MutableMapping
from dataclasses import fields, is_dataclass
from functools import cache, lru_cache
from keyword import iskeyword
from pathlib import Path
from types import TracebackType
from typing import Any

from jinja2 import (
    FunctionLoader,
    StrictUndefined,
    TemplateError,
    TemplateNotFound,
    TemplateSyntaxError,
    nodes,
)
from jinja2.compiler import CodeGenerator, Frame
from markupsafe import Markup, escape

from daterun.pages.pieces import Note, NoteLink
from daterun.pages.views import Page
from daterun.pages.words import MissingWord, Words
from daterun.press import bounds, fragments
from daterun.press.addresses import link_from, quoted, root_from
from daterun.press.bounds import BoundedEnvironment
from daterun.press.notes import NotePress
from daterun.press.theme import Theme, ThemeMistake
from daterun.problems import Place, Problem, meant

NOT_FOUND = "404.html"


class UnknownAsset(LookupError):
    """An asset that a template asks for and the theme does not have."""


class Press:
    """Makes pages of one edition: the theme's templates, its words, and the page that is on the press now.

    The base is the path at which the site will lie, such as ``/coins/``, for the links of the page for lost
    addresses; "" where it is not known.

    A theme may come from a stranger: its templates run in Jinja2's sandbox, and none is kept compiled, for what
    is compiled and lies on disk is a program that anyone may have put there.
    """

    def __init__(self, theme: Theme, words: Words, base: str = "") -> None:
        self.theme = theme
        self.words = words
        self.base = base
        self.address = ""
        self.notes_made = 0
        self.environment = _environment(theme)
        self.environment.offer(to=self._to, asset=self._asset, words=words.say, notes=self._notes)
        self.environment.filters.update(scaled=_scaled, mm=_mm, data=_data)
        self._assets: dict[str, str] = {}
        self._note_press: NotePress | None = None

    def render(self, page: Page) -> str:
        """Make a page's HTML. Raise ThemeMistake, with its place, for what is wrong in the theme."""
        self.address = page.address
        self.notes_made = 0
        folder = page.address.rpartition("/")[0]
        self.environment.begin(quoted(folder) if page.address != NOT_FOUND else None)
        name = f"{page.template}.html.j2"
        try:
            template = self.environment.get_template(name)
            return template.render(
                page=page.frame, view=page.body, address=page.address, root=root_from(page.address)
            )
        except Exception as error:
            problem = self._problem_of(error)
            if problem is None:
                raise
            raise ThemeMistake(problem) from error

    def _to(self, address: str) -> str:
        link = link_from(self.address, address, self.base if self.address == NOT_FOUND else "")
        self.environment.fragments.follow(link)
        return link

    def _asset(self, name: str) -> str:
        """Link to an asset. No page lies in a folder of assets, so that the way leads over the root."""
        if name not in self.theme.assets:
            raise UnknownAsset(name)
        if self.address == NOT_FOUND:
            return self._to(self.theme.asset_address(name))
        if name not in self._assets:
            self._assets[name] = quoted(self.theme.asset_address(name))
        return root_from(self.address) + self._assets[name]

    def _notes(self, note: Note, top: int = 2) -> Markup:
        self.notes_made += 1
        if self._note_press is None:
            back = (
                self.words.say("theme.footnote.back", n="{}") if "theme.footnote.back" in self.words else ""
            )
            plate, mention = self._part("plate"), self._part("mention")
            self._note_press = NotePress(self.words.language, plate, mention, back)
        return self._note_press.make(note, self.notes_made, top)

    def _part(self, macro: str) -> Callable[[NoteLink], str]:
        name = "parts/note.html.j2"
        module = self.environment.get_template(name).module
        if not hasattr(module, macro):
            shown = self.theme.templates[name].shown
            raise ThemeMistake(Problem("theme", f'this template has no macro "{macro}"', Place(shown)))

        def show(link: NoteLink) -> str:
            return str(getattr(module, macro)(link)).strip()

        return show

    def _problem_of(self, error: Exception) -> Problem | None:
        """Word what went wrong as a problem of the theme; None where the fault is not the theme's."""
        if isinstance(error, ThemeMistake):
            return error.problem
        if isinstance(error, TemplateSyntaxError):
            return Problem("theme", f"{error.message}", self._place(error.filename, error.lineno))
        place = self._innermost(error.__traceback__)
        if isinstance(error, TemplateNotFound):
            sentence = f'the theme has no template "{error.name}"'
            hint = meant(str(error.name), self.theme.templates)
            return Problem("theme", sentence, place or Place(f"themes/{self.theme.name}"), hint)
        if isinstance(error, UnknownAsset):
            sentence = f'the theme has no asset "{error}"'
            return Problem("theme", sentence, place or Place(""), meant(str(error), self.theme.assets))
        if isinstance(error, MissingWord):
            known = [each for each in self.words.phrases if "." in each] or list(self.words.phrases)
            hint = "" if error.gap else meant(error.key, known)
            return Problem("theme", str(error), place or Place(f"themes/{self.theme.name}/words"), hint)
        is_theirs = isinstance(error, TemplateError | RecursionError) or self._ends_in_template(error)
        own_fault = place is None or not is_theirs
        return None if own_fault else Problem("theme", f"the template fails: {error}", place or Place(""))

    def _place(self, filename: str | None, line: int) -> Place:
        shown = {str(each.path): each.shown for each in self.theme.templates.values()}
        return Place(shown.get(filename or "", filename or ""), line, 1)

    def _frames(self, traceback: TracebackType | None) -> list[tuple[str, int]]:
        found = []
        while traceback is not None:
            found.append((traceback.tb_frame.f_code.co_filename, traceback.tb_lineno))
            traceback = traceback.tb_next
        return found

    def _innermost(self, traceback: TracebackType | None) -> Place | None:
        paths = {str(each.path) for each in self.theme.templates.values()}
        inside = [each for each in self._frames(traceback) if each[0] in paths]
        return self._place(*inside[-1]) if inside else None

    def _ends_in_template(self, error: Exception) -> bool:
        """Tell whether an error arose in a template itself, not in what of this program it called."""
        frames = self._frames(error.__traceback__)
        own = str(Path(__file__).parent.parent)
        sandbox = (bounds.__file__, fragments.__file__)
        paths = {*(str(each.path) for each in self.theme.templates.values()), *sandbox}
        last_in_template = max((n for n, each in enumerate(frames) if each[0] in paths), default=-1)
        return not any(
            name.startswith(own) and name not in paths for name, _ in frames[last_in_template + 1 :]
        )


@cache
def _fields_of(kind: type) -> frozenset[str]:
    """Name the fields of a kind of view; none for anything else that a template may meet."""
    if not is_dataclass(kind) or not kind.__module__.startswith("daterun.pages."):
        return frozenset()
    return frozenset(each.name for each in fields(kind) if not each.name.startswith("_"))


_LONGEST_KEPT = 500
"""Letters of a text that is kept escaped."""

_escaped = lru_cache(maxsize=1 << 14)(escape)


def _escape(value: Any) -> Markup:
    """Escape what a template puts out; a text that was put out a moment ago is not escaped again."""
    kind = type(value)
    if kind is str:
        return _escaped(value) if len(value) < _LONGEST_KEPT else escape(value)
    return value if kind is Markup else escape(value)


class _Generator(CodeGenerator):
    """Jinja2's own, but that fields of views are taken straight away, and escaping is that of this module."""

    def visit_Template(self, node: nodes.Template, frame: Frame | None = None) -> None:  # noqa: N802
        super().visit_Template(node, frame)
        self.writeline("escape = environment.escape")
        self.writeline("kinds_with = environment.kinds_with")

    def visit_Getattr(self, node: nodes.Getattr, frame: Frame) -> None:  # noqa: N802
        if iskeyword(node.attr):
            super().visit_Getattr(node, frame)
            return
        thing = self.temporary_identifier()
        self.write(f"({thing}.{node.attr} if type({thing} := ")
        self.visit(node.node, frame)
        self.write(f") in kinds_with[{node.attr!r}] else environment.getattr({thing}, {node.attr!r}))")


class _Sandbox(BoundedEnvironment):
    """Jinja2's sandbox with bounds, but that it does not ask again whether a field of a view may be seen.

    Views hold nothing else than what is to be shown, and the asking took half of the time of a page. The kinds
    with a field are those that templates have met so far.
    """

    code_generator_class = _Generator
    escape = staticmethod(_escape)

    def __init__(self, **options: Any) -> None:
        self.kinds_with: defaultdict[str, set[type]] = defaultdict(set)
        super().__init__(**options)

    def getattr(self, obj: Any, attribute: str) -> Any:
        kind: type = type(obj)
        if attribute in _fields_of(kind):
            self.kinds_with[attribute].add(kind)
            return getattr(obj, attribute)
        return super().getattr(obj, attribute)

    def make_globals(self, d: MutableMapping[str, Any] | None) -> MutableMapping[str, Any]:
        """Give a template what all have, in a plain dict: Jinja2's chain is slow to compare at each import."""
        return {**self.globals, **(d or {})}


def _environment(theme: Theme) -> BoundedEnvironment:
    def load(name: str) -> tuple[str, str, Callable[[], bool]] | None:
        file = theme.templates.get(name)
        if file is None:
            return None
        try:
            return file.path.read_text(encoding="utf-8-sig"), str(file.path), lambda: True
        except UnicodeDecodeError as error:
            raise ThemeMistake(Problem("theme", "this file is not UTF-8 text", Place(file.shown))) from error

    return _Sandbox(
        loader=FunctionLoader(load),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        auto_reload=False,
        cache_size=-1,
    )


def _scaled(size: int, most: int) -> int:
    """Scale a size in thousandths to whole pixels, one at least."""
    return max(1, size * most // 1000)


def _data(json: str) -> Markup:
    """Put JSON into a script element as data: what would end the element is written as the escapes of JSON."""
    return Markup(json.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e"))


def _mm(hundredths: int) -> str:
    """Write hundredths of a millimetre as a length for CSS and SVG: 2650 is ``26.5mm``."""
    whole, rest = divmod(hundredths, 100)
    return f"{whole}.{rest:02}".rstrip("0").rstrip(".") + "mm"
