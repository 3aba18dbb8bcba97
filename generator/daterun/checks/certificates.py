"""Whether each certificate belongs to one coin."""

from collections.abc import Iterator

from daterun.problems import Problem
from daterun.records.catalogue import Catalogue
from daterun.records.located import Mapping


def check_certificates(catalogue: Catalogue) -> Iterator[Problem]:
    """Find two coins that name one number of one grading firm, however it is spaced."""
    first: dict[tuple[str, str], tuple[str, Mapping]] = {}
    for coin in catalogue.coins:
        for certificate in coin.certificates:
            number = "".join(certificate.number.split()).casefold()
            if not number:
                continue
            key = (" ".join(certificate.by.split()).casefold(), number)
            if key not in first:
                first[key] = (coin.id, certificate.at)
            elif first[key][0] != coin.id:
                yield Problem(
                    "certificate",
                    f'certificate "{certificate.number}" of {certificate.by} is that of {first[key][0]} too',
                    certificate.at.place_of("number"),
                    "one number is one coin; look at both holders",
                    others=(first[key][1].place_of("number"),),
                )
