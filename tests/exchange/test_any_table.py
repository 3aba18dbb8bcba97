"""Whatever a table holds, its rows become sound coins or are rejected with a reason; no cell stops the intake."""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from daterun.checks.catalogue import check_catalogue
from daterun.exchange.cells import Habits, write_cell
from daterun.exchange.coinfile import with_coins
from daterun.exchange.columns import COLUMNS
from daterun.exchange.guessing import TARGETS, guess_columns, guess_decimals
from daterun.exchange.headings import fields_by_heading
from daterun.exchange.intake import take_in
from daterun.exchange.mapping import ColumnMapping
from daterun.exchange.rejects import write_rejects
from daterun.exchange.tables import read_table
from daterun.problems import CannotContinue, Misread
from daterun.records.catalogue import read_catalogue

ODD = st.sampled_from(
    [
        *(
            "",
            " ",
            "-",
            "?",
            "=1+1",
            "+",
            "'",
            '"',
            ";",
            ",",
            "{",
            "}",
            "[",
            "]",
            "{a: b",
            "[a, b]",
            "{a: [b, {c: d}]}",
        ),
        *(
            "{amount: 12 GBP}",
            "[{grade: VF30}]",
            "a: b",
            "# a",
            "- a",
            "---",
            "...",
            "|",
            ">",
            "*a",
            "&a",
            "!!a",
            "~",
            "null",
        ),
        *(
            "NO",
            "0640",
            "1e5",
            "1,250",
            "1.250",
            "1.234,50",
            "£",
            "£4",
            "4/6",
            "$12",
            "12 €",
            "-5",
            "9" * 40,
            "٣",
            "½",
            "1/2",
        ),
        *(
            "1897",
            "1902 K",
            "1895-96",
            "18?2",
            "189",
            "undated",
            "n.d.",
            "0000",
            "9999",
            "1897.0",
            "2019-02-30",
            "3/4/2019",
        ),
        *(
            "3. März 2019",
            "31.12.1999",
            "VF30",
            "GVF/EF",
            "EF/",
            "VF–EF",
            "PF66 DCAM",
            "lovely",
            "cleaned",
            "8,97 g",
            "9 kg",
        ),
        *(
            "12h",
            "180°",
            "400",
            "a\nb",
            "a\n---\nb",
            "\t",
            "\x00",
            "\x85",
            "\u2028",
            "\ufeff",
            "é" * 200,
            "a/b",
            "../a",
            "C:\\a",
        ),
        *(
            "ort",
            "vessmark/ort",
            "1 ort",
            "Orts",
            "crown",
            "proof",
            "error",
            "equally",
            "yes",
            "bought",
            "sold",
        ),
    ]
)
CELL = ODD | st.text(st.characters(blacklist_categories=("Cs",)), max_size=8)
HEADING = st.sampled_from(sorted({*COLUMNS, *fields_by_heading()})) | CELL


@st.composite
def tables(draw):
    width = draw(st.integers(1, 7))
    headings = [
        *draw(st.sampled_from([[], ["Series", "Year"]])),
        *draw(st.lists(HEADING, min_size=1, max_size=width)),
    ]
    rows = draw(st.lists(st.lists(CELL, max_size=len(headings) + 1), max_size=6))
    if headings[:2] == ["Series", "Year"]:
        rows = [["ort", draw(st.sampled_from(["1897", "1900", "1902"])), *row] for row in rows]
    separator = draw(st.sampled_from(",;\t|"))

    def quoted(cell):
        return '"' + cell.replace('"', '""') + '"' if draw(st.booleans()) else cell

    return "\n".join(separator.join(quoted(each) for each in row) for row in [headings, *rows])


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow], max_examples=150)
@given(
    tables(),
    st.sampled_from(["utf-8", "utf-16"]),
    st.sampled_from(["", "day first"]),
    st.sampled_from(["", "GBP"]),
)
def test_any_table_comes_to_sound_coins_and_rejects(
    catalogue_folder, tmp_path, text, encoding, order, currency
):
    folder = catalogue_folder({})
    catalogue, _ = read_catalogue(folder)
    path = tmp_path / "any.csv"
    path.write_bytes(text.encode(encoding))
    try:
        table = read_table(path)
    except CannotContinue:
        return
    columns = guess_columns(table)
    mapping = ColumnMapping(columns, order, guess_decimals(table, columns), currency)
    intake = take_in(folder, catalogue, table, mapping)
    assert len(intake.taken) + len(intake.there) + intake.blank + len(intake.rejects) == len(table.rows)
    assert all(each.reason for each in intake.rejects)
    after = with_coins(catalogue, [each.coin for each in intake.taken])
    assert [each for each in check_catalogue(after, None) if each.is_error] == []
    write_rejects(table, intake.rejects)


@given(
    st.sampled_from(sorted({*TARGETS} - {"issuer", "currency", "ignored"})),
    CELL,
    st.booleans(),
    st.booleans(),
)
def test_any_cell_is_written_or_refused_with_a_reason(column, cell, day_first, decimal_comma):
    try:
        write_cell(column, cell, Habits(day_first, decimal_comma, "GBP"))
    except Misread as misread:
        assert misread.sentence
