"""Scripts for the tests of lessons: two of the evening course, and strategies that make and damage others."""

from __future__ import annotations

from hypothesis import strategies as st

FRONT = "---\nscale: C D Eb F G A B\nlevel: further\nminutes: 6\nlanguage: en\n---\n"

COURSE = (
    FRONT
    + """# Climbing it
Good evening, and welcome back to the music school by the harbour. Listen to it rise and fall. {play=scale}
Its steps, counted in semitones, are [two, one, two, two, two, two and one]{fact=step_pattern show=ladder}.

[Two]{fact=semitone_steps} of them are semitones: [here and here]{each=semitone_steps}. {#k3f}
It is [the fifth mode]{mode-of="F lydian dominant"} of *another* scale, e.g. of No. 5 on our list.

## Using it
"Warm, like the lamps on the quay", wrote a listener; [I find it cooler]{opinion}. {pause=1.5} Sing it.
[About 0.81]{fact=coherence_quotient of="C D Eb F G A B" than="C major"} is its coherence quotient.
"""
)

GERMAN = """---
scale: C D Es F G A H
language: de
---
# Hinauf
Guten Abend an der Musikschule am Hafen. Die 3. Stufe ist Es, z. B. hier. {play=scale}
[Zwei]{fact=semitone_steps} ihrer Schritte sind Halbtöne: [hier und da]{each=semitone_steps}. Der Wert ist 0,81.
"""

_WORDS = st.sampled_from(
    [
        "harbour",
        "Two",
        "of",
        "them",
        "E♭",
        "0.81",
        "No.",
        "e.g.",
        "z. B.",
        "3.",
        "C.",
        "Why?",
        "here!",
        "Möwe",
        "ال",
        "👩‍👩‍👧",
        "e\u0301",
    ]
)
# None of these ends a sentence, as marked words may not.
_CALM = st.sampled_from(["harbour", "two", "of them", "E♭", "0.81", "Möwe", "ال", "e\u0301"])
_ATTRIBUTES = st.sampled_from(
    [
        "fact=semitone_steps",
        'fact=cardinality of="D dorian"',
        "each=semitone_steps",
        "opinion",
        "mark=x show=clock",
        "rare=x by=class",
    ]
)
_POINTS = st.sampled_from(["{play=scale}", "{pause=0.5}", "{show=clock mark=semitone_steps}"])
_PLAIN = st.one_of(_WORDS, _WORDS, st.sampled_from(["*so*", "**so**", "\\[", "\\{", "&amp;", "_x_", "a_b", "* *"]))
_MARKED = st.builds(
    lambda words, attributes: f"[{' '.join(words)}]{{{attributes}}}",
    st.lists(_CALM, min_size=1, max_size=3),
    _ATTRIBUTES,
)
_NESTED = st.builds(lambda inner, attributes: f"[Some {inner}]{{{attributes}}}", _MARKED, _ATTRIBUTES)
_SENTENCES = st.builds(
    lambda pieces, stop, tail: "Now " + " ".join(pieces) + stop + tail,
    st.lists(st.one_of(_PLAIN, _PLAIN, _MARKED, _NESTED, _POINTS), max_size=6),
    st.sampled_from([".", ".", "?", "!", "…", " {play=scale}."]),
    st.sampled_from(["", "", " {play=scale}", " {pause=1}"]),
)


@st.composite
def sources(draw: st.DrawFn) -> str:
    """Scripts that read without a problem, with every kind of line end, some with a byte-order mark."""
    language = draw(st.sampled_from(["en", "de"]))
    blocks = []
    for _ in range(draw(st.integers(0, 4))):
        if draw(st.booleans()):
            blocks.append("#" * draw(st.integers(1, 6)) + " " + draw(_WORDS.filter(lambda word: word != "3.")))
        blocks.append(
            draw(st.sampled_from([" ", "\n", "  \n", "\t"])).join(draw(st.lists(_SENTENCES, min_size=1, max_size=4)))
        )
    source = (
        f"---\nscale: C major\nlanguage: {language}\n---\n" + "\n\n".join(blocks) + draw(st.sampled_from(["", "\n"]))
    )
    return draw(st.sampled_from(["", "\ufeff"])) + source.replace("\n", draw(st.sampled_from(["\n", "\r\n", "\r"])))


@st.composite
def damaged(draw: st.DrawFn) -> str:
    """Scripts of the course with a few characters taken out, put in or doubled."""
    source = draw(st.sampled_from([COURSE, GERMAN]))
    for _ in range(draw(st.integers(1, 6))):
        place = draw(st.integers(0, len(source)))
        end = min(len(source), place + draw(st.integers(0, 12)))
        piece = draw(
            st.one_of(
                st.sampled_from(
                    [
                        *"[]{}()*_`<>#&\\\"'=-.!?\n\r\t\0",
                        "\r\n",
                        "\n\n",
                        "---\n",
                        "{#a}",
                        "[x]{",
                        "![",
                        "\ufeff",
                        "\ud800",
                    ]
                ),
                st.just(source[place:end] * 2),
                st.text(max_size=3),
            )
        )
        source = source[:place] + piece + source[end:]
    return source
