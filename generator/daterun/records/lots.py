"""A lot: coins bought together, with one price and how it is shared out among them."""

from collections.abc import Mapping as AnyMapping
from dataclasses import dataclass, field
from fractions import Fraction

from daterun.problems import Misread
from daterun.records.fields import Field, Form, Kind, Reading, read_form
from daterun.records.kinds import day, like, mapping_of, money, text_kind
from daterun.records.located import Mapping, Node, Text
from daterun.records.ownership import How, way_in
from daterun.trade.dates import Day
from daterun.trade.money import Money


@dataclass(frozen=True, slots=True)
class Lot:
    """Coins bought together. The shares go by coin id; none at all means that all share equally."""

    id: str
    path: str
    name: str
    on: Day | None
    source: str
    how: How | None
    price: Money | None
    shares: dict[str, Money]
    note: str
    at: Mapping = field(compare=False, repr=False)

    def share_of(self, coin_id: str, pieces: AnyMapping[str, int]) -> Money | None:
        """Work out one file's part of the price among all of the lot, given with their pieces in order of id.

        None where the lot has no price, or shares it out and does not name the coin. Equal shares are equal
        by the piece, so that a file that stands for twelve has twelve of them, and add up to the price.
        """
        if self.shares:
            return self.shares.get(coin_id)
        if self.price is None or coin_id not in pieces:
            return None
        return self.price.share([Fraction(each) for each in pieces.values()])[list(pieces).index(coin_id)]


def _read_share(node: Node, reading: Reading) -> dict[str, Money]:
    """Read how the price is shared: the word equally, or amounts by coin id."""
    if isinstance(node, Text):
        if node.value.lower() != "equally":
            raise Misread(
                f'"{node.value}" does not say how the price is shared', "write equally, or {id: amount, …}"
            )
        return {}
    return mapping_of(money, "coin ids with their part of the price", "{ort/1899: 40.00 VKR}").read(
        node, reading
    )


LOT = Form(
    "a lot",
    (
        Field("name", like(text_kind, "A tin from a house sale"), "what it is called", default=""),
        Field("on", day, "the day"),
        Field("from", like(text_kind, "R. Tarn"), "the seller", attribute="source", default=""),
        Field("how", way_in, "bought, exchanged, given, inherited or found"),
        Field("price", money, "the one price"),
        Field(
            "share",
            Kind("equally, or amounts by coin id", "equally", _read_share, "money"),
            "how the price is shared out",
            attribute="shares",
            default={},
        ),
        Field("note", like(text_kind, "sold unsorted"), "a remark", default=""),
    ),
)


def read_lot(lot_id: str, node: Mapping, reading: Reading) -> Lot | None:
    """Read a lot from its file."""
    values = read_form(LOT, node, reading)
    return Lot(id=lot_id, path=reading.path, **values) if values is not None else None
