"""The settings of a catalogue: its title and keeper, what each reader may see, pictures, aims and wants."""

from dataclasses import dataclass, field
from enum import StrEnum

from daterun.problems import Misread
from daterun.records.aims import AIM, WANT, Aim, Want
from daterun.records.fields import MISREAD, Field, Form, Kind, Reading, read_form, read_value
from daterun.records.kinds import (
    choice,
    day,
    fine_money,
    like,
    list_of,
    mapping_of,
    of_text,
    record,
    text_kind,
    whole_number,
    yes_no,
)
from daterun.records.located import Mapping, Node
from daterun.records.web import parse_web
from daterun.trade.dates import Day
from daterun.trade.grading import Habit
from daterun.trade.money import Money, parse_currency


class PictureFormat(StrEnum):
    """The file format of the pictures made."""

    JPEG = "jpeg"
    AVIF = "avif"
    WEBP = "webp"


@dataclass(frozen=True, slots=True)
class MetalPrice:
    """A price of fine metal, per gram or troy ounce, of a day and from a source."""

    price: Money
    per: str
    on: Day
    source: str
    at: Mapping = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Permissions:
    """What a reader's edition is widened by, where the design lets it be; None means as usual."""

    wants: bool | None
    certificate_numbers: bool | None
    at: Mapping = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Pictures:
    """The format and widths of the pictures, in pixels, widest first; the narrowest is for the grids.

    Plates is whether there is one of each coin to take away.
    """

    format: PictureFormat = PictureFormat.JPEG
    widths: tuple[int, ...] = (1600, 640, 160, 48)
    plates: bool = True


@dataclass(frozen=True, slots=True)
class Settings:
    """All that ``catalogue.yaml`` says. As-of is None where ages go by the latest date on record."""

    path: str
    title: str
    keeper: str
    summary: str
    language: str
    grading: Habit
    theme: str
    web: str
    currency: str
    as_of: Day | None
    metals: dict[str, MetalPrice]
    readers: dict[str, Permissions]
    may_be_named: tuple[str, ...]
    pictures: Pictures
    aims: tuple[Aim, ...]
    wants: tuple[Want, ...]
    at: Mapping = field(compare=False, repr=False)


METAL_PRICE = Form(
    "a metal price",
    (
        Field("price", fine_money, "the price of fine metal", required=True),
        Field("per", like(text_kind, "g"), "g or oz t", default="g"),
        Field("on", day, "the day of the price", required=True),
        Field("source", like(text_kind, "evening paper"), "where it was read", required=True),
    ),
)


PERMISSIONS = Form(
    "what a reader may see",
    (
        Field("wants", yes_no, "whether the want list is shown"),
        Field("certificate numbers", yes_no, "whether certificate numbers are shown"),
    ),
)

READERS = Form(
    "the list of readers",
    tuple(
        Field(reader, record(PERMISSIONS, Permissions, "{wants: no}"), f"the {reader} edition")
        for reader in ("public", "club")
    ),
)


def _read_readers(node: Node, reading: Reading) -> dict[str, Permissions]:
    if not isinstance(node, Mapping):
        raise Misread("readers are written with what each may see", "for example {public: {wants: no}}")
    values = read_form(READERS, node, reading) or {}
    return {key: value for key, value in values.items() if isinstance(value, Permissions)}


PICTURES = Form(
    "the pictures",
    (
        Field(
            "format",
            choice(PictureFormat, "a format of pictures", "jpeg"),
            "jpeg, webp or avif",
            default=PictureFormat.JPEG,
        ),
        Field(
            "widths",
            list_of(whole_number, "two or more whole numbers", 2, "[1600, 640, 160, 48]"),
            "the widths in pixels",
            default=(1600, 640, 160, 48),
        ),
        Field("plates", yes_no, "whether a plate of each coin is made to take away", default=True),
    ),
)


def _read_pictures(node: Node, reading: Reading) -> Pictures:
    if not isinstance(node, Mapping):
        raise Misread(
            "pictures are written as a format and widths",
            "for example {format: jpeg, widths: [1600, 640, 160, 48]}",
        )
    values = read_form(PICTURES, node, reading) or {}
    widths = tuple(sorted(set(values.get("widths") or ()), reverse=True))
    if any(not 16 <= each <= 8000 for each in widths) or len(widths) < 2:
        reading.report(
            "number",
            "the widths of pictures are two or more, from 16 to 8000 pixels",
            node.place_of("widths"),
        )
        return Pictures()
    return Pictures(values["format"], widths, values["plates"])


def _read_metals(node: Node, reading: Reading) -> dict[str, MetalPrice]:
    prices = record(
        METAL_PRICE, MetalPrice, "{price: 0.61 VKR, per: g, on: 2026-10-02, source: evening paper}"
    )
    return mapping_of(prices, "metals with their prices", "{silver: {…}}").read(node, reading)


def _read_theme(text: str, _: Reading) -> str:
    if not text or not all(c.isascii() and (c.isalnum() or c in "-_") for c in text):
        raise Misread(f'"{text}" is not the name of a folder under themes')
    return text


def _read_language(text: str, _: Reading) -> str:
    if not (2 <= len(text) <= 20 and all(c.isascii() and (c.isalnum() or c == "-") for c in text)):
        raise Misread(f'"{text}" is not a language', "write it as in en-GB")
    return text


SETTINGS = Form(
    "the catalogue",
    (
        Field("title", like(text_kind, "My cabinet"), "the title of the catalogue", required=True),
        Field("keeper", like(text_kind, "Ida Quennell"), "the person whose collection it is", default=""),
        Field(
            "summary",
            like(text_kind, "The coinage of Vessmark"),
            "one sentence on what is collected",
            default="",
        ),
        Field(
            "language",
            of_text("a language", "en-GB", _read_language),
            "the language of the pages",
            default="en-GB",
        ),
        Field(
            "grading",
            choice(Habit, "a habit of grading", "british"),
            "how a bare word such as EF is meant",
            default=Habit.SEVENTY,
        ),
        Field(
            "theme", of_text("the name of a theme", "tray", _read_theme, "path"), "the theme", default="tray"
        ),
        Field(
            "web",
            of_text("a web address", "https://example.org/coins/", lambda text, _: parse_web(text)),
            "where it will be published",
            default="",
        ),
        Field(
            "currency",
            of_text("a currency", "VKR", lambda text, _: parse_currency(text), "money"),
            "the currency of amounts without one",
            default="",
        ),
        Field("as of", day, "the day ages are reckoned to"),
        Field(
            "metals",
            Kind("metals with their prices", "{silver: {…}}", _read_metals),
            "prices of metals",
            default={},
        ),
        Field(
            "readers",
            Kind("readers with what each may see", "{public: {wants: no}}", _read_readers),
            "what each reader may see",
            default={},
        ),
        Field(
            "may be named",
            list_of(like(text_kind, "Hallin"), "a list of texts"),
            "private values, such as a seller's name, that all the same may stand in what readers see",
            attribute="may_be_named",
            default=(),
        ),
        Field(
            "pictures",
            Kind("format and widths", "{format: jpeg, widths: [1600, 640, 160, 48]}", _read_pictures),
            "the pictures",
            default=Pictures(),
        ),
        Field(
            "aims",
            list_of(record(AIM, Aim, "{id: …, name: …, series: […]}"), "a list of aims"),
            "the aims",
            default=(),
        ),
        Field(
            "wants",
            list_of(record(WANT, Want, "{slot: ort 1892}"), "a list of wants"),
            "notes for the want list",
            default=(),
        ),
    ),
)


def habit_of(node: Mapping, reading: Reading) -> Habit:
    """Take the habit of grading ahead of the rest, for grades in the same file are read by it."""
    given = node.get("grading")
    if given is None:
        return Habit.SEVENTY
    quiet = Reading(reading.path)
    value = read_value(choice(Habit, "a habit of grading", "british"), given, quiet)
    return Habit.SEVENTY if value is MISREAD else value


def take_habits(node: Mapping, reading: Reading) -> None:
    """Have a reading take on the habit of grading and the currency of settings."""
    reading.habit = habit_of(node, reading)
    given = node.get("currency")
    currency = getattr(given, "value", None)
    reading.currency = currency if isinstance(currency, str) and currency else None


def read_settings(node: Mapping, reading: Reading) -> Settings | None:
    """Read the settings; None where there is no title. The reading takes on their habit and currency."""
    take_habits(node, reading)
    values = read_form(SETTINGS, node, reading)
    return Settings(path=reading.path, **values) if values is not None else None
