"""Which head goes with which portrait type."""

from __future__ import annotations

from collections.abc import Callable

from ingrith import ingrith_veiled, ingrith_young
from relief import Field, Plate
from sunniva import sunniva
from torvald import torvald

PORTRAITS: dict[str, Callable[[Plate], Field]] = {
    "ingrith-young": ingrith_young,
    "ingrith-veiled": ingrith_veiled,
    "torvald": torvald,
    "sunniva": sunniva,
}
