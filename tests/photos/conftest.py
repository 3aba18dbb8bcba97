"""Computed photographs of coins, for which the true disc is known."""

import io
from collections.abc import Callable

import numpy as np
import pytest
from PIL import Image
from scipy import ndimage

Colour = tuple[float, float, float]
Photograph = Callable[..., Image.Image]

GROUNDS: dict[str, Colour] = {
    "light": (238, 237, 234),
    "dark": (26, 27, 30),
    "grey": (122, 122, 124),
    "blue": (52, 74, 118),
}
METALS: dict[str, Colour] = {
    "silver": (168, 168, 164),
    "toned": (126, 122, 98),
    "copper": (150, 84, 48),
    "worn": (150, 150, 148),
}


def strike(radius: float, distance: np.ndarray, angle: np.ndarray, worn: float, seed: int) -> np.ndarray:
    """Give the height of a coin: a rim with a bevel, beads, a broad design and a grainy field."""
    random = np.random.default_rng(seed)
    share = distance / radius
    rim = np.clip((1 - share) / 0.02, 0, 1) * np.clip((share - 0.93) / 0.015, 0, 1)
    beads = np.clip(1 - ((share - 0.905) / 0.016) ** 2, 0, 1) * np.clip(np.cos(angle * 84) + 0.4, 0, 1)
    blobs = ndimage.gaussian_filter(random.standard_normal(distance.shape), radius * 0.06)
    design = np.clip(blobs / blobs.std() - 0.3, 0, 1.2) * (share < 0.78)
    letters = ndimage.gaussian_filter(random.standard_normal(distance.shape), radius * 0.015)
    legend = np.clip(letters / letters.std() - 0.6, 0, 1) * (np.abs(share - 0.83) < 0.04)
    height = (1 - 0.6 * worn) * (rim + 0.6 * beads + 0.5 * legend) + (1 - 0.8 * worn) * design
    return ndimage.gaussian_filter(height, radius * 0.004) * radius * 0.03


def take_photograph(
    size: tuple[int, int] = (800, 800),
    disc: tuple[float, float, float] = (400, 400, 640),
    ground: str | Colour = "light",
    metal: str | Colour = "silver",
    slope: tuple[float, float] = (0.0, 0.0),
    fall: float = 0.0,
    shadow: float = 0.45,
    shadow_offset: float = 0.025,
    shadow_blur: float = 0.03,
    grain: float = 2.0,
    blur: float = 0.6,
    worn: float = 0.2,
    slant: float = 0.0,
    quality: int | None = 88,
    seed: int = 1,
    under: Callable[[np.ndarray], np.ndarray] | None = None,
) -> Image.Image:
    """Compute the photograph of a coin on a plain ground, lit from the upper left.

    Slope and fall are the levels by which the ground changes across the frame and towards its corners. Slant
    takes light from the side away from the lamp, 0 to 1. Under draws on the ground before the coin is laid down.
    """
    width, height = size
    x, y, diameter = disc
    radius = diameter / 2
    across, down = np.meshgrid(np.arange(width) + 0.5, np.arange(height) + 0.5)
    u, v = across / width - 0.5, down / height - 0.5
    random = np.random.default_rng(seed + 1000)
    picture = np.ones((height, width, 3)) * np.array(GROUNDS.get(ground, ground), dtype=float)
    picture += (slope[0] * u + slope[1] * v - fall * 2 * (u * u + v * v))[..., None]
    if under is not None:
        picture = under(picture)
    distance = np.hypot(across - x, down - y)
    if shadow:
        away = np.hypot(across - x - diameter * shadow_offset, down - y - diameter * shadow_offset)
        dark = ndimage.gaussian_filter((away < radius).astype(float), diameter * shadow_blur)
        picture *= 1 - shadow * dark[..., None]
    relief = strike(radius, distance, np.arctan2(down - y, across - x), worn, seed)
    dy, dx = np.gradient(relief)
    lit = np.clip(0.82 + 0.55 * (dx + dy) / np.sqrt(1 + dx * dx + dy * dy), 0.15, 1.6)
    toning = ndimage.gaussian_filter(random.standard_normal(distance.shape), radius * 0.25)
    lit *= 1 + 0.06 * toning / toning.std()
    lit *= 1 - slant * np.clip(0.5 + ((across - x) + (down - y)) / (2.2 * radius), 0, 1)
    coin = np.array(METALS.get(metal, metal), dtype=float) * lit[..., None] * 1.15
    cover = np.clip(radius - distance + 0.5, 0, 1)[..., None]
    picture = picture * (1 - cover) + coin * cover
    picture = ndimage.gaussian_filter(picture, (blur, blur, 0))
    picture += random.standard_normal(picture.shape) * grain
    taken = Image.fromarray(np.clip(picture, 0, 255).round().astype(np.uint8))
    if quality is None:
        return taken
    file = io.BytesIO()
    taken.save(file, "JPEG", quality=quality)
    return Image.open(io.BytesIO(file.getvalue())).convert("RGB")


@pytest.fixture(scope="session")
def photograph() -> Photograph:
    return take_photograph
