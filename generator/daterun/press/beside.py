"""The files that stand beside the pages of an edition: data that scripts read, the feed and the site map."""

from daterun.pages import addresses
from daterun.pages.plan import Plan
from daterun.press.announcements import write_feed, write_site_maps
from daterun.press.datafiles import write_data


def files_beside(plan: Plan) -> dict[str, bytes]:
    """Make the files beside the pages, by address."""
    files = {each.address: write_data(each) for each in plan.data}
    told = plan.announcements
    if told is not None:
        files |= write_site_maps(told, addresses.SITE_MAP)
        if told.arrivals:
            files[addresses.FEED] = write_feed(told, addresses.FEED)
    return files
