"""A length read off a picture with a scale: two measures in pixels against one known length."""

from __future__ import annotations

from dataclasses import dataclass

from sheetgen.model.schema import entry
from sheetgen.model.values import Reading


@dataclass(frozen=True, slots=True)
class PictureScale:
    """What was measured in the picture. ``known_pixels`` are as long as ``known`` is."""

    pixels: float = entry(
        "number", "Its size in the picture, in pixels.", low=1, high=1e6, example="84"
    )
    known: Reading = entry(
        "reading", "A length in the picture that is known.", low=0.1, high=1e5, example="100 mm"
    )
    known_pixels: float = entry(
        "number", "The size of that in pixels.", low=1, high=1e6, example="3250"
    )
    error: float = entry(
        "number",
        "How many pixels each of the two may be out, either way.",
        default=2.0,
        low=0,
        high=1000,
    )

    def reading(self) -> Reading:
        """The length with its range, mm: (pixels ± error) / (known pixels ∓ error) × known.

        Holds where both lie equally far from the camera.

        >>> r = PictureScale(84.0, Reading(100, 100, 100), 3250.0).reading()
        >>> round(r.low, 2), round(r.value, 2), round(r.high, 2)
        (2.52, 2.58, 2.65)
        """
        e = min(self.error, 0.9 * self.pixels, 0.9 * self.known_pixels)
        return Reading(
            self.pixels / self.known_pixels * self.known.value,
            (self.pixels - e) / (self.known_pixels + e) * self.known.low,
            (self.pixels + e) / (self.known_pixels - e) * self.known.high,
            sure=False,
            how=f"{self.pixels:g} of {self.known_pixels:g} pixels of a picture, ± {e:g} each",
        )
