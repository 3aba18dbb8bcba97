"""The one table of which reader may see which field of which record. A field it does not list is private.

How the fields that may be seen become closed records is left to ``closing.py``.
"""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType

from daterun.readers.reader import Reader
from daterun.records.aims import Aim, Want
from daterun.records.catalogue import Catalogue
from daterun.records.coins import Coin, Gravity
from daterun.records.essays import Essay
from daterun.records.issuers import Issuer, Monarch, Reign
from daterun.records.lots import Lot
from daterun.records.opinions import Certificate, OwnGrade, Value
from daterun.records.ownership import Acquired, Owner, Parted
from daterun.records.photographed import Crop, NamedPhoto
from daterun.records.series import CoinType, Face, Series, Standard, Variety
from daterun.records.settings import MetalPrice, Permissions, Pictures, Settings
from daterun.records.struck import DateIssue, Figures, Part, Struck


class Access(StrEnum):
    """Who may see a field."""

    EVERYONE = "everyone"
    CLUB_AND_KEEPER = "club and keeper"
    KEEPER = "the keeper alone"
    IN_FORCE = "everyone the one in force, club and keeper all"
    WHERE_PUBLISHED = "everyone where the record says publish, the keeper all"
    WITHOUT_REASONS = "everyone which, the keeper why"
    IF_WANTS = "the keeper, others if wants are turned on"
    IF_NUMBERS = "the keeper, others if certificate numbers are turned on"
    NOT_A_FACT = "nobody: it says where the record stands, and nothing about a coin"


PERMISSIONS: Mapping[Access, tuple[str, Mapping[Reader, bool]]] = MappingProxyType(
    {
        Access.IF_WANTS: ("wants", MappingProxyType({Reader.PUBLIC: False, Reader.CLUB: True})),
        Access.IF_NUMBERS: (
            "certificate_numbers",
            MappingProxyType({Reader.PUBLIC: False, Reader.CLUB: False}),
        ),
    }
)
"""What the keeper can turn on or off for a reader: its name in the settings, and how it usually stands."""


def _all(access: Access, fields: str) -> dict[str, Access]:
    return dict.fromkeys(fields.split(), access)


def _public(fields: str, place: str = "at") -> dict[str, Access]:
    return {**_all(Access.EVERYONE, fields), **_all(Access.NOT_A_FACT, place)}


def _private(fields: str, place: str = "at") -> dict[str, Access]:
    return {**_all(Access.KEEPER, fields), **_all(Access.NOT_A_FACT, place)}


TABLE: Mapping[type, Mapping[str, Access]] = MappingProxyType(
    {
        Catalogue: {
            **_all(Access.EVERYONE, "settings issuers series coins essays"),
            **_all(Access.KEEPER, "lots"),
            **_all(Access.NOT_A_FACT, "broken"),
        },
        # A coin that has been parted with does not exist for others than the keeper: that it left is private,
        # and to show it as if it were held would be untrue.
        Coin: {
            **_all(
                Access.EVERYONE,
                "id series date varieties mint type standard strike kind departs struck_in problems weight"
                " diameter thickness axis gravity design references added photos notes",
            ),
            **_all(Access.IN_FORCE, "own_grades certificates"),
            **_all(Access.WHERE_PUBLISHED, "provenance"),
            **_all(Access.KEEPER, "quantity set lot acquired parted kept value private"),
            **_all(Access.NOT_A_FACT, "path notes_line matter_digest at"),
        },
        OwnGrade: _public("grade on reasons"),
        Certificate: {**_public("by grade on sealed problem"), "number": Access.IF_NUMBERS},
        Gravity: _public("dry wet reading"),
        Acquired: _private("on source how price exchanged_for note"),
        Parted: _private("on to how price exchanged_for"),
        Owner: _public("owner since until sale lot note publish"),
        Value: _private("amount on basis"),
        Crop: _public("x y diameter"),
        NamedPhoto: {**_public("crop"), "file": Access.KEEPER},
        Lot: _private("id name on source how price shares note", "path at"),
        Essay: _public("id title summary on order part_of text", "path text_line at"),
        Settings: {
            **_public(
                "title keeper summary language grading theme web currency as_of metals pictures aims",
                "path at",
            ),
            "wants": Access.IF_WANTS,
            "readers": Access.KEEPER,
            "may_be_named": Access.KEEPER,
        },
        MetalPrice: _public("price per on source"),
        Pictures: _public("format widths plates", ""),
        Permissions: _private("wants certificate_numbers"),
        Aim: {
            **_public("id name series span one_per strikes at_least counts problems kinds across_series"),
            "leave_out": Access.WITHOUT_REASONS,
        },
        Want: {**_private("at_most remark"), "slot": Access.IF_WANTS},
        Issuer: _public("id name money decimal mints monarchs note source", "path at"),
        Monarch: _public("id name reign note source"),
        Reign: _public("first last"),
        Series: _public(
            "id name issuer face denomination labels standards types varieties struck note", "path at"
        ),
        Standard: _public(
            "span id metal fineness alloy weight remedy diameter thickness edge axis note source checked"
        ),
        CoinType: _public("id name span monarch obverse reverse note source"),
        Face: _public("legend design designer"),
        Variety: _public("id name spans side reading note source"),
        Struck: _public("issues not_struck not_known source checked note"),
        DateIssue: _public("date figures parts", "place at"),
        Part: _public("mint variety type figures"),
        Figures: _public("mintage proofs proofs_only proofs_apart melted scarce note source checked", ""),
    }
)
"""Every field of every record, and who may see it. Issuers and series are public knowledge throughout."""


def is_turned_on(access: Access, reader: Reader, readers: Mapping[str, Permissions]) -> bool:
    """Tell whether what can be turned on is on: by the keeper's word, else as it usually stands."""
    if reader is Reader.KEEPER:
        return True
    name, usually = PERMISSIONS[access]
    said = getattr(readers[reader.value], name) if reader.value in readers else None
    return usually[reader] if said is None else bool(said)


def may_see(reader: Reader, record: type, name: str, readers: Mapping[str, Permissions]) -> bool:
    """Tell whether a reader may see the whole of a field, whatever the single record says.

    The readers are the keeper's permissions as the settings give them. What is seen only in part (a grade in
    force, an owner to publish, a slot left out without its reason) is not seen whole.
    """
    match TABLE.get(record, {}).get(name):
        case Access.EVERYONE:
            return True
        case Access.CLUB_AND_KEEPER | Access.IN_FORCE:
            return reader is not Reader.PUBLIC
        case Access.IF_WANTS | Access.IF_NUMBERS as access:
            return is_turned_on(access, reader, readers)
        case Access.KEEPER | Access.WHERE_PUBLISHED | Access.WITHOUT_REASONS:
            return reader is Reader.KEEPER
        case _:
            return False
