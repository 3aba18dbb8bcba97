"""All the rules that one record alone cannot tell, run over a whole catalogue."""

from daterun.checks.addresses import check_addresses
from daterun.checks.attributions import check_attributions
from daterun.checks.belonging import check_belonging
from daterun.checks.certificates import check_certificates
from daterun.checks.dates import check_dates
from daterun.checks.days import check_days
from daterun.checks.divisions import check_divisions
from daterun.checks.grades import check_grades
from daterun.checks.histories import check_histories
from daterun.checks.issues import check_issues
from daterun.checks.kinds import check_kinds
from daterun.checks.links import check_links
from daterun.checks.lots import check_lots
from daterun.checks.photos import PhotoFacts, check_photos
from daterun.checks.reigns import check_reigns
from daterun.checks.series import check_series
from daterun.checks.settings import check_settings
from daterun.checks.weights import check_weights
from daterun.problems import Problem, sort_problems
from daterun.records.catalogue import Catalogue

_CHECKS = (
    check_settings,
    check_series,
    check_reigns,
    check_issues,
    check_divisions,
    check_belonging,
    check_dates,
    check_attributions,
    check_weights,
    check_grades,
    check_certificates,
    check_kinds,
    check_histories,
    check_days,
    check_lots,
    check_links,
    check_addresses,
)


def check_catalogue(catalogue: Catalogue, photos: PhotoFacts | None) -> tuple[Problem, ...]:
    """Find every problem across the records, sorted by place; without facts the rules of photos rest."""
    found = [problem for check in _CHECKS for problem in check(catalogue)]
    if photos is not None:
        found += check_photos(catalogue, photos)
    return sort_problems(found)
