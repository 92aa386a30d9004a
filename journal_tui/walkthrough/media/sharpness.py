"""How sharp a picture is, and whether there is anything in it to see. Needs Pillow."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.Image import Image

#: Of these two, as the blackframe filter of FFmpeg's documentation has them by default: a picture is
#: black when at least 98 % of its points are darker than 32 of 255.
_DARK = 32
_BLACK_SHARE = 0.98


def sharpness(grey: Image) -> float:
    """Return the gradient energy of a grey picture: how sharp it is, for comparing like pictures.

    The mean over all points of ``(I(x+1,y) - I(x,y))^2 + (I(x,y+1) - I(x,y))^2`` with I from 0 to 255.
    It is the "energy of image gradient" of autofocus (Subbarao, Choi and Nikzad 1993; compared among 36
    measures by Pertuz, Puig and Garcia 2013; both named from memory). Blur of any kind lowers it.
    """
    from PIL import ImageChops, ImageStat

    width, height = grey.size
    across = ImageChops.difference(grey.crop((1, 0, width, height)), grey.crop((0, 0, width - 1, height)))
    down = ImageChops.difference(grey.crop((0, 1, width, height)), grey.crop((0, 0, width, height - 1)))
    energy = ImageStat.Stat(across).sum2[0] + ImageStat.Stat(down).sum2[0]
    return float(energy) / (width * height)


def black(grey: Image) -> bool:
    """True when a grey picture shows nothing: a covered lens, or a room without light."""
    counts = grey.histogram()
    return sum(counts[:_DARK]) >= _BLACK_SHARE * sum(counts)
