"""Colours brought to sRGB in eight bits on white, whatever a photo's file holds."""

import io
import threading

from PIL import Image, ImageCms

_SIXTEEN = ("I;16", "I;16L", "I;16B", "I;16N", "I")
_own = threading.local()
"""Transforms of profiles, kept by each thread for itself: making one takes 2.3 ms."""

_MOST_KEPT = 16


def flatten(image: Image.Image) -> Image.Image:
    """Bring an image of any mode to L, RGB, CMYK or LAB; what is transparent is laid on white."""
    if image.mode in ("RGB", "L", "CMYK", "LAB") and "transparency" not in image.info:
        return image
    if image.mode in _SIXTEEN:
        return image.convert("I").point(lambda value: value * (1 / 256)).convert("L")
    if "transparency" in image.info or image.mode in ("RGBA", "LA", "PA", "RGBa", "La"):
        clear = image.convert("RGBA")
        white = Image.new("RGBA", clear.size, "white")
        return Image.alpha_composite(white, clear).convert("RGB")
    return image.convert("L" if image.mode in ("1", "F") else "RGB")


def to_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    """Convert to RGB by a colour profile; one that is broken or does not fit the image is passed over."""
    if image.mode == "LAB":
        profile = None
    transform = _transform(profile, image.mode)
    if transform is not None:
        converted = ImageCms.applyTransform(image, transform)
        if converted is not None:
            return converted
    return image if image.mode == "RGB" else image.convert("RGB")


def _transform(profile: bytes | None, mode: str) -> ImageCms.ImageCmsTransform | None:
    if profile is None and mode != "LAB":
        return None
    kept: dict[tuple[bytes | None, str], ImageCms.ImageCmsTransform | None] = _own.__dict__.setdefault(
        "kept", {}
    )
    key = (profile, mode)
    if key not in kept:
        if len(kept) >= _MOST_KEPT:
            kept.clear()
        kept[key] = _make_transform(profile, mode)
    return kept[key]


def _make_transform(profile: bytes | None, mode: str) -> ImageCms.ImageCmsTransform | None:
    try:
        if profile is None:
            source = ImageCms.ImageCmsProfile(ImageCms.createProfile("LAB"))
        else:
            source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            if mode == "RGB" and "srgb" in ImageCms.getProfileDescription(source).casefold():
                return None
        target = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB"))
        return ImageCms.buildTransform(source, target, mode, "RGB")
    except (ImageCms.PyCMSError, OSError, TypeError, ValueError):
        return None
