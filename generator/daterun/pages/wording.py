"""How coins, dates, numbers struck and measures are worded on the pages, by the theme's words."""

from daterun.naming import listed
from daterun.pages.standing import Standing
from daterun.pages.words import Words
from daterun.readers.closed import ClosedCoin, ClosedOwner
from daterun.records.coins import CoinKind, Strike
from daterun.records.issuers import Issuer
from daterun.records.series import CoinType, Series, Standard, Variety
from daterun.records.struck import DateIssue, Figures
from daterun.trade.dates import CoinDate, DateKind, Day
from daterun.trade.metals import parse_metal


def say_day(day: Day, words: Words) -> str:
    """Word a day, month or year as the theme's language does."""
    if day.month is None:
        return str(day.year)
    month = words.say(f"month.{day.month}")
    if day.day is None:
        return words.say("date.month", month=month, year=day.year)
    return words.say("date.day", day=day.day, month=month, year=day.year)


def say_date(date: CoinDate, words: Words) -> str:
    """Word the date on a coin: as it is typed, a double date with its dash, or undated."""
    if date.kind is DateKind.UNDATED:
        return words.say("date.undated")
    return date.key.replace("-", "–") if date.kind is DateKind.DOUBLE else date.key


def name_coin(standing: Standing, words: Words) -> str:
    """Name a coin: its series and date, with what sets it apart from others of that date."""
    date = say_date(standing.coin.date, words)
    return words.say("coin.name", series=standing.series.name, date=date) + say_apart(standing, words)


def say_apart(standing: Standing, words: Words) -> str:
    """Word what sets a coin apart within its date: varieties, mint, type, strike and kind, where any does."""
    coin, place = standing.coin, standing.place
    parts = []
    if "variety" in standing.divided:
        parts += [name_variety(each) for each in place.varieties]
    if "mint" in standing.divided and coin.mint:
        parts.append(name_mint(coin.mint, standing, words))
    if "type" in standing.divided and place.type is not None:
        parts.append(name_type(place.type, standing.series, standing.issuer))
    if coin.strike is not Strike.ORDINARY:
        parts.append(words.say(f"strike.{coin.strike.value}"))
    if coin.kind is not CoinKind.REGULAR:
        parts.append(say_kind(coin.kind, words))
    return "".join(f", {each}" for each in parts)


def name_variety(variety: Variety) -> str:
    """Name a variety: by its name, else by its short name with spaces for hyphens."""
    return variety.name or variety.id.replace("-", " ")


def name_type(coin_type: CoinType, series: Series, issuer: Issuer | None) -> str:
    """Name a type: by its name, else by its monarch, with its years where the monarch has several."""
    if coin_type.name:
        return coin_type.name
    monarch = issuer.monarch(coin_type.monarch) if issuer is not None else None
    if monarch is None:
        return coin_type.id.replace("-", " ")
    several = sum(1 for each in series.types if each.monarch == monarch.id) > 1
    return f"{monarch.name}, {coin_type.span}" if several else monarch.name


def say_kind(kind: CoinKind, words: Words) -> str:
    return words.say(f"kind.{kind.value.replace(' ', '-')}")


def name_mint(mark: str, standing: Standing, words: Words) -> str:
    """Name the mint of a coin; see ``name_mint_of``."""
    return name_mint_of(mark, standing.issuer, words)


def name_mint_of(mark: str, issuer: Issuer | None, words: Words) -> str:
    """Name a mint by its mark: Kaldhamn (K); the mark alone where the issuer does not name it."""
    name = issuer.mints.get(mark, "") if issuer is not None else ""
    if mark == "none":
        return name or words.say("mint.none")
    return f"{name} ({mark})" if name else mark


def say_struck(figures: Figures, words: Words) -> str:
    """Word how many were struck, with proofs, melted and disputed figures; never nought for want of one."""
    if figures.proofs_only:
        if figures.proofs is None:
            return words.say("struck.proofs-only-unknown")
        return words.say("struck.proofs-only", n=words.number(figures.proofs))
    numbers = [words.number(each) for each in figures.mintage]
    parts = (
        [words.say("struck.number", n=listed(numbers, words.say("or")))]
        if numbers
        else [words.say("struck.unknown")]
    )
    if figures.proofs is not None:
        key = "struck.proofs-apart" if figures.proofs_apart else "struck.proofs"
        parts.append(words.say(key, n=words.number(figures.proofs)))
    if figures.melted is not None:
        parts.append(words.say("struck.melted", n=words.number(figures.melted)))
    return ", ".join(parts)


def say_source(source: str, checked: bool, words: Words) -> str:
    """Name a source, and say where it is from memory."""
    if checked:
        return source
    unchecked = words.say("source.unchecked")
    return f"{source} ({unchecked})" if source else unchecked


def say_source_of(issue: DateIssue, series: Series, words: Words) -> str:
    """Name the source of an issue's figures as ``say_source`` does: its own, else the table's."""
    figures, table = issue.figures, series.struck
    return say_source(
        figures.source or table.source, figures.checked and (table.checked or bool(figures.source)), words
    )


def say_grade(coin: ClosedCoin, words: Words) -> str:
    """Word the grade in force as it was written; ungraded where there is none."""
    if coin.grade is None:
        return words.say("grade.none")
    return coin.grade.text


def say_grade_line(coin: ClosedCoin, words: Words) -> str:
    """Word the grade with what bears on it: that it is certified, and why the coin is a problem coin."""
    parts = [say_grade(coin, words)]
    if coin.graded_by:
        parts.append(words.say("grade.certified"))
    if coin.problems:
        parts.append(listed(coin.problems, words.say("and")))
    return ", ".join(parts)


def say_metal(standard: Standard, words: Words) -> str:
    """Word a metal with its fineness: .750 silver."""
    name = words.say(f"metal.{standard.metal.name.replace(' ', '-')}")
    return f"{standard.fineness} {name}" if standard.fineness is not None else name


def say_alloy(standard: Standard, words: Words) -> str:
    """Word the parts of an alloy in hundredths: 95 % copper, 4 % tin, 1 % zinc; empty where not told."""
    return ", ".join(
        words.say(
            "metal.part",
            n=f"{float(part * 100):.4g}",
            metal=words.say(f"metal.{parse_metal(name).name.replace(' ', '-')}"),
        )
        for name, part in standard.alloy.items()
    )


def say_owner(owner: ClosedOwner, words: Words) -> str:
    """Word a former owner with the years, the sale and the lot."""
    text = owner.owner
    if owner.since is not None and owner.until is not None:
        text += words.say(
            "owner.since-until", since=say_day(owner.since, words), until=say_day(owner.until, words)
        )
    elif owner.until is not None:
        text += words.say("owner.until", until=say_day(owner.until, words))
    elif owner.since is not None:
        text += words.say("owner.since", since=say_day(owner.since, words))
    if owner.sale:
        text += f"; {owner.sale}"
    if owner.lot:
        text += words.say("owner.lot", lot=owner.lot)
    if owner.note:
        text += f" ({owner.note})"
    return text
