"""A quiz as a Common Cartridge 1.3, the file that course systems import: QTI 1.2.1 questions, sounds as web content.

Reference: 1EdTech, Common Cartridge 1.3 and its profile of QTI 1.2.1: names of elements, namespaces and resource types
from memory and from published examples.

**Conventions.** The same quiz gives the same bytes: entries are sorted, stored without compression (compressors differ)
and dated 1 January 1980. Choices are called A, B, C and so on in the order of the quiz. Texts of questions are HTML as
the profile has it, so whatever a lesson is called is escaped twice: once as HTML, once as XML.
"""

from __future__ import annotations

from collections.abc import Mapping
from html import escape
from xml.etree import ElementTree as ET

from gamutwright.publish.bundle import stable_zip
from gamutwright.publish.page.page_words import tidy
from gamutwright.publish.quiz.qti import CHOICE_NAMES, media_type, sound_file
from gamutwright.publish.quiz.question import Question
from gamutwright.publish.quiz.quiz_words import quiz_words
from gamutwright.publish.quiz.selection import Quiz
from gamutwright.publish.score.xml_parts import added, xml_bytes, xml_root
from gamutwright.publish.told_lesson import Lesson

__all__ = ["cartridge"]

CARTRIDGE = "http://www.imsglobal.org/xsd/imsccv1p3/imscp_v1p1"
LOM = "http://ltsc.ieee.org/xsd/imsccv1p3/LOM/manifest"
QTI_1 = "http://www.imsglobal.org/xsd/ims_qtiasiv1p2"
_SCHEMAS = "http://www.imsglobal.org/profile/cc/ccv1p3"
_ASSESSMENT = "imsqti_xmlv1p2/imscc_xmlv1p3/assessment"
_BASE = "$IMS-CC-FILEBASE$"
"""The token that stands for the root of the cartridge in HTML."""


def cartridge(quiz: Quiz, lesson: Lesson, sounds: Mapping[str, bytes]) -> bytes:
    """Write a quiz as a Common Cartridge.

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
    bytes
        The `.imscc` file.

    Raises
    ------
    DomainError
        If the file of a sound is missing.
    """
    used = {name: sounds[name] for question in quiz.questions if (name := sound_file(question, sounds))}
    title = quiz_words(lesson.language).say("titles", "quiz", title=tidy(lesson.title))
    files = {
        "imsmanifest.xml": _manifest(lesson, title, used),
        "quiz/assessment.xml": _assessment(quiz, lesson, title, used),
        **{f"sounds/{name}": content for name, content in used.items()},
    }
    return stable_zip(files)


def _manifest(lesson: Lesson, title: str, sounds: Mapping[str, bytes]) -> bytes:
    manifest = xml_root(
        "manifest",
        CARTRIDGE,
        f"{CARTRIDGE} {_SCHEMAS}/ccv1p3_imscp_v1p2_v1p0.xsd {LOM} {_SCHEMAS}/LOM/ccv1p3_lommanifest_v1p0.xsd",
        identifier=f"cartridge-{lesson.slug}",
    )
    manifest.set("xmlns:lomimscc", LOM)
    metadata = added(manifest, "metadata")
    added(metadata, "schema", "IMS Common Cartridge")
    added(metadata, "schemaversion", "1.3.0")
    general = added(added(metadata, "lomimscc:lom"), "lomimscc:general")
    added(added(general, "lomimscc:title"), "lomimscc:string", title, language=lesson.language)
    added(general, "lomimscc:language", lesson.language)
    organization = added(
        added(manifest, "organizations"), "organization", identifier="organization", structure="rooted-hierarchy"
    )
    item = added(added(organization, "item", identifier="root"), "item", identifier="item-quiz", identifierref="quiz")
    added(item, "title", title)
    resources = added(manifest, "resources")
    quiz = added(resources, "resource", identifier="quiz", type=_ASSESSMENT)
    added(quiz, "file", href="quiz/assessment.xml")
    for number, name in enumerate(sorted(sounds), 1):
        added(quiz, "dependency", identifierref=f"sound-{number}")
        href = f"sounds/{name}"
        sound = added(resources, "resource", identifier=f"sound-{number}", type="webcontent", href=href)
        added(sound, "file", href=href)
    return xml_bytes(manifest)


def _field(parent: ET.Element, label: str, entry: str) -> None:
    field = added(parent, "qtimetadatafield")
    added(field, "fieldlabel", label)
    added(field, "fieldentry", entry)


def _material(parent: ET.Element, html: str) -> None:
    added(added(parent, "material"), "mattext", html, texttype="text/html")


def _html(text: str) -> str:
    return f"<p>{escape(tidy(text))}</p>"


def _assessment(quiz: Quiz, lesson: Lesson, title: str, sounds: Mapping[str, bytes]) -> bytes:
    schema = f"{QTI_1} {_SCHEMAS}/ccv1p3_qtiasiv1p2p1_v1p0.xsd"
    root = xml_root("questestinterop", QTI_1, schema)
    assessment = added(root, "assessment", ident=f"quiz-{lesson.slug}", title=title)
    metadata = added(assessment, "qtimetadata")
    _field(metadata, "cc_profile", "cc.exam.v0p1")
    _field(metadata, "qmd_assessmenttype", "Examination")
    _field(metadata, "qmd_scoretype", "Percentage")
    _field(metadata, "qmd_feedbackpermitted", "Yes")
    _field(metadata, "qmd_solutionspermitted", "Yes")
    section = added(assessment, "section", ident="questions")
    for question in quiz.questions:
        _item(section, question, sound_file(question, sounds), lesson.wording.language)
    return xml_bytes(root)


def _item(section: ET.Element, question: Question, sound: str, language: str) -> None:
    words = quiz_words(language)
    names = dict(zip(CHOICE_NAMES, question.choices, strict=False))
    item = added(section, "item", ident=question.id, title=tidy(question.prompt))
    metadata = added(added(item, "itemmetadata"), "qtimetadata")
    _field(metadata, "cc_profile", "cc.multiple_choice.v0p1")
    _field(metadata, "cc_weighting", "1")
    presentation = added(item, "presentation")
    heard = ""
    if sound:
        place, label = f"{_BASE}/sounds/{sound}", escape(words.say("titles", "listen"))
        kind = media_type(sound)
        heard = f'<p><audio controls="controls"><source src="{place}" type="{kind}"/></audio> '
        heard += f'<a href="{place}">{label}</a></p>'
    _material(presentation, _html(question.prompt) + heard)
    response = added(presentation, "response_lid", ident="RESPONSE", rcardinality="Single")
    shown = added(response, "render_choice")
    for name, choice in names.items():
        _material(added(shown, "response_label", ident=name), _html(choice.text))
    processing = added(item, "resprocessing")
    added(added(processing, "outcomes"), "decvar", varname="SCORE", vartype="Decimal", minvalue="0", maxvalue="100")
    for name in names:
        given = _answered(processing, name, "Yes")
        added(given, "displayfeedback", feedbacktype="Response", linkrefid=f"feedback-{name}")
    right = next(name for name, choice in names.items() if choice.is_right)
    added(_answered(processing, right, "No"), "setvar", "100", action="Set", varname="SCORE")
    for name, choice in names.items():
        feedback = added(item, "itemfeedback", ident=f"feedback-{name}")
        verdict = words.say("titles", "right" if choice.is_right else "wrong")
        _material(added(feedback, "flow_mat"), _html(f"{verdict} {choice.why}"))


def _answered(processing: ET.Element, name: str, goes_on: str) -> ET.Element:
    condition = ET.SubElement(processing, "respcondition", {"continue": goes_on})
    added(added(condition, "conditionvar"), "varequal", name, respident="RESPONSE")
    return condition
