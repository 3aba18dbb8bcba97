"""The lists of a page as heaps of entries, and how the page is made again of a piece of them.

How large a page may be, and how its parts lead to each other, is left to ``parts``.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from daterun.pages.aimviews import Gathered, ListingView
from daterun.pages.figureviews import FigureSection, FiguresView, SideBySideView
from daterun.pages.pieces import Table
from daterun.pages.views import (
    Body,
    CoinGroup,
    CoinListView,
    DateView,
    DenominationView,
    IndexView,
    MonarchView,
)

T = TypeVar("T")

ROW, CARD, PAIR = 1, 2, 4
"""What an entry weighs: a row of a table, a coin by one picture, a coin by two."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A part of one of the lists of a page: which list, and from which entry to which."""

    nth: int
    first: int
    end: int


@dataclass(frozen=True, slots=True)
class Heap:
    """The lists of a body by what their entries weigh, their headings, and how a body is made of pieces."""

    weights: tuple[tuple[int, int], ...]
    headings: tuple[str, ...]
    make: Callable[[Sequence[Piece], bool], Body]


def deal(weights: Sequence[tuple[int, int]], most: int) -> list[list[Piece]]:
    """Deal lists of so many entries of such a weight onto pages, in order.

    A list that does not fit begins on a page of its own where less than an eighth of the page is left.
    """
    pages: list[list[Piece]] = [[]]
    room = most
    for nth, (many, weight) in enumerate(weights):
        if room < most and many * weight > room < most // 8:
            pages.append([])
            room = most
        done = 0
        while True:
            taken = min(many - done, max(room // weight, 1 if room == most else 0))
            if taken or not many:
                pages[-1].append(Piece(nth, done, done + taken))
            done += taken
            room -= taken * weight
            if done >= many:
                break
            pages.append([])
            room = most
    return pages


def heap_of(body: Body) -> Heap | None:
    """Find the lists of a body; None for a page that has none, or whose length does not grow with the coins."""
    match body:
        case CoinListView():
            return _of_groups(body)
        case ListingView():
            return _of_listing(body)
        case FiguresView():
            return _of_figures(body)
        case SideBySideView():
            return _of_strips(body)
        case DateView():
            return _of_date(body)
        case MonarchView():
            return _of_monarch(body)
        case DenominationView():
            return _of_denomination(body)
        case IndexView():
            return _of_index(body)
        case _:
            return None


def _of_groups(view: CoinListView) -> Heap:
    def make(pieces: Sequence[Piece], is_first: bool) -> Body:
        return replace(view, groups=_cut_groups(view.groups, pieces))

    weights = tuple((len(each.coins), CARD) for each in view.groups)
    return Heap(weights, tuple(each.heading.text for each in view.groups), make)


def _cut_groups(groups: Sequence[CoinGroup], pieces: Iterable[Piece]) -> tuple[CoinGroup, ...]:
    return tuple(
        replace(groups[each.nth], coins=groups[each.nth].coins[each.first : each.end]) for each in pieces
    )


def _of_listing(view: ListingView) -> Heap:
    gathered, tables = view.gathered, view.tables

    def make(pieces: Sequence[Piece], is_first: bool) -> Body:
        own: list[Gathered] = []
        rows: list[Table] = []
        for each in pieces:
            if each.nth < len(gathered):
                group = gathered[each.nth]
                own.append(replace(group, coins=group.coins[each.first : each.end]))
            else:
                rows.append(_cut_table(tables[each.nth - len(gathered)], each))
        if is_first:
            return replace(view, gathered=tuple(own), tables=tuple(rows))
        return replace(view, facts=(), grids=(), bars=(), gathered=tuple(own), tables=tuple(rows))

    weights = (*((len(each.coins), CARD) for each in gathered), *((len(each.rows), ROW) for each in tables))
    headings = (*(each.heading.text for each in gathered), *(each.caption for each in tables))
    return Heap(weights, headings, make)


def _cut_table(table: Table, piece: Piece) -> Table:
    return replace(table, rows=table.rows[piece.first : piece.end])


def _of_figures(view: FiguresView) -> Heap:
    """Cut the tables of figures; what a section has beside its tables stands where it begins."""
    places: list[tuple[int, Table | None]] = []
    for nth, section in enumerate(view.sections):
        places += [(nth, each) for each in section.tables] or [(nth, None)]

    def make(pieces: Sequence[Piece], is_first: bool) -> Body:
        found: dict[int, list[Table]] = {}
        begun: set[int] = set()
        for each in pieces:
            nth, table = places[each.nth]
            found.setdefault(nth, [])
            if each.first == 0 and (each.nth == 0 or places[each.nth - 1][0] != nth):
                begun.add(nth)
            if table is not None:
                found[nth].append(_cut_table(table, each))
        sections = tuple(
            replace(view.sections[nth], tables=tuple(own))
            if nth in begun
            else FigureSection(view.sections[nth].id, view.sections[nth].heading, tables=tuple(own))
            for nth, own in found.items()
        )
        return replace(view, sections=sections, cards=view.cards if is_first else ())

    weights = tuple((len(table.rows) if table is not None else 0, ROW) for _, table in places)
    return Heap(weights, tuple(table.caption if table is not None else "" for _, table in places), make)


def _of_strips(view: SideBySideView) -> Heap:
    def make(pieces: Sequence[Piece], is_first: bool) -> Body:
        return replace(view, strips=tuple(view.strips[each.nth] for each in pieces))

    return Heap(tuple((1, PAIR * len(each.coins)) for each in view.strips), (), make)


def _of_date(view: DateView) -> Heap:
    """Cut the rows of a date, and a row of very many coins; a row without coins takes the room of one."""

    def make(pieces: Sequence[Piece], is_first: bool) -> Body:
        rows = tuple(
            replace(view.rows[each.nth], coins=view.rows[each.nth].coins[each.first : each.end])
            for each in pieces
        )
        return replace(view, rows=rows)

    weights = tuple((max(len(each.coins), 1), CARD) for each in view.rows)
    return Heap(weights, tuple(each.link.text for each in view.rows), make)


def _of_monarch(view: MonarchView) -> Heap:
    def make(pieces: Sequence[Piece], is_first: bool) -> Body:
        coins = _cut(view.coins, pieces)
        if is_first:
            return replace(view, coins=coins)
        return MonarchView(view.heading, view.lead, (), (), None, coins, view.neighbours)

    return Heap(((len(view.coins), CARD),), (), make)


def _of_denomination(view: DenominationView) -> Heap:
    """Cut the coins out of the ordinary; the tables of dates grow with what was struck, not with the coins."""

    def make(pieces: Sequence[Piece], is_first: bool) -> Body:
        others = _cut(view.others, pieces)
        if is_first:
            return replace(view, others=others)
        nothing = replace(view, grids=(), standards=None, types=(), varieties=None, dates=(), sources=())
        return replace(nothing, others=others, completeness=None, counting="")

    return Heap(((len(view.others), CARD),), (), make)


def _of_index(view: IndexView) -> Heap:
    def make(pieces: Sequence[Piece], is_first: bool) -> Body:
        return replace(view, cards=_cut(view.cards, pieces))

    return Heap(((len(view.cards), CARD),), (), make)


def _cut(entries: tuple[T, ...], pieces: Iterable[Piece]) -> tuple[T, ...]:
    return tuple(entry for piece in pieces for entry in entries[piece.first : piece.end])
