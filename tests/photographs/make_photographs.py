"""Compute the demo's photographs: `python tests/photographs/make_photographs.py [--only ID…] [--folder .]`.

Reads content/series and content/coins, writes content/photos/<coin id>.<side>.jpg, and beside this script
discs.json, which tells where each coin lies in its photograph. The same coins give the same bytes.
"""

from __future__ import annotations

import argparse
import json
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from camera import disc_of, photograph
from coins import Coin, read_coins
from strike import SIDES

DISCS = Path(__file__).parent / "discs.json"


def write_coin(coin: Coin, photos: Path) -> tuple[str, int]:
    """Write both photographs of a coin; tell its id and how many bytes they take."""
    total = 0
    for side in SIDES:
        path = photos / f"{coin.id}.{side}.jpg"
        path.parent.mkdir(parents=True, exist_ok=True)
        data = photograph(coin, side)
        path.write_bytes(data)
        total += len(data)
    return coin.id, total


def write_discs(coins: list[Coin]) -> None:
    """Write where every coin's blank lies, after the orientation tag is obeyed."""
    discs = {f"{coin.id}.{side}": disc_of(coin, side) for coin in coins for side in SIDES}
    rows = [f"  {json.dumps(name)}: {json.dumps(disc)}" for name, disc in discs.items()]
    DISCS.write_text("{\n" + ",\n".join(rows) + "\n}\n", encoding="utf-8")


def main() -> None:
    """Read the command line and make what it asks for."""
    parser = argparse.ArgumentParser(description="Compute the photographs of the demo.")
    parser.add_argument("--only", nargs="+", metavar="ID", help="coins to photograph, for example ort/1899")
    parser.add_argument("--folder", type=Path, default=Path(), help="the catalogue folder")
    parser.add_argument("--processes", type=int, default=2, help="how many to run side by side")
    chosen = parser.parse_args()
    content = chosen.folder / "content"
    every = read_coins(content)
    coins = [coin for coin in every if not chosen.only or coin.id in chosen.only]
    # coins that share dies go one after the other
    coins.sort(key=lambda coin: (coin.series, coin.type, coin.id))
    total = 0
    with ProcessPoolExecutor(chosen.processes) as pool:
        photos = [content / "photos"] * len(coins)
        for count, (name, size) in enumerate(pool.map(write_coin, coins, photos, chunksize=6), 1):
            total += size
            print(f"{count} of {len(coins)}: {name}, {size // 1024} KB")
    print(f"{total / 1e6:.2f} MB")
    write_discs(every)


if __name__ == "__main__":
    main()
