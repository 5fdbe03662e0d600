"""Which lessons point to each other. Modes: C ionian and D dorian (common practice, no source)."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from gamutwright.series.contents import Member
from gamutwright.series.siblings import related_kind, siblings_of
from gamutwright.theory.scale import Scale

BACK = {"previous": "next", "next": "previous"}


def lesson(slug: str, scale: Scale, language: str = "en") -> Member:
    return Member(slug, scale, language, "further", 6.0, f"Title of {slug}")


def test_order_relation_and_language():
    course = [
        lesson("ionian", Scale.of(0, 2, 4, 5, 7, 9, 11)),
        lesson("dorian", Scale.of(2, 4, 5, 7, 9, 11, 0)),
        lesson("dorian-on-e", Scale.of(4, 6, 7, 9, 11, 1, 2)),
        lesson("major-triad", Scale.of(0, 4, 7)),
        lesson("minor-triad", Scale.of(9, 0, 4)),
        lesson("dorisch", Scale.of(2, 4, 5, 7, 9, 11, 0), "de"),
    ]
    found = {
        slug: [(sibling.slug, sibling.kind) for sibling in siblings]
        for slug, siblings in siblings_of(course, "https://harbour.example/scales/").items()
    }
    assert found == {
        "ionian": [("dorian", "next"), ("dorian", "mode"), ("dorian-on-e", "mode")],
        "dorian": [
            ("ionian", "previous"), ("dorian-on-e", "next"), ("ionian", "mode"), ("dorian-on-e", "transposition"),
            ("dorisch", "translation"),
        ],
        "dorian-on-e": [
            ("dorian", "previous"), ("major-triad", "next"), ("ionian", "mode"), ("dorian", "transposition"),
        ],
        "major-triad": [("dorian-on-e", "previous"), ("minor-triad", "next"), ("minor-triad", "inversion")],
        "minor-triad": [("major-triad", "previous"), ("major-triad", "inversion")],
        "dorisch": [("dorian", "translation")],
    }  # fmt: skip
    assert siblings_of(course, "https://harbour.example/scales/")["ionian"][0].address == (
        "https://harbour.example/scales/dorian/"
    )
    assert siblings_of(course)["ionian"][0].address == ""


scales = st.builds(lambda mask, root: Scale(mask | 1, 12, root), st.integers(0, 4095), st.integers(0, 11))


@given(scales, scales)
def test_a_relation_holds_both_ways(scale: Scale, other: Scale):
    assert related_kind(scale, other) == related_kind(other, scale)


@given(st.lists(st.tuples(scales, st.sampled_from(["en", "de"])), max_size=40))
def test_every_link_points_both_ways(drawn: list[tuple[Scale, str]]):
    course = [lesson(f"lesson-{k}", scale, language) for k, (scale, language) in enumerate(drawn)]
    found = siblings_of(course)
    links = {(slug, sibling.slug, sibling.kind) for slug, siblings in found.items() for sibling in siblings}
    assert all((other, slug, BACK.get(kind, kind)) in links for slug, other, kind in links)
    assert all(slug != other for slug, other, _ in links)
