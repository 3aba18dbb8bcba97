"""The feed of arrivals (Atom, RFC 4287) and the site map (sitemaps.org, version 0.9), as XML."""

from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

from daterun.pages.tagviews import Announcements, Arrival

MOST_URLS = 50_000
"""Pages that one file of a site map may list (sitemaps.org/protocol.html, as of 2026)."""

MOST_BYTES = 10_485_760
"""How large one may be: the protocol's earlier limit, a fifth of today's, so that old readers take it too."""

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


def write_site_maps(
    told: Announcements, address: str, most: int = MOST_URLS, most_bytes: int = MOST_BYTES
) -> dict[str, bytes]:
    """Word the site map of all pages, by address: one file, or where that is too much several and their index."""
    parts: list[list[str]] = [[]]
    room = most_bytes - len(_map_of("urlset", ()))
    for row in (f"<url><loc>{escape(each)}</loc></url>\n" for each in told.pages):
        if parts[-1] and (len(parts[-1]) == most or len(row) > room):
            parts.append([])
            room = most_bytes - len(_map_of("urlset", ()))
        parts[-1].append(row)
        room -= len(row)
    if len(parts) == 1:
        return {address: _map_of("urlset", parts[0])}
    stem, dot, kind = address.rpartition(".")
    files = {f"{stem}-{nth}{dot}{kind}": _map_of("urlset", rows) for nth, rows in enumerate(parts, 1)}
    index = (f"<sitemap><loc>{escape(told.web + each)}</loc></sitemap>\n" for each in files)
    return {address: _map_of("sitemapindex", index), **files}


def _map_of(kind: str, rows: Iterable[str]) -> bytes:
    """Word one file of a site map; its addresses are percent-encoded, so a character is a byte."""
    space = "http://www.sitemaps.org/schemas/sitemap/0.9"
    return f'{_HEAD}<{kind} xmlns="{space}">\n{"".join(rows)}</{kind}>\n'.encode()
