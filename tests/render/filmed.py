"""What is seen in a decoded film: brightness, and the flash meter that verifies films (tested in test_readback.py)."""

from __future__ import annotations

from pathlib import Path

import av
import numpy as np
from numpy.typing import NDArray

from gamutwright.render.readback.flashes import blocks, flashes_in_a_second

__all__ = ["blocks", "flashes_in_a_second", "luma"]


def luma(path: Path) -> NDArray[np.uint8]:
    """Decode the picture: one plane of brightness a frame, in full range."""
    with av.open(str(path)) as film:
        return np.stack([frame.to_ndarray(format="gray") for frame in film.decode(video=0)])
