"""Prints the reference part of the README from the tables of fields and of rules.

python tests/reference.py            print it
python tests/reference.py --write    put it into README.md between its marks
"""

import sys
from pathlib import Path

from daterun.checks.rules import RULES
from daterun.records import (
    aims,
    coins,
    essays,
    issuers,
    lots,
    opinions,
    ownership,
    photographed,
    series,
    settings,
    struck,
)
from daterun.records.fields import Form

README = Path(__file__).parent.parent / "README.md"
BEGIN, END = "<!-- reference begins -->", "<!-- reference ends -->"

FILES: tuple[tuple[str, tuple[Form, ...]], ...] = (
    ("A coin: `content/coins/**/<coin>.md`", (
        coins.COIN, opinions.OWN_GRADE, opinions.CERTIFICATE, coins.GRAVITY, ownership.ACQUIRED, ownership.PARTED,
        ownership.OWNER, opinions.VALUE, photographed.PHOTOS, photographed.NAMED_PHOTO, photographed.CROP,
    )),
    ("A series: `content/series/<issuer>/<series>.yaml`", (
        series.SERIES, series.STANDARD, series.COIN_TYPE, series.FACE, series.VARIETY, struck.STRUCK,
        struck.DATE_ISSUE, struck.PART,
    )),
    ("An issuer: `content/issuers/<issuer>.yaml`", (issuers.ISSUER, issuers.MONARCH, issuers.REIGN)),
    ("The catalogue: `content/catalogue.yaml`", (
        settings.SETTINGS, aims.AIM, aims.WANT, settings.READERS, settings.PERMISSIONS,
        settings.PICTURES, settings.METAL_PRICE,
    )),
    ("A lot: `content/lots/<lot>.yaml`", (lots.LOT,)),
    ("An essay: `content/pages/*.md`", (essays.ESSAY,)),
)  # fmt: skip


def reference() -> str:
    """Word the whole reference as Markdown."""
    parts = []
    for heading, forms in FILES:
        parts.append(f"#### {heading}\n")
        parts += [_table(form) for form in forms]
    parts.append("#### Rules of `daterun check`\n")
    parts.append("| rule | what it says |\n| --- | --- |\n")
    parts[-1] += "".join(f"| {name} | {about} |\n" for name, about in sorted(RULES.items()))
    return "\n".join(parts)


def _table(form: Form) -> str:
    name = form.name[:1].upper() + form.name[1:]
    rows = [f"{name}:\n", "| key | what it is | written as |", "| --- | --- | --- |"]
    for field in form.fields:
        key = f"**`{field.key}`**" if field.required else f"`{field.key}`"
        if field.short:
            key += f", short `{field.short}`"
        rows.append(f"| {key} | {field.about} | {field.kind.name}: `{field.kind.example}` |")
    return "\n".join(rows) + "\n"


def written(readme: str) -> str:
    """Put the reference between its marks in a README's text."""
    before, _, rest = readme.partition(BEGIN)
    _, _, after = rest.partition(END)
    return f"{before}{BEGIN}\n\n{reference()}\n{END}{after}"


if __name__ == "__main__":
    if "--write" in sys.argv:
        README.write_text(written(README.read_text(encoding="utf-8")), encoding="utf-8")
    else:
        print(reference())
