"""The feed of arrivals (Atom, RFC 4287) and the site map (sitemaps.org, version 0.9), as XML."""

from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

from daterun.pages.tagviews import Announcements, Arrival

_HEAD = '<?xml version="1.0" encoding="utf-8"?>\n'


def write_feed(told: Announcements, address: str) -> bytes:
    """Word the feed; it was changed last when the newest coin arrived.

    A day is given as its midnight in UTC, for Atom asks for a time.
    """
    url = told.web + address
    lines = [
        f'<feed xmlns="http://www.w3.org/2005/Atom" xml:lang={quoteattr(told.language)}>',
        f"<title>{escape(told.title)}</title>",
        f"<subtitle>{escape(told.summary)}</subtitle>" if told.summary else "",
        f"<id>{escape(url)}</id>",
        f'<link rel="self" type="application/atom+xml" href={quoteattr(url)}/>',
        f'<link rel="alternate" type="text/html" href={quoteattr(told.web)}/>',
        f"<updated>{told.arrivals[0].day}T00:00:00Z</updated>",
        f"<author><name>{escape(told.author)}</name></author>",
        *(_entry(each) for each in told.arrivals),
        "</feed>",
    ]
    return (_HEAD + "\n".join(line for line in lines if line) + "\n").encode()


def _entry(arrival: Arrival) -> str:
    lines = [
        "<entry>",
        f"<title>{escape(arrival.title)}</title>",
        f"<id>{escape(arrival.url)}</id>",
        f'<link rel="alternate" type="text/html" href={quoteattr(arrival.url)}/>',
        f'<link rel="enclosure" type="image/jpeg" href={quoteattr(arrival.picture)}/>'
        if arrival.picture
        else "",
        f"<published>{arrival.day}T00:00:00Z</published>",
        f"<updated>{arrival.day}T00:00:00Z</updated>",
        f"<summary>{escape(arrival.summary)}</summary>",
        "</entry>",
    ]
    return "\n".join(line for line in lines if line)


def write_site_map(urls: Iterable[str]) -> bytes:
    """Word the site map of all pages."""
    rows = "".join(f"<url><loc>{escape(each)}</loc></url>\n" for each in urls)
    return f'{_HEAD}<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">\n{rows}</urlset>\n'.encode()
