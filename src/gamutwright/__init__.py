"""Gamutwright: a workshop for people who teach scales.

One scale goes in; a complete, checked, narrated lesson comes out. `import gamutwright as gw` opens the Python door:

    gw.scale("G acoustic").facts["tritones"].value
    gw.scale("D dorian").draft(minutes=4).save("dorian.md")
    gw.lesson("dorian.md").package("out/dorian")

What `__all__` names is public and changes as the changelog says; everything else is private.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from gamutwright.door.comparison_view import ScaleComparison, compare
    from gamutwright.door.course_view import CourseView, course
    from gamutwright.door.examples import Example
    from gamutwright.door.lesson_view import LessonCheck, LessonView, lesson
    from gamutwright.door.scale_table import FoundScales, find
    from gamutwright.door.scale_view import DraftView, FactView, ScaleView, scale
    from gamutwright.errors import GamutwrightError

__all__ = [
    "CourseView",
    "DraftView",
    "Example",
    "FactView",
    "FoundScales",
    "GamutwrightError",
    "LessonCheck",
    "LessonView",
    "ScaleComparison",
    "ScaleView",
    "__version__",
    "compare",
    "course",
    "find",
    "lesson",
    "scale",
]

__version__ = "0.2.0"

_HOMES = {
    "CourseView": "door.course_view",
    "DraftView": "door.scale_view",
    "Example": "door.examples",
    "FactView": "door.scale_view",
    "FoundScales": "door.scale_table",
    "GamutwrightError": "errors",
    "LessonCheck": "door.lesson_view",
    "LessonView": "door.lesson_view",
    "ScaleComparison": "door.comparison_view",
    "ScaleView": "door.scale_view",
    "compare": "door.comparison_view",
    "course": "door.course_view",
    "find": "door.scale_table",
    "lesson": "door.lesson_view",
    "scale": "door.scale_view",
}


def __getattr__(name: str) -> object:
    """Load a public name when it is first asked for."""
    if name not in _HOMES:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return getattr(importlib.import_module(f"{__name__}.{_HOMES[name]}"), name)


def __dir__() -> list[str]:
    return sorted(__all__)
