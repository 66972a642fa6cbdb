"""What a scene is asked to show: which arrangement, in which mood, at which moment, seen from where."""

import zlib
from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True, slots=True)
class View:
    """One look at one scene.

    `seed` fixes the arrangement, `mood` names the palette and the weather, `form` picks a variant that the scene has.
    `step` is the time in seconds since the first look, for what moves. `lean` is how far the viewer stands to the right
    of the first look, as a share of the picture's width: what is near slides to the left by it, what is far stays.
    """

    seed: int
    mood: str
    form: str = ""
    step: float = 0.0
    lean: float = 0.0

    def dice(self, purpose: str) -> np.random.Generator:
        """Random numbers of their own for each purpose, so that no part of a scene disturbs another."""
        return np.random.default_rng([self.seed, zlib.crc32(purpose.encode())])
