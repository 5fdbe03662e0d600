"""How the rows about sets, symmetry, spectra and coherence are computed."""

from __future__ import annotations

from published.row import Handler

__all__ = ["HANDLERS"]

HANDLERS: list[Handler] = []
