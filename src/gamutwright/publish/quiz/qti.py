"""A quiz as QTI 3.0: an item for each question, a test that holds them, and a manifest; a folder or a zip of them.

Reference: 1EdTech, Question and Test Interoperability 3.0 (2022): names of elements and namespaces from memory and from
published examples.

**Conventions.** Choices keep the order of the quiz (`shuffle="false"`), are called A, B, C and so on, and every choice
has its feedback. One point for a right answer. Sounds lie beside the items; nothing points outside the package.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import PurePosixPath
from xml.etree import ElementTree as ET

from gamutwright.errors import DomainError
from gamutwright.publish.page.page_words import tidy
from gamutwright.publish.quiz.question import Question
from gamutwright.publish.quiz.quiz_words import quiz_words
from gamutwright.publish.quiz.selection import Quiz
from gamutwright.publish.score.xml_parts import added, xml_bytes, xml_root
from gamutwright.publish.told_lesson import Lesson

__all__ = ["CHOICE_NAMES", "QTI", "QTI_PACKAGE", "media_type", "qti_files", "sound_file"]

QTI = "http://www.imsglobal.org/xsd/imsqtiasi_v3p0"
QTI_PACKAGE = "http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1"
CHOICE_NAMES = "ABCDEFGH"
_QTI_SCHEMA = "https://purl.imsglobal.org/spec/qti/v3p0/schema/xsd/imsqti_asiv3p0_v1p0.xsd"
_PACKAGE_SCHEMA = "https://purl.imsglobal.org/spec/qti/v3p0/schema/xsd/imsqtiv3p0_imscpv1p2_v1p0.xsd"
_MEDIA = {
    ".flac": "audio/flac",
    ".m4a": "audio/mp4",
    ".mp3": "audio/mpeg",
    ".ogg": "audio/ogg",
    ".opus": "audio/ogg",
    ".wav": "audio/wav",
}


def media_type(name: str) -> str:
    """Give the media type of a sound file.

    Parameters
    ----------
    name : str
        Its name.

    Returns
    -------
    str
        The type.

    Raises
    ------
    DomainError
        If the ending is not that of a sound file.

    Examples
    --------
    >>> media_type("heard-1.m4a")
    'audio/mp4'
    """
    suffix = PurePosixPath(name).suffix.lower()
    if suffix not in _MEDIA:
        raise DomainError(f"'{name}'", "it is not the name of a sound file", f"End it in one of {', '.join(_MEDIA)}.")
    return _MEDIA[suffix]


def sound_file(question: Question, names: Mapping[str, bytes]) -> str:
    """Find the file of a question's sound.

    Parameters
    ----------
    question : Question
        The question.
    names : mapping of str to bytes
        File names whose stems are keys of sounds, and their contents.

    Returns
    -------
    str
        The name; "" for a question without a sound.

    Raises
    ------
    DomainError
        If the file is missing, or is no sound file.

    Examples
    --------
    >>> from gamutwright.publish.quiz.question import Choice
    >>> choices = (Choice("1", True, "."), Choice("2", False, "."))
    >>> sound_file(Question("a", "?", choices, "cardinality", "heard-1"), {"heard-1.mp3": b""})
    'heard-1.mp3'
    """
    if not question.sound:
        return ""
    for name in sorted(names):
        if PurePosixPath(name).stem == question.sound and "/" not in name:
            media_type(name)
            return name
    raise DomainError(
        f"the sound '{question.sound}'",
        "a question to listen to needs its file",
        "Render the sounds of the quiz first.",
    )


def _score(parent: ET.Element) -> None:
    score = added(parent, "qti-outcome-declaration", identifier="SCORE", cardinality="single", base_type="float")
    added(added(score, "qti-default-value"), "qti-value", "0")


def _item(question: Question, sound: str, language: str) -> bytes:
    words = quiz_words(language)
    item = xml_root(
        "qti-assessment-item",
        QTI,
        f"{QTI} {_QTI_SCHEMA}",
        identifier=question.id,
        title=tidy(question.prompt),
        adaptive="false",
    )
    item.set("time-dependent", "false")
    item.set("xml:lang", language)
    names = dict(zip(CHOICE_NAMES, question.choices, strict=False))
    right = next(name for name, choice in names.items() if choice.is_right)
    response = added(
        item, "qti-response-declaration", identifier="RESPONSE", cardinality="single", base_type="identifier"
    )
    added(added(response, "qti-correct-response"), "qti-value", right)
    _score(item)
    added(item, "qti-outcome-declaration", identifier="FEEDBACK", cardinality="single", base_type="identifier")
    body = added(item, "qti-item-body")
    if sound:
        listening = added(added(body, "p"), "audio", controls="controls", title=words.say("titles", "listen"))
        added(listening, "source", src=f"../sounds/{sound}", type=media_type(sound))
    interaction = added(
        body, "qti-choice-interaction", response_identifier="RESPONSE", max_choices="1", shuffle="false"
    )
    added(interaction, "qti-prompt", question.prompt)
    for name, choice in names.items():
        added(interaction, "qti-simple-choice", choice.text, identifier=name)
    _process(item)
    for name, choice in names.items():
        feedback = added(item, "qti-modal-feedback", outcome_identifier="FEEDBACK", identifier=name, show_hide="show")
        verdict = words.say("titles", "right" if choice.is_right else "wrong")
        added(added(feedback, "qti-content-body"), "p", f"{verdict} {choice.why}")
    return xml_bytes(item)


def _process(item: ET.Element) -> None:
    """Give a point for the right response, and show the feedback of the one that was given."""
    processing = added(item, "qti-response-processing")
    condition = added(added(processing, "qti-response-condition"), "qti-response-if")
    match = added(condition, "qti-match")
    added(match, "qti-variable", identifier="RESPONSE")
    added(match, "qti-correct", identifier="RESPONSE")
    added(added(condition, "qti-set-outcome-value", identifier="SCORE"), "qti-base-value", "1", base_type="float")
    added(added(processing, "qti-set-outcome-value", identifier="FEEDBACK"), "qti-variable", identifier="RESPONSE")


def _test(quiz: Quiz, lesson: Lesson) -> bytes:
    title = quiz_words(lesson.language).say("titles", "quiz", title=tidy(lesson.title))
    test = xml_root("qti-assessment-test", QTI, f"{QTI} {_QTI_SCHEMA}", identifier=f"quiz-{lesson.slug}", title=title)
    test.set("xml:lang", lesson.language)
    _score(test)
    part = added(test, "qti-test-part", identifier="part", navigation_mode="nonlinear", submission_mode="individual")
    section = added(part, "qti-assessment-section", identifier="questions", title=title, visible="true")
    for question in quiz.questions:
        added(section, "qti-assessment-item-ref", identifier=f"ref-{question.id}", href=f"items/{question.id}.xml")
    total = added(added(test, "qti-outcome-processing"), "qti-set-outcome-value", identifier="SCORE")
    added(added(total, "qti-sum"), "qti-test-variables", variable_identifier="SCORE")
    return xml_bytes(test)


def _manifest(quiz: Quiz, lesson: Lesson, sounds: Mapping[str, bytes]) -> bytes:
    manifest = xml_root(
        "manifest", QTI_PACKAGE, f"{QTI_PACKAGE} {_PACKAGE_SCHEMA}", identifier=f"package-{lesson.slug}"
    )
    metadata = added(manifest, "metadata")
    added(metadata, "schema", "QTI Package")
    added(metadata, "schemaversion", "3.0.0")
    added(manifest, "organizations")
    resources = added(manifest, "resources")
    test = added(resources, "resource", identifier="test", type="imsqti_test_xmlv3p0", href="test.xml")
    added(test, "file", href="test.xml")
    for question in quiz.questions:
        added(test, "dependency", identifierref=f"item-{question.id}")
        href = f"items/{question.id}.xml"
        item = added(resources, "resource", identifier=f"item-{question.id}", type="imsqti_item_xmlv3p0", href=href)
        added(item, "file", href=href)
        sound = sound_file(question, sounds)
        if sound:
            added(item, "file", href=f"sounds/{sound}")
    return xml_bytes(manifest)


def qti_files(quiz: Quiz, lesson: Lesson, sounds: Mapping[str, bytes] | None = None) -> dict[str, bytes]:
    """Write a quiz as a QTI 3.0 package.

    Parameters
    ----------
    quiz : Quiz
        The quiz.
    lesson : Lesson
        Its lesson.
    sounds : mapping of str to bytes
        Sound files: names whose stems are the keys of the quiz's sounds (`heard-1.m4a`), and contents.

    Returns
    -------
    dict of str to bytes
        Contents by their paths in the package, sorted.

    Raises
    ------
    DomainError
        If the file of a sound is missing.
    """
    given = sounds or {}
    files = {"imsmanifest.xml": _manifest(quiz, lesson, given), "test.xml": _test(quiz, lesson)}
    for question in quiz.questions:
        sound = sound_file(question, given)
        files[f"items/{question.id}.xml"] = _item(question, sound, lesson.wording.language)
        if sound:
            files[f"sounds/{sound}"] = given[sound]
    return dict(sorted(files.items()))
