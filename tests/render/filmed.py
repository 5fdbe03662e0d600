"""What is seen in a decoded film: brightness, and flashes as WCAG 2.2 counts them (success criterion 2.3.1)."""

from __future__ import annotations

from pathlib import Path

import av
import numpy as np
from numpy.typing import NDArray


def luma(path: Path) -> NDArray[np.uint8]:
    """Decode the picture: one plane of brightness a frame, in full range."""
    with av.open(str(path)) as film:
        return np.stack([frame.to_ndarray(format="gray") for frame in film.decode(video=0)])


def flashes_in_a_second(frames: NDArray[np.float64]) -> int:
    """Count general flashes: opposing changes of relative luminance by 10 % or more, the darker below 0.80.

    Each block of the frame is counted by itself, which is stricter than the criterion's share of the view.
    """
    most = 0
    for block in frames.reshape(len(frames), -1).T:
        turns: list[tuple[int, int]] = []
        last = block[0]
        for index, value in enumerate(block):
            if abs(value - last) >= 0.1 and min(value, last) < 0.8:
                sign = 1 if value > last else -1
                if not turns or turns[-1][1] != sign:
                    turns.append((index, sign))
                last = value
            elif turns and (value - last) * turns[-1][1] > 0:
                last = value
        for start, _ in turns:
            most = max(most, sum(start <= index < start + 30 for index, _ in turns) // 2)
    return most


def blocks(frames: NDArray[np.uint8]) -> NDArray[np.float64]:
    """Average blocks of 20 by 20 pixels, in relative luminance (IEC 61966-2-1)."""
    value = np.arange(256) / 255
    linear = np.where(value <= 0.04045, value / 12.92, ((value + 0.055) / 1.055) ** 2.4).astype(np.float32)[frames]
    count, height, width = linear.shape
    cut = linear[:, : height // 20 * 20, : width // 20 * 20]
    return cut.reshape(count, height // 20, 20, width // 20, 20).mean(axis=(2, 4))
