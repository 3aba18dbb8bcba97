import pytest

from daterun.checks.slots import figures_of
from daterun.pages.wording import name_type, name_variety, say_date, say_day, say_source, say_struck
from daterun.records.struck import DateIssue, Figures, Part
from daterun.trade.dates import parse_coin_date, parse_day


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("1899", "1899"),
        ("1887-88", "1887–88"),
        ("1887/88", "1887–88"),
        ("18?2", "18?2"),
        ("Undated", "undated"),
        ("0850", "0850"),
    ],
)
def test_a_date_is_worded_as_the_coin_bears_it(words, written, said):
    assert say_date(parse_coin_date(written), words) == said


@pytest.mark.parametrize(
    ("written", "said"), [("2024-02-11", "11 February 2024"), ("2024-02", "February 2024"), ("2024", "2024")]
)
def test_a_day_is_worded_as_far_as_it_is_known(words, written, said):
    assert say_day(parse_day(written), words) == said


@pytest.mark.parametrize(
    ("figures", "said"),
    [
        (Figures(), "number struck not known"),
        (Figures((341000,)), "341,000 struck"),
        (Figures((0,)), "0 struck"),
        (Figures((764, 1128)), "764 or 1,128 struck"),
        (Figures((3, 4, 5)), "3, 4 or 5 struck"),
        (Figures((900,), proofs=40), "900 struck, 40 of them proofs"),
        (Figures((900,), proofs=40, proofs_apart=True), "900 struck, and 40 proofs"),
        (Figures(proofs=40), "number struck not known, 40 of them proofs"),
        (Figures(proofs=40, proofs_only=True), "40 struck, proofs only"),
        (Figures((98000,), melted=21000), "98,000 struck, 21,000 melted"),
    ],
)
def test_the_number_struck_is_worded_with_all_that_is_known(words, figures, said):
    assert say_struck(figures, words) == said


@pytest.mark.parametrize(
    ("source", "checked", "said"),
    [
        ("Ledger", True, "Ledger"),
        ("", True, ""),
        ("Ledger", False, "Ledger (from memory, not checked)"),
        ("", False, "from memory, not checked"),
    ],
)
def test_a_source_says_where_it_is_from_memory(words, source, checked, said):
    assert say_source(source, checked, words) == said


def issue(whole, *parts):
    marks = [Part(str(nth), None, None, each, None) for nth, each in enumerate(parts)]
    return DateIssue(parse_coin_date("1891"), whole, tuple(marks), None, None)


@pytest.mark.parametrize(
    ("whole", "parts", "said"),
    [
        (Figures((5,)), (), "5 struck"),
        (Figures(), (), "number struck not known"),
        (Figures((9,)), (Figures((4,)), Figures((3,))), "9 struck"),
        (Figures(), (Figures((4,)), Figures((3,))), "7 struck"),
        (Figures(), (Figures((4,)), Figures()), "number struck not known"),
        (Figures(), (Figures((4,)), Figures((3, 5))), "number struck not known"),
        (Figures(), (Figures((4,)), Figures(proofs=2, proofs_only=True)), "6 struck, 2 of them proofs"),
        (
            Figures(),
            (Figures((4,), proofs=1, proofs_apart=True), Figures((3,))),
            "8 struck, 1 of them proofs",
        ),
        (
            Figures(),
            (Figures(proofs=2, proofs_only=True), Figures(proofs=3, proofs_only=True)),
            "5 struck, proofs only",
        ),
        (Figures(), (Figures((4,), melted=1), Figures((3,), melted=2)), "7 struck, 3 melted"),
        (Figures(proofs=2, proofs_only=True), (Figures((4,)), Figures((3,))), "7 struck, 2 of them proofs"),
        (Figures(melted=6), (Figures((4,), melted=1), Figures((3,))), "7 struck, 6 melted"),
    ],
)
def test_a_date_without_a_number_has_that_of_its_parts(words, whole, parts, said):
    assert say_struck(figures_of(issue(whole, *parts)), words) == said


def test_a_date_is_scarce_by_its_own_word_or_where_its_every_part_is():
    scarce, common = Figures((4,), scarce=True), Figures((3,))
    assert figures_of(issue(Figures(scarce=True), common, common)).scarce
    assert figures_of(issue(Figures(), scarce, scarce)).scarce
    assert not figures_of(issue(Figures(), scarce, common)).scarce


def test_a_date_keeps_its_note_and_source_and_what_was_not_checked():
    found = figures_of(issue(Figures(note="n", source="s"), Figures((4,), checked=False), Figures((3,))))
    assert (found.note, found.source, found.checked) == ("n", "s", False)


def test_a_variety_goes_by_its_name_else_by_its_short_name(planned, series):
    varieties = "varieties: [{id: small-date, dates: 1891}, {id: wide, name: Wide figures, dates: 1891}]"
    found = planned({"content/series/vessmark/ort.yaml": series("1891: 5", varieties)})
    ort = found.binder.catalogue.series["vessmark/ort"]
    assert [name_variety(each) for each in ort.varieties] == ["small date", "Wide figures"]


def test_a_type_without_an_issuer_goes_by_its_short_name(planned):
    ort = planned().binder.catalogue.series["vessmark/ort"]
    assert name_type(ort.types[0], ort, None) == "ingrith"
