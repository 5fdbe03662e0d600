"""Which story a lesson tells.

Conventions: stories are ranked by their score for the scale, equal ones in the order of their names.
"""

from __future__ import annotations

from collections.abc import Sequence
from difflib import get_close_matches

from gamutwright.errors import InputError
from gamutwright.lessons.stories.material import Material
from gamutwright.lessons.stories.story import Story

__all__ = ["choose_story", "fitting_stories"]


def fitting_stories(stories: Sequence[Story], material: Material) -> tuple[Story, ...]:
    """List the stories that fit a scale, the best first.

    Parameters
    ----------
    stories : sequence of Story
        Those on offer.
    material : Material
        What there is to tell of the scale.

    Returns
    -------
    tuple of Story
        Those with a score above 0, but for what is told only where it is asked for.
    """
    scored = [(story.score_for(material), story) for story in stories]
    ranked = sorted(scored, key=lambda entry: (-entry[0], entry[1].id))
    return tuple(story for score, story in ranked if score > 0 and not story.is_asked_for)


def choose_story(stories: Sequence[Story], material: Material, wanted: str = "") -> Story:
    """Choose the story that fits best, or the one asked for.

    Parameters
    ----------
    stories : sequence of Story
        Those on offer.
    material : Material
        What there is to tell of the scale.
    wanted : str
        The id of a story; "" for the best.

    Returns
    -------
    Story
        The story.

    Raises
    ------
    InputError
        If there is no such story, it does not fit, or none does.

    Examples
    --------
    >>> from gamutwright.lessons.stories.story import built_in_stories
    >>> from gamutwright.theory.scale import Scale
    >>> about = Material(Scale.of(0), {}, {"relation": "changed", "changes": 1}, {})
    >>> choose_story(built_in_stories(), about).id
    'one-tone-apart'
    """
    fitting = fitting_stories(stories, material)
    names = ", ".join(story.id for story in fitting)
    if not wanted:
        if not fitting:
            raise InputError("this scale", "none of the stories on offer fits it", "Add one whose 'fits' holds for it.")
        return fitting[0]
    found = next((story for story in stories if story.id == wanted), None)
    if found is None:
        near = get_close_matches(wanted, [story.id for story in stories], 1)
        hint = f"Did you mean {near[0]}? " if near else ""
        raise InputError(f"story '{wanted}'", "there is none of that name", f"{hint}Those that fit: {names}.")
    if not found.score_for(material):
        raise InputError(f"story '{wanted}'", "it does not fit this scale", f"Those that fit: {names}.")
    return found
