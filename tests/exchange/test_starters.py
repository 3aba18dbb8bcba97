"""The starter series are held to the published facts that they were carried over from."""

from decimal import Decimal
from pathlib import Path

import pytest
import yaml

from daterun.checks.catalogue import check_catalogue
from daterun.checks.slots import is_proofs_only
from daterun.exchange.carried import carried_series, left_out, say_verified
from daterun.exchange.start import lay_out
from daterun.records.catalogue import read_catalogue

FACTS = Path(__file__).parent.parent / "facts"
ISSUERS = {
    "united-kingdom": "united-kingdom",
    "new-zealand": "new-zealand",
    "australia": "australia",
    "south-africa": "union-of-south-africa",
}
NAMES = {
    "threepence (silver)": "threepence",
    "threepence (brass)": "brass-threepence",
}
GRAIN_G = Decimal("0.06479891")


def facts(name):
    return yaml.safe_load((FACTS / f"{name}.yaml").read_text(encoding="utf-8"))


def years(spec):
    found = set()
    for each in spec or ():
        first, _, last = str(each).partition("-")
        if len(first) == 4 and len(last) in (0, 4):
            found |= set(range(int(first), int(last or first) + 1))
    return found


def runs():
    issued = facts("dates_issued")
    for run in (*issued["sourced_runs"], *issued["remembered_runs"], *issued["nz_runs"]):
        issuer = ISSUERS.get(run.get("issuer", "new-zealand"))
        if issuer and run.get("dates", run.get("mintage")):
            name = run["denomination"]
            yield f"{issuer}/{NAMES.get(name, name.replace(' ', '-'))}", run


RUNS = tuple(runs())


@pytest.fixture(scope="module")
def catalogue(tmp_path_factory):
    folder = tmp_path_factory.mktemp("started") / "coins"
    lay_out(folder, list(ISSUERS.values()))
    found, problems = read_catalogue(folder)
    assert [*problems, *check_catalogue(found, None)] == []
    return found


def test_every_run_of_the_facts_that_has_dates_is_carried_and_no_other():
    assert sorted({key for key, _ in runs()}) == list(carried_series())


@pytest.mark.parametrize(("key", "run"), RUNS, ids=[key for key, _ in RUNS])
def test_the_dates_struck_are_those_of_the_facts(catalogue, key, run):
    series = catalogue.series[key]
    circulated = {
        each.date.year for each in series.issues if not is_proofs_only(each) and each.date.key.isdigit()
    }
    told = years(run["dates"]) if run.get("dates") else set(run["mintage"]) | set(run["later_dates"])
    assert circulated == told - years(run.get("proof_only"))
    proofs = {each.date.year for each in series.issues if is_proofs_only(each)}
    assert proofs == years(run.get("proof_only"))


@pytest.mark.parametrize(("key", "run"), RUNS, ids=[key for key, _ in RUNS])
def test_years_not_struck_are_gaps_only_where_the_facts_say_so(catalogue, key, run):
    struck = catalogue.series[key].struck
    gaps = {year for span in struck.not_struck for year in span}
    said = years(run.get("not_struck")) | years(run.get("not_issued")) | years(run.get("pattern"))
    whole = struck.years
    assert {year for year in said if year in whole and not struck.issue(str(year))} <= gaps
    assert run["complete"] or gaps <= said


@pytest.mark.parametrize(("key", "run"), RUNS, ids=[key for key, _ in RUNS])
def test_dates_from_memory_are_marked_as_not_checked(catalogue, key, run):
    told = run.get("src_dates", "memory")
    from_memory = "memory" in str(told) and run.get("sourcing") != "full"
    assert catalogue.series[key].struck.checked is not from_memory


def test_every_figure_has_a_source_and_none_from_memory_passes_as_checked(catalogue):
    for series in catalogue.series.values():
        assert series.struck.source, series.key
        for standard in series.standards:
            assert standard.source, series.key
            assert ("from memory" not in standard.source + standard.note) or not standard.checked, series.key
        for each in series.issues:
            if each.figures.mintage or each.figures.proofs is not None:
                assert each.figures.source, (series.key, each.date.key)
                assert "from memory" not in each.figures.source, (series.key, each.date.key)


BRITISH = {
    "crown": "crown",
    "half-crown": "half-crown",
    "florin": "florin",
    "shilling": "shilling",
    "sixpence": "sixpence",
    "threepence": "threepence",
    "penny": "penny",
    "halfpenny": "halfpenny",
    "farthing": "farthing",
}


@pytest.mark.parametrize("name", BRITISH)
def test_british_weights_are_those_of_the_schedule_of_1870(catalogue, name):
    schedule = {(each["coin"], each["metal"]): each["grains"] for each in facts("coinage_act_1870")["coins"]}
    metal = "bronze" if name in ("penny", "halfpenny", "farthing") else "silver"
    grams = Decimal(str(schedule[name, metal])) * GRAIN_G
    for standard in catalogue.series[f"united-kingdom/{name}"].standards:
        assert abs(standard.weight.grams - grams) < Decimal("0.00003")


@pytest.mark.parametrize("issuer", ["new-zealand", "australia", "union-of-south-africa"])
def test_the_other_issuers_coins_keep_the_british_weights_to_a_hundredth(catalogue, issuer):
    same = {"five-shillings": "crown", "two-and-a-half-shillings": "half-crown", "two-shillings": "florin"}
    for key, series in catalogue.series.items():
        if key.startswith(issuer):
            british = catalogue.series[f"united-kingdom/{same.get(series.id, series.id)}"].standards[0]
            for each in series.standards:
                assert abs(each.weight.grams - british.weight.grams) < Decimal("0.01"), key


@pytest.mark.parametrize("issuer", ISSUERS)
def test_fineness_changes_in_the_years_that_the_facts_give(catalogue, issuer):
    periods = [
        each for each in facts("sterling_area_specs")["issuers"][issuer]["silver_periods"] if "from" in each
    ]
    shilling = catalogue.series[f"{ISSUERS[issuer]}/shilling"]
    for issue in shilling.issues:
        fine = {each["fineness"] for each in periods if each["from"] <= issue.date.year <= each["to"]}
        (standard,) = shilling.standards_of(issue.date)
        assert (float(standard.fineness.value) if standard.fineness else 0) in fine, issue.date.key


@pytest.mark.parametrize("issuer", ISSUERS)
def test_reigns_are_those_of_the_facts(catalogue, issuer):
    reigns = {each["id"]: (each["start"], each["end"]) for each in facts("monarchs")["reigns"]}
    for monarch in catalogue.issuers[ISSUERS[issuer]].monarchs:
        assert (str(monarch.reign.first), str(monarch.reign.last)) == reigns[monarch.id]


@pytest.mark.parametrize("issuer", ISSUERS)
def test_each_date_bears_the_monarch_of_the_facts(catalogue, issuer):
    spans = facts("monarchs")["portrait_dates"][issuer]
    for key, series in catalogue.series.items():
        if key.startswith(ISSUERS[issuer]):
            for issue in series.issues:
                year = issue.date.year
                known = {
                    each["monarch"]
                    for each in spans
                    if each.get("from") and each["from"] <= year <= each["to"]
                }
                if issuer == "australia" and year == 1937:  # the crown alone, which the facts note
                    known = {"george-vi"}
                assert {each.monarch for each in series.types_of(issue.date)} == known, (key, year)


def test_figures_that_sources_dispute_are_all_given(catalogue):
    crown = catalogue.series["new-zealand/crown"]
    assert crown.issue("1935").figures.mintage == (1128, 764)
    assert crown.issue("1953").figures.mintage == (250000, 250200)
    florin = catalogue.series["australia/florin"].issue("1934-35")
    assert (florin.figures.mintage, florin.figures.melted) == ((75000,), 21000)


def test_how_far_a_series_is_verified_is_said_plainly(catalogue):
    def say(key):
        return say_verified(catalogue.series[key])

    assert say("australia/crown") == (
        "dates from published sources; standards from published sources; types from published sources; "
        "2 of 2 mintages told"
    )
    assert say("united-kingdom/sixpence").startswith("dates from memory; standards from published sources")
    assert say("united-kingdom/penny").startswith("dates partly from memory; standards partly from memory")


def test_series_that_the_facts_cannot_carry_are_said_to_be_left_out(catalogue):
    assert list(left_out(tuple(catalogue.issuers.values()))) == [
        "Union of South Africa: left out are penny, halfpenny and farthing, whose dates are not known well "
        "enough to be given."
    ]
