"""Renders pages with a theme by itself, with stand-ins for what the press gives to templates."""

import posixpath
from pathlib import Path

import markdown
import yaml
from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from daterun.pages.pieces import Note
from daterun.pages.views import Page

THEME = Path(__file__).parents[2] / "themes" / "tray"


def theme_environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(THEME / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["scaled"] = lambda size, most: max(1, size * most // 1000)
    environment.filters["data"] = Markup
    environment.filters["mm"] = lambda hundredths: f"{hundredths / 100:g}mm"
    spoken = yaml.safe_load((THEME / "words" / "en.yaml").read_text(encoding="utf-8"))

    def to(address: str) -> str:
        if not address or address.startswith("#"):
            return address
        path, mark, fragment = address.partition("#")
        return posixpath.relpath(path, environment.globals["here"] or ".") + mark + fragment

    def words(key: str, **values: object) -> str:
        text = spoken[key]
        if isinstance(text, dict):
            text = text["one" if values["n"] == 1 else "other"]
        return text.format(**values)

    environment.globals.update(to=to, asset=lambda name: to(f"assets/{name}"), words=words)
    return environment


def render(environment: Environment, page: Page) -> str:
    """Return the HTML of a page as a press would make it."""
    environment.globals["here"] = posixpath.dirname(page.address)

    def notes(note: Note) -> Markup:
        html = markdown.markdown(note.markdown, extensions=["tables"])
        part = environment.get_template("parts/note.html.j2").module
        for link in note.links:
            written = f"[[{link.written}]]"
            made = part.plate(link) if link.is_plate else part.mention(link)
            html = html.replace(f"<p>{written}</p>", made).replace(written, made)
        return Markup(html)

    context = {
        "page": page.frame,
        "view": page.body,
        "address": page.address,
        "root": "../" * page.address.count("/"),
        "notes": notes,
    }
    return environment.get_template(f"{page.template}.html.j2").render(context)
