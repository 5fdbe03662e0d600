"""The publications that the built-in facts cite, one record each.

Conventions: a record is cited through `Citation`, which adds the page or table and says how far it was checked. Packs
of other authors may cite these records or bring their own; two different records under one key are refused.
"""

from __future__ import annotations

from gamutwright.facts.model import Source

__all__ = [
    "ALBINI_ANTONINI_2009",
    "AMIOT_2007",
    "AMIOT_2016",
    "BALZANO_1980",
    "BARBOUR_1951",
    "BARLOW_1987",
    "BLOCK_DOUTHETT_1994",
    "BROWNE_1981",
    "CAREY_2002",
    "CAREY_2007",
    "CAREY_CLAMPITT_1989",
    "CASTREN_1994",
    "CLAMPITT_1997",
    "CLOUGH_DOUTHETT_1991",
    "CLOUGH_MYERSON_1985",
    "COHN_1996",
    "COHN_1997",
    "DOUTHETT_STEINBACH_1998",
    "EULER_1739",
    "FORTE_1973",
    "GAMER_1967",
    "GLAREAN_1547",
    "HELMHOLTZ_1885",
    "HURON_1994",
    "HURON_2006",
    "HUTCHINSON_KNOPOFF_1978",
    "ISAACSON_1990",
    "ISO_16",
    "JOHNSON_2003",
    "KOSTKA_PAYNE",
    "LEWIN_1959",
    "LEWIN_1980",
    "LONGUET_HIGGINS_1987",
    "MESSIAEN_1944",
    "MIDI_TUNING",
    "MILNE_2015",
    "MORRIS_1980",
    "MORRIS_1987",
    "NETTLES_GRAF_1997",
    "NUNO_2020",
    "PERSICHETTI_1961",
    "PRACTICE",
    "QUINN_2006",
    "RAHN_1980",
    "RAHN_1991",
    "ROTHENBERG_1978",
    "SCOTT_ISAACSON_1998",
    "SETHARES_1993",
    "STRAUS",
    "TEMPERLEY_2001",
    "TYMOCZKO_2011",
    "WERCKMEISTER_1691",
]

ALBINI_ANTONINI_2009 = Source(
    "albini2009",
    "Giovanni Albini, Samuele Antonini",
    "2009",
    "Hamiltonian Cycles in the Topological Dual of the Tonnetz",
    "Mathematics and Computation in Music, Communications in Computer and Information Science 38",
)
AMIOT_2007 = Source(
    "amiot2007", "Emmanuel Amiot", "2007", "David Lewin and Maximally Even Sets", "Journal of Mathematics and Music 1"
)
AMIOT_2016 = Source("amiot2016", "Emmanuel Amiot", "2016", "Music Through Fourier Space", "Springer")
BALZANO_1980 = Source(
    "balzano1980",
    "Gerald J. Balzano",
    "1980",
    "The Group-Theoretic Description of 12-Fold and Microtonal Pitch Systems",
    "Computer Music Journal 4(4)",
)
BARBOUR_1951 = Source(
    "barbour1951",
    "J. Murray Barbour",
    "1951",
    "Tuning and Temperament: A Historical Survey",
    "Michigan State College Press",
)
BARLOW_1987 = Source(
    "barlow1987", "Clarence Barlow", "1987", "Two Essays on Theory", "Computer Music Journal 11(1), 44-60"
)
BLOCK_DOUTHETT_1994 = Source(
    "block1994",
    "Steven Block, Jack Douthett",
    "1994",
    "Vector Products and Intervallic Weighting",
    "Journal of Music Theory 38",
)
BROWNE_1981 = Source(
    "browne1981", "Richmond Browne", "1981", "Tonal Implications of the Diatonic Set", "In Theory Only 5"
)
CAREY_2002 = Source(
    "carey2002",
    "Norman Carey",
    "2002",
    "On Coherence and Sameness, and the Evaluation of Scale Candidacy Claims",
    "Journal of Music Theory 46",
)
CAREY_2007 = Source(
    "carey2007",
    "Norman Carey",
    "2007",
    "Coherence and Sameness in Well-Formed and Pairwise Well-Formed Scales",
    "Journal of Mathematics and Music 1, 79-98",
)
CAREY_CLAMPITT_1989 = Source(
    "carey1989", "Norman Carey, David Clampitt", "1989", "Aspects of Well-Formed Scales", "Music Theory Spectrum 11"
)
CASTREN_1994 = Source(
    "castren1994",
    "Marcus Castrén",
    "1994",
    "RECREL: A Similarity Measure for Set-Classes",
    "Sibelius Academy, Helsinki",
)
CLAMPITT_1997 = Source(
    "clampitt1997",
    "David Clampitt",
    "1997",
    "Pairwise Well-Formed Scales: Structural and Transformational Properties",
    "dissertation, State University of New York at Buffalo",
)
CLOUGH_DOUTHETT_1991 = Source(
    "clough1991", "John Clough, Jack Douthett", "1991", "Maximally Even Sets", "Journal of Music Theory 35, 93-173"
)
CLOUGH_MYERSON_1985 = Source(
    "clough1985",
    "John Clough, Gerald Myerson",
    "1985",
    "Variety and Multiplicity in Diatonic Systems",
    "Journal of Music Theory 29",
)
COHN_1996 = Source(
    "cohn1996",
    "Richard Cohn",
    "1996",
    "Maximally Smooth Cycles, Hexatonic Systems, and the Analysis of Late-Romantic Triadic Progressions",
    "Music Analysis 15",
)
COHN_1997 = Source(
    "cohn1997",
    "Richard Cohn",
    "1997",
    "Neo-Riemannian Operations, Parsimonious Trichords, and Their Tonnetz Representations",
    "Journal of Music Theory 41",
)
DOUTHETT_STEINBACH_1998 = Source(
    "douthett1998",
    "Jack Douthett, Peter Steinbach",
    "1998",
    "Parsimonious Graphs: A Study in Parsimony, Contextual Transformations, and Modes of Limited Transposition",
    "Journal of Music Theory 42, 241-263",
)
EULER_1739 = Source("euler1739", "Leonhard Euler", "1739", "Tentamen novae theoriae musicae", "St Petersburg")
FORTE_1973 = Source("forte1973", "Allen Forte", "1973", "The Structure of Atonal Music", "Yale University Press")
GAMER_1967 = Source(
    "gamer1967",
    "Carlton Gamer",
    "1967",
    "Some Combinational Resources of Equal-Tempered Systems",
    "Journal of Music Theory 11",
)
GLAREAN_1547 = Source("glarean1547", "Heinrich Glarean", "1547", "Dodecachordon", "Basel")
HELMHOLTZ_1885 = Source(
    "helmholtz1885",
    "Hermann von Helmholtz, Alexander J. Ellis",
    "1885",
    "On the Sensations of Tone",
    "Longmans, Green",
)
HURON_1994 = Source(
    "huron1994",
    "David Huron",
    "1994",
    "Interval-Class Content in Equally Tempered Pitch-Class Sets: Common Scales Exhibit Optimum Tonal Consonance",
    "Music Perception 11, 289-305",
)
HURON_2006 = Source("huron2006", "David Huron", "2006", "Sweet Anticipation", "MIT Press")
HUTCHINSON_KNOPOFF_1978 = Source(
    "hutchinson1978",
    "William Hutchinson, Leon Knopoff",
    "1978",
    "The Acoustic Component of Western Consonance",
    "Interface 7",
)
ISAACSON_1990 = Source(
    "isaacson1990",
    "Eric J. Isaacson",
    "1990",
    "Similarity of Interval-Class Content Between Pitch-Class Sets: The IcVSIM Relation",
    "Journal of Music Theory 34",
)
ISO_16 = Source(
    "iso16", "International Organization for Standardization", "1975", "ISO 16: Standard tuning frequency", ""
)
JOHNSON_2003 = Source(
    "johnson2003", "Timothy A. Johnson", "2003", "Foundations of Diatonic Theory", "Key College Publishing"
)
KOSTKA_PAYNE = Source("kostka", "Stefan Kostka, Dorothy Payne", "2000", "Tonal Harmony", "McGraw-Hill")
LEWIN_1959 = Source(
    "lewin1959",
    "David Lewin",
    "1959",
    "Intervallic Relations Between Two Collections of Notes",
    "Journal of Music Theory 3",
)
LEWIN_1980 = Source(
    "lewin1980",
    "David Lewin",
    "1980",
    "A Response to a Response: On PC Set Relatedness",
    "Perspectives of New Music 18",
)
LONGUET_HIGGINS_1987 = Source(
    "longuet1987",
    "H. Christopher Longuet-Higgins",
    "1987",
    "Mental Processes: Studies in Cognitive Science",
    "MIT Press",
)
MESSIAEN_1944 = Source("messiaen1944", "Olivier Messiaen", "1944", "Technique de mon langage musical", "Leduc")
MIDI_TUNING = Source(
    "midituning", "MIDI Manufacturers Association", "1992", "MIDI Tuning Messages", "MIDI 1.0 Detailed Specification"
)
MILNE_2015 = Source(
    "milne2015",
    "Andrew J. Milne, David Bulger, Steffen A. Herff, William A. Sethares",
    "2015",
    "Perfect Balance: A Novel Principle for the Construction of Musical Scales and Meters",
    "Mathematics and Computation in Music, 97-108",
)
MORRIS_1980 = Source(
    "morris1980",
    "Robert D. Morris",
    "1980",
    "A Similarity Index for Pitch-Class Sets",
    "Perspectives of New Music 18",
)
MORRIS_1987 = Source(
    "morris1987",
    "Robert D. Morris",
    "1987",
    "Composition with Pitch-Classes: A Theory of Compositional Design",
    "Yale University Press",
)
NETTLES_GRAF_1997 = Source(
    "nettles1997",
    "Barrie Nettles, Richard Graf",
    "1997",
    "The Chord Scale Theory and Jazz Harmony",
    "Advance Music",
)
NUNO_2020 = Source(
    "nuno2020",
    "Luis Nuño",
    "2020",
    "A Detailed List and a Periodic Table of Set Classes",
    "Journal of Mathematics and Music",
)
PERSICHETTI_1961 = Source("persichetti1961", "Vincent Persichetti", "1961", "Twentieth-Century Harmony", "W. W. Norton")
PRACTICE = Source("practice", "", "", "Common practice of rudiments teaching", "no single source")
QUINN_2006 = Source(
    "quinn2006", "Ian Quinn", "2006", "General Equal-Tempered Harmony", "Perspectives of New Music 44(2)-45(1)"
)
RAHN_1980 = Source("rahn1980", "John Rahn", "1980", "Basic Atonal Theory", "Longman")
RAHN_1991 = Source(
    "rahn1991",
    "Jay Rahn",
    "1991",
    "Coordination of Interval Sizes in Seven-Tone Collections",
    "Journal of Music Theory 35, 33-60",
)
ROTHENBERG_1978 = Source(
    "rothenberg1978",
    "David Rothenberg",
    "1978",
    "A Model for Pattern Perception with Musical Applications",
    "Mathematical Systems Theory 11 and 12",
)
SCOTT_ISAACSON_1998 = Source(
    "scott1998",
    "Damon Scott, Eric J. Isaacson",
    "1998",
    "The Interval Angle: A Similarity Measure for Pitch-Class Sets",
    "Perspectives of New Music 36",
)
SETHARES_1993 = Source(
    "sethares1993",
    "William A. Sethares",
    "1993",
    "Local Consonance and the Relationship Between Timbre and Scale",
    "Journal of the Acoustical Society of America 94",
)
STRAUS = Source("straus", "Joseph N. Straus", "2005", "Introduction to Post-Tonal Theory", "Prentice Hall")
TEMPERLEY_2001 = Source(
    "temperley2001", "David Temperley", "2001", "The Cognition of Basic Musical Structures", "MIT Press"
)
TYMOCZKO_2011 = Source("tymoczko2011", "Dmitri Tymoczko", "2011", "A Geometry of Music", "Oxford University Press")
WERCKMEISTER_1691 = Source("werckmeister1691", "Andreas Werckmeister", "1691", "Musicalische Temperatur", "Quedlinburg")
