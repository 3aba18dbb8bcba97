"""What keepers call the columns of their tables, in English, German and French.

The fields are those of ``columns.py``. The words are common usage and have no published source.
"""

from collections.abc import Mapping

ENGLISH: Mapping[str, str] = {
    "series": "series|denomination|denom|coin|coin type|coin name|face value|value face|face",
    "issuer": "issuer|country|realm|state|kingdom|nation|issued by",
    "date": "date|year|coin date|year on coin|dated|date on coin|year date",
    "variety": "variety|varieties|die variety|var",
    "mint": "mint|mintmark|mint mark|mint letter|mm",
    "strike": "strike|struck as|proof",
    "grade": "grade|condition|state of preservation|my grade|own grade|cond|gr",
    "problem": "problem|problems|damage|faults|fault",
    "certificate by": "grader|graded by|grading firm|grading company|certified by|slab",
    "certificate grade": "certified grade|slab grade|certificate grade",
    "certificate number": "cert|cert no|cert number|certificate|certificate no|certificate number",
    "weight": "weight|mass|wt|weight g|weight grams|weight in g|weight in grams|peso",
    "diameter": "diameter|diam|size|dia|diameter mm|diameter in mm|size mm",
    "thickness": "thickness|thickness mm",
    "axis": "axis|die axis|die alignment|alignment|orientation",
    "references": "reference|references|ref|refs|catalogue number|catalogue no|cat no|literature",
    "quantity": "quantity|qty|count|number|pieces|pcs",
    "set": "set",
    "lot": "lot|lot id",
    "added": "added|entered|date added|date entered",
    "acquired on": "acquired|acquired on|date acquired|acquisition date|bought|bought on|date bought"
    "|purchase date|purchased|purchased on|date of purchase|date purchased|bought date",
    "acquired from": "from|bought from|seller|dealer|vendor|purchased from|acquired from|source|obtained from",
    "acquired how": "how|how acquired|acquired how|way acquired",
    "acquired price": "price|paid|cost|price paid|purchase price|bought for|amount paid|acquired price",
    "currency": "currency|currency code|cur",
    "value amount": "value|worth|estimate|estimated value|market value|current value|valuation",
    "value on": "valued on|value date|date valued|valuation date",
    "kept": "kept|location|place|where|storage|box|tray|cabinet|where kept|album|stored",
    "private": "private|private note|private notes|secret",
    "photos obverse": "photo obverse|obverse photo|obverse image|image obverse|obverse picture|picture obverse",
    "photos reverse": "photo reverse|reverse photo|reverse image|image reverse|reverse picture|picture reverse",
    "photos edge": "photo edge|edge photo|edge image|image edge",
    "notes": "notes|note|comment|comments|remark|remarks|description|details|text",
    "id": "id|inventory number|inventory no|inv no|number in collection",
}
"""The headings of each field, or part of one, as they are folded: without signs, in small letters."""

GERMAN: Mapping[str, str] = {
    "series": "nominal|nennwert|münze",
    "issuer": "land|staat|ausgabeland|münzherr",
    "date": "jahr|jahrgang|prägejahr|jahreszahl",
    "variety": "variante|stempelvariante",
    "mint": "münzzeichen|münzstätte|prägestätte|mzz",
    "strike": "prägeart|ausführung",
    "grade": "erhaltung|erhaltungsgrad|zustand",
    "problem": "mängel|fehler|beschädigung",
    "weight": "gewicht|gewicht g|gewicht in g|gewicht gramm|gewicht in gramm",
    "diameter": "durchmesser|durchmesser mm|durchmesser in mm|ø|ø mm",
    "thickness": "dicke|dicke mm|dicke in mm",
    "axis": "stempelstellung|stempelachse|achse",
    "references": "literatur|referenz|katalognummer|katalog nr|kat nr",
    "quantity": "anzahl|stück|stückzahl",
    "acquired on": "kaufdatum|gekauft am|erworben am|erwerbsdatum|ankaufsdatum",
    "acquired from": "verkäufer|händler|gekauft von|gekauft bei|erworben von",
    "acquired price": "kaufpreis|preis|ankaufspreis|einkaufspreis|bezahlt",
    "currency": "währung",
    "value amount": "wert|schätzwert|marktwert",
    "kept": "lagerort|aufbewahrung|aufbewahrungsort|standort|ablage|fach",
    "private": "privat",
    "photos obverse": "foto avers|foto vorderseite|bild avers|bild vorderseite",
    "photos reverse": "foto revers|foto rückseite|bild revers|bild rückseite",
    "notes": "bemerkung|bemerkungen|anmerkung|anmerkungen|notiz|notizen|kommentar|beschreibung",
    "id": "inventarnummer|inventarnr|inventar nr|inv nr",
}

FRENCH: Mapping[str, str] = {
    "series": "dénomination|valeur faciale|monnaie",
    "issuer": "pays|état émetteur|émetteur",
    "date": "année|millésime",
    "variety": "variété|variante",
    "mint": "atelier|marque d atelier|lettre d atelier",
    "grade": "état|état de conservation|conservation",
    "problem": "défaut|défauts",
    "weight": "poids|poids g|poids en g|masse",
    "diameter": "diamètre|diamètre mm|diamètre en mm|module",
    "thickness": "épaisseur|épaisseur mm",
    "axis": "axe|axe des coins|orientation des coins",
    "references": "référence|références|bibliographie",
    "quantity": "quantité|nombre",
    "acquired on": "date d achat|acheté le|date d acquisition|acquis le",
    "acquired from": "vendeur|acheté chez|acheté à|marchand",
    "acquired price": "prix|prix d achat|prix payé|coût",
    "currency": "devise",
    "value amount": "valeur|estimation|cote",
    "kept": "emplacement|rangement|lieu",
    "private": "privé",
    "photos obverse": "photo avers|image avers",
    "photos reverse": "photo revers|image revers",
    "notes": "remarque|remarques|commentaire|commentaires|observations|notes",
    "id": "numéro d inventaire|no d inventaire",
}


def fields_by_heading() -> dict[str, str]:
    """Give the field of every heading; where two languages share a word, the first of them has it."""
    found: dict[str, str] = {}
    for language in (ENGLISH, GERMAN, FRENCH):
        for field, headings in language.items():
            for heading in headings.split("|"):
                found.setdefault(heading, field)
    return found
