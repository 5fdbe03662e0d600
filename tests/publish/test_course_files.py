"""Quizzes as QTI 3.0 and as a Common Cartridge, read back by readers written here from the standards (from memory)."""

from __future__ import annotations

import io
import zipfile
from html.parser import HTMLParser
from xml.dom.minidom import Document, Element, parseString

import pytest

from gamutwright.errors import DomainError
from gamutwright.publish.bundle import stable_zip
from gamutwright.publish.quiz.cartridge import cartridge
from gamutwright.publish.quiz.qti import media_type, qti_files
from gamutwright.publish.quiz.question import Question
from gamutwright.publish.quiz.selection import Quiz, quiz
from gamutwright.publish.told_lesson import Lesson
from publish.lessons import lesson, lesson_from, source_of

QTI_3 = "http://www.imsglobal.org/xsd/imsqtiasi_v3p0"
QTI_1 = "http://www.imsglobal.org/xsd/ims_qtiasiv1p2"
CARTRIDGE = "http://www.imsglobal.org/xsd/imsccv1p3/imscp_v1p1"
HOSTILE = 'A "course" <script>alert(1)</script> & \u202eevil\u202c 🎵 ' + "x" * 300

# Which children an element may have, in their order; "*" for any number (QTI 3.0, from memory).
CHILDREN = {
    "qti-assessment-item": [
        "qti-response-declaration",
        "qti-outcome-declaration*",
        "qti-item-body",
        "qti-response-processing",
        "qti-modal-feedback*",
    ],
    "qti-response-declaration": ["qti-correct-response"],
    "qti-correct-response": ["qti-value"],
    "qti-choice-interaction": ["qti-prompt", "qti-simple-choice*"],
    "qti-response-processing": ["qti-response-condition", "qti-set-outcome-value"],
    "qti-response-condition": ["qti-response-if"],
    "qti-response-if": ["qti-match", "qti-set-outcome-value"],
    "qti-match": ["qti-variable", "qti-correct"],
    "qti-modal-feedback": ["qti-content-body"],
    "qti-assessment-test": ["qti-outcome-declaration", "qti-test-part", "qti-outcome-processing"],
    "qti-test-part": ["qti-assessment-section"],
    "qti-assessment-section": ["qti-assessment-item-ref*"],
}
NEEDED = {
    "qti-assessment-item": {"identifier", "title", "adaptive", "time-dependent"},
    "qti-response-declaration": {"identifier", "cardinality", "base-type"},
    "qti-outcome-declaration": {"identifier", "cardinality", "base-type"},
    "qti-choice-interaction": {"response-identifier", "max-choices", "shuffle"},
    "qti-simple-choice": {"identifier"},
    "qti-modal-feedback": {"outcome-identifier", "identifier", "show-hide"},
    "qti-test-part": {"identifier", "navigation-mode", "submission-mode"},
    "qti-assessment-section": {"identifier", "title", "visible"},
    "qti-assessment-item-ref": {"identifier", "href"},
}


def made(language: str = "en", source: str = "") -> tuple[Lesson, Quiz, dict[str, bytes]]:
    told = lesson_from(source) if source else lesson("G acoustic", language, 6.0)
    written = quiz(told)
    return told, written, {f"{key}.m4a": f"sound of {key}".encode() for key in written.sounds}


def parsed(content: bytes) -> Document:
    return parseString(content)  # noqa: S318 - what the test wrote itself


def elements(node: Document | Element) -> list[Element]:
    return [child for child in node.childNodes if isinstance(child, Element)]


def text_of(node: Element) -> str:
    return "".join(child.data if child.nodeType == child.TEXT_NODE else text_of(child) for child in node.childNodes)


def only(node: Document | Element, name: str) -> Element:
    (found,) = node.getElementsByTagName(name)
    return found


def is_strict(node: Element) -> None:
    """Refuse elements in the wrong order, too many or too few, and missing attributes."""
    names = [child.tagName for child in elements(node)]
    if node.tagName in CHILDREN:
        rest = list(names)
        for wanted in CHILDREN[node.tagName]:
            count = 0
            while rest and rest[0] == wanted.rstrip("*") and (wanted.endswith("*") or count == 0):
                rest.pop(0)
                count += 1
            assert count, (node.tagName, wanted)
        assert not rest, (node.tagName, rest)
    assert NEEDED.get(node.tagName, set()) <= set(node.attributes.keys()), node.tagName
    for child in elements(node):
        is_strict(child)


class Words(HTMLParser):
    """Collects the words, elements and addresses of a piece of HTML."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.words, self.tags, self.places = "", [], []
        self.feed(html)

    def handle_data(self, data: str) -> None:
        self.words += data

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.places += [value for name, value in attrs if name in {"src", "href"}]


@pytest.mark.parametrize("language", ["en", "de"])
def test_items_hold_every_question_with_its_key_and_feedback(language: str):
    told, written, sounds = made(language)
    files = qti_files(written, told, sounds)
    for question in written.questions:
        item = parsed(files[f"items/{question.id}.xml"]).documentElement
        is_strict(item)
        assert item.namespaceURI == QTI_3
        assert item.getAttribute("xml:lang") == language
        assert text_of(only(item, "qti-prompt")) == question.prompt
        shown = {c.getAttribute("identifier"): text_of(c) for c in item.getElementsByTagName("qti-simple-choice")}
        assert list(shown.values()) == [choice.text for choice in question.choices]
        key = text_of(only(only(item, "qti-correct-response"), "qti-value"))
        assert shown[key] == question.right.text
        told_back = {
            f.getAttribute("identifier"): text_of(f).strip() for f in item.getElementsByTagName("qti-modal-feedback")
        }
        assert list(told_back) == list(shown)
        for why, choice in zip(told_back.values(), question.choices, strict=True):
            assert why.endswith(choice.why)


def test_what_the_processing_does_when_it_is_carried_out():
    """Carry out response processing as the standard defines it: match, set, variable, base value (from memory)."""
    told, written, sounds = made()
    files = qti_files(written, told, sounds)
    for question in written.questions:
        item = parsed(files[f"items/{question.id}.xml"]).documentElement
        correct = text_of(only(only(item, "qti-correct-response"), "qti-value"))
        for name, choice in zip("ABCD", question.choices, strict=False):
            values = {"RESPONSE": name, "SCORE": "0", "FEEDBACK": ""}
            condition, feedback = elements(only(item, "qti-response-processing"))
            (branch,) = elements(condition)
            _match, score = elements(branch)
            if values["RESPONSE"] == correct:
                values[score.getAttribute("identifier")] = text_of(elements(score)[0])
            values[feedback.getAttribute("identifier")] = values[elements(feedback)[0].getAttribute("identifier")]
            assert values["SCORE"] == ("1" if choice.is_right else "0")
            shown = [
                text_of(found).strip()
                for found in item.getElementsByTagName("qti-modal-feedback")
                if found.getAttribute("identifier") == values[found.getAttribute("outcome-identifier")]
            ]
            assert len(shown) == 1
            assert shown[0].endswith(choice.why)


def test_test_and_manifest_name_every_file_once():
    told, written, sounds = made()
    files = qti_files(written, told, sounds)
    test = parsed(files["test.xml"]).documentElement
    is_strict(test)
    listed = [ref.getAttribute("href") for ref in test.getElementsByTagName("qti-assessment-item-ref")]
    assert listed == [f"items/{question.id}.xml" for question in written.questions]
    manifest = parsed(files["imsmanifest.xml"]).documentElement
    assert manifest.namespaceURI == "http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1"
    types = {r.getAttribute("href"): r.getAttribute("type") for r in manifest.getElementsByTagName("resource")}
    assert types.pop("test.xml") == "imsqti_test_xmlv3p0"
    assert set(types.values()) == {"imsqti_item_xmlv3p0"}
    hrefs = {file.getAttribute("href") for file in manifest.getElementsByTagName("file")}
    assert hrefs == set(files) - {"imsmanifest.xml"}
    ids = [r.getAttribute("identifier") for r in manifest.getElementsByTagName("resource")]
    assert len(set(ids)) == len(ids)
    assert {d.getAttribute("identifierref") for d in manifest.getElementsByTagName("dependency")} <= set(ids)


def test_sounds_are_played_from_inside_the_package():
    told, written, sounds = made()
    files = qti_files(written, told, sounds)
    listening = [question for question in written.questions if question.sound]
    assert listening
    for question in listening:
        source = only(parsed(files[f"items/{question.id}.xml"]), "source")
        assert source.getAttribute("src") == f"../sounds/{question.sound}.m4a"
        assert source.getAttribute("type") == "audio/mp4"
        assert files[f"sounds/{question.sound}.m4a"] == sounds[f"{question.sound}.m4a"]


def read_cartridge(content: bytes) -> tuple[str, dict[str, dict[str, object]], dict[str, bytes]]:
    """Read a cartridge as a course system does: manifest, assessment, key from the response conditions."""
    archive = zipfile.ZipFile(io.BytesIO(content))
    assert archive.testzip() is None
    files = {name: archive.read(name) for name in archive.namelist()}
    manifest = parsed(files["imsmanifest.xml"]).documentElement
    assert manifest.namespaceURI == CARTRIDGE
    assert text_of(only(manifest, "schema")) == "IMS Common Cartridge"
    assert text_of(only(manifest, "schemaversion")) == "1.3.0"
    resources = {r.getAttribute("identifier"): r for r in manifest.getElementsByTagName("resource")}
    entry = next(i for i in manifest.getElementsByTagName("item") if i.hasAttribute("identifierref"))
    resource = resources[entry.getAttribute("identifierref")]
    assert resource.getAttribute("type") == "imsqti_xmlv1p2/imscc_xmlv1p3/assessment"
    for needed in resource.getElementsByTagName("dependency"):
        sound = resources[needed.getAttribute("identifierref")]
        assert sound.getAttribute("type") == "webcontent"
        assert sound.getAttribute("href") in files
    root = parsed(files[only(resource, "file").getAttribute("href")]).documentElement
    assert (root.tagName, root.namespaceURI) == ("questestinterop", QTI_1)
    profile = [text_of(field) for field in root.getElementsByTagName("fieldentry")]
    assert profile[0] == "cc.exam.v0p1"
    return (
        only(root, "assessment").getAttribute("title"),
        {item.getAttribute("ident"): read_item(item) for item in root.getElementsByTagName("item")},
        files,
    )


def read_item(item: Element) -> dict[str, object]:
    fields = {
        text_of(only(field, "fieldlabel")): text_of(only(field, "fieldentry"))
        for field in item.getElementsByTagName("qtimetadatafield")
    }
    assert fields["cc_profile"] == "cc.multiple_choice.v0p1"
    assert [child.tagName for child in elements(item)][:3] == ["itemmetadata", "presentation", "resprocessing"]
    response = only(item, "response_lid")
    assert response.getAttribute("rcardinality") == "Single"
    keys, feedback = [], {}
    for condition in item.getElementsByTagName("respcondition"):
        given = only(condition, "varequal")
        assert given.getAttribute("respident") == response.getAttribute("ident")
        keys += [text_of(given) for score in condition.getElementsByTagName("setvar") if text_of(score) == "100"]
        for shown in condition.getElementsByTagName("displayfeedback"):
            feedback[text_of(given)] = shown.getAttribute("linkrefid")
    texts = {f.getAttribute("ident"): Words(text_of(f)).words for f in item.getElementsByTagName("itemfeedback")}
    prompt = Words(text_of(elements(only(item, "presentation"))[0]))
    return {
        "prompt": prompt,
        "choices": {
            label.getAttribute("ident"): Words(text_of(label)).words.strip()
            for label in item.getElementsByTagName("response_label")
        },
        "keys": keys,
        "why": {name: texts[place].strip() for name, place in feedback.items()},
    }


@pytest.mark.parametrize("language", ["en", "de"])
def test_a_cartridge_holds_every_question_complete(language: str):
    told, written, sounds = made(language)
    _, items, files = read_cartridge(cartridge(written, told, sounds))
    assert list(items) == [question.id for question in written.questions]
    for question in written.questions:
        item = items[question.id]
        assert item["prompt"].words.strip().startswith(question.prompt)
        assert list(item["choices"].values()) == [choice.text for choice in question.choices]
        (key,) = item["keys"]
        assert item["choices"][key] == question.right.text
        assert all(why.endswith(choice.why) for why, choice in zip(item["why"].values(), question.choices, strict=True))
        if question.sound:
            places = {place.replace("$IMS-CC-FILEBASE$/", "") for place in item["prompt"].places}
            assert places == {f"sounds/{question.sound}.m4a"}
            assert places <= set(files)


def test_a_cartridge_has_the_same_bytes_every_time_in_sorted_order():
    told, written, sounds = made()
    content = cartridge(written, told, sounds)
    assert content == cartridge(quiz(told), told, dict(reversed(sounds.items())))
    entries = zipfile.ZipFile(io.BytesIO(content)).infolist()
    assert [entry.filename for entry in entries] == sorted(entry.filename for entry in entries)
    assert {entry.date_time for entry in entries} == {(1980, 1, 1, 0, 0, 0)}
    assert "imsmanifest.xml" in {entry.filename for entry in entries}


def test_a_hostile_title_is_text_everywhere():
    source = source_of("G acoustic", "en", 4.0)
    # A title in front matter is one line; control signs come in by a name that a teacher pastes.
    told, written, sounds = made(source=source.replace("---\n", f"---\ntitle: '{HOSTILE}'\n", 1))
    title, _, files = read_cartridge(cartridge(written, told, sounds))
    assert "<script>alert(1)</script> & evil 🎵" in title
    assert b"<script" not in b"".join(content for name, content in files.items() if name.endswith(".xml"))
    for name, content in qti_files(written, told, sounds).items():
        if name.endswith(".xml"):
            document = parsed(content)
            assert not document.getElementsByTagName("script")
    test = parsed(qti_files(written, told, sounds)["test.xml"]).documentElement
    assert "<script>alert(1)</script> & evil 🎵" in test.getAttribute("title")


def test_hostile_texts_of_a_question_stay_text():
    told, written, _ = made()
    first = written.questions[0]
    wicked = "<img src=x onerror=alert(1)>\x00\x08 & ]]>"
    choices = tuple(type(c)(f"{c.text} {wicked}", c.is_right, wicked) for c in first.choices)
    bad = Quiz((Question(first.id, wicked, choices, first.fact_id),))
    _, items, _ = read_cartridge(cartridge(bad, told, {}))
    item = items[first.id]
    assert item["prompt"].tags == ["p"]
    assert item["prompt"].words.strip() == "<img src=x onerror=alert(1)> & ]]>"
    document = parsed(qti_files(bad, told)[f"items/{first.id}.xml"])
    assert text_of(only(document, "qti-prompt")) == "<img src=x onerror=alert(1)> & ]]>"
    assert not document.getElementsByTagName("img")


def test_a_missing_sound_is_named():
    told, written, sounds = made()
    sounds.pop("heard-1.m4a")
    for write in (qti_files, cartridge):
        with pytest.raises(DomainError, match="heard-1"):
            write(written, told, sounds)
    with pytest.raises(DomainError, match="sound file"):
        media_type("heard-1.exe")


def test_a_zip_of_the_package_holds_the_manifest_at_its_root():
    told, written, sounds = made()
    archive = zipfile.ZipFile(io.BytesIO(stable_zip(qti_files(written, told, sounds))))
    assert "imsmanifest.xml" in archive.namelist()
