"""A lesson for machines: JSON-LD of schema.org for search engines, RO-Crate for archives.

Conventions: JSON-LD names a LearningResource with the film as a VideoObject whose parts are Clips; times are seconds,
lengths ISO 8601. RO-Crate 1.1 names every file of a package with its SHA-256. Both are canonical: equal content, equal
bytes. Nothing is said that is not known: without a date in the front matter there is no upload date.

References: schema.org, types LearningResource, VideoObject and Clip; RO-Crate 1.1, `https://w3id.org/ro/crate/1.1`;
both from memory.
"""

from __future__ import annotations

import json
from collections.abc import Mapping

from gamutwright import __version__
from gamutwright.codec import Plain, to_plain
from gamutwright.ir.timeline import TICKS_PER_SECOND
from gamutwright.publish.description import description, plain_text
from gamutwright.publish.told_lesson import Lesson

__all__ = ["MEDIA_TYPES", "iso_duration", "json_ld", "ro_crate"]

MEDIA_TYPES = {
    ".flac": "audio/flac",
    ".html": "text/html",
    ".imscc": "application/zip",
    ".json": "application/json",
    ".jsonld": "application/ld+json",
    ".m4a": "audio/mp4",
    ".md": "text/markdown",
    ".mid": "audio/midi",
    ".mp4": "video/mp4",
    ".musicxml": "application/vnd.recordare.musicxml+xml",
    ".pdf": "application/pdf",
    ".png": "image/png",
    ".srt": "application/x-subrip",
    ".vtt": "text/vtt",
    ".wav": "audio/wav",
    ".xml": "application/xml",
    ".zip": "application/zip",
}
LICENCE = "license"


def iso_duration(ticks: int) -> str:
    """Write a length as ISO 8601 does.

    Parameters
    ----------
    ticks : int
        The length.

    Returns
    -------
    str
        Such as PT5M52S; whole seconds, rounded up.

    Examples
    --------
    >>> iso_duration(352 * 48_000 + 1), iso_duration(48_000)
    ('PT5M53S', 'PT0M1S')
    """
    seconds = -(-ticks // TICKS_PER_SECOND)
    return f"PT{seconds // 60}M{seconds % 60}S"


def json_ld(lesson: Lesson, captions: str = "captions.vtt") -> str:
    """Describe a lesson for search engines.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    captions : str
        Name of the file of captions.

    Returns
    -------
    str
        JSON-LD, one object.
    """
    others, made = lesson.others, description(lesson)
    clips: list[Plain] = [
        {
            "@type": "Clip",
            "name": plain_text(title),
            "startOffset": start // TICKS_PER_SECOND,
            "endOffset": end // TICKS_PER_SECOND,
        }
        for start, end, title in lesson.timeline.chapter_spans
    ]
    video: dict[str, Plain] = {
        "@type": "VideoObject",
        "name": made.title,
        "description": made.text.split("\n\n")[0],
        "duration": iso_duration(lesson.timeline.ticks),
        "contentUrl": "film.mp4",
        "thumbnailUrl": "poster.png",
        "encodingFormat": "video/mp4",
        "inLanguage": lesson.language,
        "caption": {"@type": "MediaObject", "contentUrl": captions, "encodingFormat": "text/vtt"},
        "transcript": " ".join(line.text for line in lesson.timeline.lines),
        "hasPart": clips,
    }
    if "date" in others:
        video["uploadDate"] = plain_text(others["date"], 40)
    resource: dict[str, Plain] = {
        "@context": "https://schema.org",
        "@type": "LearningResource",
        "name": made.title,
        "description": made.text,
        "inLanguage": lesson.language,
        "learningResourceType": "lesson",
        "educationalLevel": str(lesson.script.front.level),
        "teaches": to_plain([telling.title for telling in lesson.tellings]),
        "keywords": to_plain(made.tags),
        "timeRequired": iso_duration(lesson.timeline.ticks),
        "accessibilityFeature": ["captions", "transcript", "alternativeText", "structuralNavigation"],
        "accessibilityHazard": ["noFlashingHazard"],
        "citation": to_plain(sorted(lesson.cited)),
        "video": video,
    }
    if others.get("course"):
        resource["isPartOf"] = {"@type": "Course", "name": plain_text(others["course"], 300)}
    if others.get(LICENCE):
        resource["license"] = plain_text(others[LICENCE], 300)
    return json.dumps(resource, ensure_ascii=False, indent=1, sort_keys=True)


def ro_crate(lesson: Lesson, files: Mapping[str, tuple[int, str]], date: str) -> str:
    """Describe a package for archives.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    files : mapping of str to (int, str)
        By name: size in bytes and SHA-256 of every other file.
    date : str
        When it was published, as ISO 8601 writes days.

    Returns
    -------
    str
        `ro-crate-metadata.json`.
    """
    tool = "#gamutwright"
    parts: list[Plain] = [{"@id": name} for name in sorted(files)]
    licence = plain_text(lesson.others.get(LICENCE, ""), 300)
    graph: list[Plain] = [
        {
            "@id": "ro-crate-metadata.json",
            "@type": "CreativeWork",
            "about": {"@id": "./"},
            "conformsTo": {"@id": "https://w3id.org/ro/crate/1.1"},
        },
        {
            "@id": "./",
            "@type": "Dataset",
            "name": plain_text(lesson.title, 300),
            "description": description(lesson).text.split("\n\n")[0],
            "datePublished": date,
            "license": licence or "All rights reserved; ask the teacher.",
            "inLanguage": lesson.language,
            "hasPart": parts,
            "mentions": {"@id": "#making"},
        },
        {"@id": tool, "@type": "SoftwareApplication", "name": "Gamutwright", "version": __version__},
        {
            "@id": "#making",
            "@type": "CreateAction",
            "name": "Every statement checked, then drawn, sounded and written",
            "instrument": {"@id": tool},
            "object": {"@id": "script.md"} if "script.md" in files else {"@id": "ledger.json"},
            "result": parts,
        },
    ]
    for name, (size, sha256) in sorted(files.items()):
        media_type = MEDIA_TYPES.get("." + name.rpartition(".")[2], "application/octet-stream")
        graph.append(
            {"@id": name, "@type": "File", "contentSize": str(size), "encodingFormat": media_type, "sha256": sha256}
        )
    crate = {"@context": "https://w3id.org/ro/crate/1.1/context", "@graph": graph}
    return json.dumps(crate, ensure_ascii=False, indent=1)
