"""What tests of pages ask a browser again and again."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page

__all__ = ["VIEWS", "cut_off", "focused", "magnify", "too_wide"]

VIEWS = [
    pytest.param("light", (360,), id="light-360"),
    pytest.param("dark", (1440,), id="dark-1440"),
    pytest.param("light", (768, 1440), id="light-768-1440", marks=pytest.mark.long),
    pytest.param("dark", (360, 768), id="dark-360-768", marks=pytest.mark.long),
]
"""Shades with the widths that a screen is looked at in; together all of both."""


def magnify(page: Page) -> None:
    """Make all text twice as large, as a reader may (WCAG 2.2, 1.4.4)."""
    before = page.evaluate("parseFloat(getComputedStyle(document.body).fontSize)")
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    after = page.evaluate("parseFloat(getComputedStyle(document.body).fontSize)")
    assert after >= 1.85 * before


def too_wide(page: Page) -> float:
    """How far a page can be scrolled sideways, in pixels."""
    return page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")


def focused(page: Page) -> str:
    """The id, or else the class, of what has the focus."""
    return page.evaluate("document.activeElement.id || document.activeElement.className")


def cut_off(page: Page) -> list[str]:
    """The beginnings of elements that stand out of the window at its sides."""
    return page.evaluate(
        """() => [...document.querySelectorAll(
             'h1, h2, h3, p, dt, dd, li, td, th, label, select, button')].filter(el => {
             const box = el.getBoundingClientRect();
             return box.width && !el.closest('.skip, .unseen, svg, thead')
               && (box.left < -1 || box.right > innerWidth + 1);
           }).map(el => el.outerHTML.slice(0, 80))"""
    )
