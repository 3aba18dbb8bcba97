"""All the rules that one record alone cannot tell, run over a whole catalogue."""

from daterun.checks.belonging import check_belonging
from daterun.checks.photos import PhotoFacts, check_photos
from daterun.problems import Problem, sort_problems
from daterun.records.catalogue import Catalogue


def check_catalogue(catalogue: Catalogue, photos: PhotoFacts | None) -> tuple[Problem, ...]:
    """Find every problem across the records, sorted by place; without facts the rules of photos rest."""
    found = [*check_belonging(catalogue)]
    if photos is not None:
        found += check_photos(catalogue, photos)
    return sort_problems(found)
