"""The files that stand beside the pages of an edition: the data that scripts read."""

from daterun.pages.plan import Plan
from daterun.press.datafiles import write_data


def files_beside(plan: Plan) -> dict[str, bytes]:
    """Make the files beside the pages, by address."""
    return {each.address: write_data(each) for each in plan.data}
