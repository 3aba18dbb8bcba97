"""What was measured of a coin beside what its standard lays down, and the fine metal that follows."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from daterun.pages.amounts import say_fraction
from daterun.pages.cabinet import Standing
from daterun.pages.pieces import Fact, Link, Table
from daterun.pages.words import Words
from daterun.problems import Misread
from daterun.records.series import Standard
from daterun.trade.measures import Weight, show_grams, show_millimetres, show_troy_ounces
from daterun.trade.metals import alloy_of, density, fine_weight, parse_metal, specific_gravity


def measured_table(standing: Standing, words: Words) -> Table | None:
    """Set what was measured beside the standard; None where nothing was measured."""
    coin, standard = standing.coin, standing.place.standard
    rows = []
    if coin.weight is not None:
        laid_down = standard.weight if standard is not None else None
        rows.append(
            (
                words.say("measure.weight"),
                show_grams(laid_down.grams) if laid_down is not None else "",
                show_grams(coin.weight.grams),
                say_difference(coin.weight, laid_down, words),
            )
        )
    for key, measured, legal in (
        ("diameter", coin.diameter, standard.diameter if standard is not None else None),
        ("thickness", coin.thickness, standard.thickness if standard is not None else None),
    ):
        if measured is not None:
            shown = show_millimetres(legal.mm) if legal is not None else ""
            rows.append((words.say(f"measure.{key}"), shown, show_millimetres(measured.mm), ""))
    if coin.axis is not None:
        legal_axis = standard.axis if standard is not None else None
        differs = legal_axis is not None and legal_axis.degrees != coin.axis.degrees
        rows.append(
            (
                words.say("measure.axis"),
                str(legal_axis) if legal_axis is not None else "",
                str(coin.axis),
                words.say("measure.differs") if differs else "",
            )
        )
    if coin.gravity is not None:
        rows.append(_gravity_row(standing, words))
    if not rows:
        return None
    headings = tuple(words.say(f"table.{key}") for key in ("measure", "standard", "measured", "difference"))
    return Table(
        words.say("measured.caption"),
        headings,
        tuple(tuple(Link(cell) for cell in row) for row in rows),
        (1, 2),
    )


def say_difference(measured: Weight, standard: Weight | None, words: Words) -> str:
    """Word how far a weight lies from its standard, in hundredths of it; empty where there is no standard."""
    if standard is None or standard.grams == 0:
        return ""
    off = (measured.grams - standard.grams) / standard.grams * 100
    shown = f"{abs(off):.1f}"
    if shown == "0.0":
        return words.say("measure.at-standard")
    return words.say("measure.over" if off > 0 else "measure.under", n=shown)


def _gravity_row(standing: Standing, words: Words) -> tuple[str, str, str, str]:
    gravity, standard = standing.coin.gravity, standing.place.standard
    assert gravity is not None
    try:
        found = specific_gravity(gravity.dry, gravity.wet, gravity.reading)
    except Misread as error:
        return (words.say("measure.gravity"), "", "", error.sentence)
    expected = expected_density(standard) if standard is not None else None
    return (
        words.say("measure.gravity"),
        words.say("measure.reckoned", n=f"{expected:.2f}") if expected is not None else "",
        f"{found.value:.2f}",
        words.say("measure.between", low=f"{found.low:.2f}", high=f"{found.high:.2f}"),
    )


def expected_density(standard: Standard) -> Decimal | None:
    """Reckon the density that a standard's alloy should have, in g/cm3; None where its parts are not known."""
    if not standard.alloy:
        return alloy_of(standard.metal, standard.fineness).density
    parts: dict[str, Fraction] = {}
    for name, part in standard.alloy.items():
        metal = parse_metal(name).name
        parts[metal] = parts.get(metal, Fraction(0)) + part
    return density(parts)


def content_fact(standing: Standing, words: Words) -> Fact | None:
    """Word the fine metal in a coin, from its own weight where it was weighed, else from the standard's."""
    standard = standing.place.standard
    if standard is None or standard.metal.fine is None or standard.fineness is None:
        return None
    weight = standing.coin.weight or standard.weight
    if weight is None:
        return None
    grams = fine_weight(weight, standard.fineness)
    fine = Weight(grams, "")
    return Fact(
        words.say("fact.content", metal=words.say(f"metal.{standard.metal.fine}")),
        words.say(
            "content.fine",
            grams=show_grams(grams.quantize(Decimal("0.01"), ROUND_HALF_UP)),
            ounces=show_troy_ounces(fine.troy_ounces),
        ),
        words.say("content.measured" if standing.coin.weight is not None else "content.standard"),
    )


def diameter_hundredths(standing: Standing) -> int:
    """Find a coin's diameter in hundredths of a millimetre: measured, else the standard's; 0 where not known."""
    standard = standing.place.standard
    found = standing.coin.diameter or (standard.diameter if standard is not None else None)
    return round(found.mm * 100) if found is not None else 0


def face_fact(standing: Standing, words: Words) -> Fact | None:
    """Word the face value, and what it became in decimal money where the issuer tells the rate."""
    series, issuer = standing.series, standing.issuer
    if not series.face:
        return None
    remark = ""
    if issuer is not None and issuer.money is not None and issuer.decimal is not None:
        try:
            amount, unit = issuer.decimal.equivalent(issuer.money.parse_face(series.face), issuer.money)
            remark = words.say("face.decimal", n=say_fraction(amount), unit=unit, year=issuer.decimal.on.year)
        except Misread:
            remark = ""
    return Fact(words.say("fact.face"), series.face, remark)
