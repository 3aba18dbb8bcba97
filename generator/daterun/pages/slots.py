"""One slot of a run as a sign in a grid: the coin that fills it in its own picture, or a gap of its size."""

from daterun.checks.completeness import Filled, State
from daterun.pages import addresses
from daterun.pages.cabinet import Cabinet, Standing
from daterun.pages.gridviews import GridSlot
from daterun.pages.sides import Sides, tone_of
from daterun.pages.wording import (
    name_mint_of,
    name_type,
    name_variety,
    say_date,
    say_grade_line,
    say_struck,
)
from daterun.pages.words import Words
from daterun.records.aims import End
from daterun.records.issuers import Issuer
from daterun.records.series import Series, Standard

DEFAULT_DIAMETER_MM = 24.0
"""The size at which a coin is shown whose standard names none: about the middle of all coinages."""


def standard_of(series: Series, filled: Filled) -> Standard | None:
    """Find the standard that a slot is shown by; the first, where its date has two."""
    found = series.standards_of(filled.slot.date)
    return found[0] if found else None


def diameter_mm(series: Series, filled: Filled) -> float:
    """Find the diameter at which a slot is shown."""
    standard = standard_of(series, filled)
    if standard is not None and standard.diameter is not None:
        return float(standard.diameter.mm)
    return DEFAULT_DIAMETER_MM


def name_slot(series: Series, filled: Filled, words: Words, issuer: Issuer | None = None) -> str:
    """Name a slot: its series and date, and the mint, variety or type that divides it.

    One that stands for all its dates bears none, one that goes across series no series. Without an issuer a
    mint goes by its mark alone, a type without a name and a monarch by their ids.
    """
    slot = filled.slot
    parts = []
    if slot.mint:
        parts.append(name_mint_of(slot.mint, issuer, words))
    if slot.variety and (variety := series.variety(slot.variety)) is not None:
        parts.append(name_variety(variety))
    if slot.type and (coin_type := series.type(slot.type)) is not None:
        parts.append(name_type(coin_type, series, issuer))
    if slot.monarch:
        monarch = issuer.monarch(slot.monarch) if issuer is not None else None
        parts.append(monarch.name if monarch is not None else slot.monarch)
    if slot.is_dated or not parts:
        parts.insert(0, say_date(slot.date, words))
    apart = ", ".join(parts)
    return apart if len(slot.all_series) > 1 else words.say("coin.name", series=series.name, date=apart)


def grid_slot(
    filled: Filled,
    series: Series,
    cabinet: Cabinet,
    sides: Sides,
    words: Words,
    largest_mm: float,
    counts: End = End.LOW,
) -> GridSlot:
    """Make the sign of a slot; its size is in proportion to the largest coin of the grid."""
    standing = cabinet.by_id.get(filled.coin) if filled.coin and filled.state is not State.LEFT_OUT else None
    standard = standard_of(series, filled)
    size = min(round(diameter_mm(series, filled) / largest_mm * 1000), 1000)
    return GridSlot(
        state=filled.state.value,
        is_scarce=filled.slot.figures.scarce,
        label=_label(filled, series, standing, words, cabinet.catalogue.issuers.get(series.issuer)),
        address=addresses.of_coin(standing.coin.id) if standing else addresses.of_date(filled.slot.date),
        picture=sides.telling(standing).picture if standing else None,
        tone=tone_of(standard.metal if standard is not None else None),
        size=size,
        pieces=1 + len(filled.spares) if standing else 0,
        rank=rank_of(standing, counts),
    )


def rank_of(standing: Standing | None, counts: End = End.LOW) -> int:
    """Give the grade of a coin that counts, in hundredths of a step of the 70-point scale; 0 without one."""
    if standing is None or standing.coin.grade is None:
        return 0
    is_lowest = counts is End.LOW
    if is_lowest:
        return standing.rank
    return int(standing.coin.grade.counted(counts.value) * 100)


def _label(
    filled: Filled, series: Series, standing: Standing | None, words: Words, issuer: Issuer | None
) -> str:
    name = name_slot(series, filled, words, issuer)
    if standing is not None:
        parts = [say_grade_line(standing.coin, words)]
        if filled.state is State.BELOW:
            parts.append(words.say("state.below"))
        if filled.spares:
            parts.append(words.count("pieces", 1 + len(filled.spares)))
        return words.say("slot.label", name=name, state=", ".join(parts))
    parts = [words.say(f"state.{filled.state.value}"), say_struck(filled.slot.figures, words)]
    if filled.slot.figures.scarce:
        parts.append(words.say("state.scarce"))
    return words.say("slot.label", name=name, state=", ".join(parts))
