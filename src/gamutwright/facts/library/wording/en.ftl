### What the facts of this pack say in English. One message for each fact; see phrasing/messages.py for the attributes.
### Outside ‹ › stands nothing that would need proof: no numbers, ordinals or note names.

## Tones and steps

pitch-classes =
    .a = As pitch classes, the scale reads { $value }.
    .b = Written in numbers, its pitch classes are { $value }.
    .c = Upwards from the root, the pitch classes are { $value }.
    .long = Its pitch classes begin with { $first }, { $second } and { $third }, and the last of them is { $last }.
    .define = A pitch class is a tone without its octave: all keys of the same name count as the same. We number them upwards by the smallest step of the keyboard.
    .define-other = A pitch class is a tone without its octave: all tones whole octaves apart count as the same. We number them upwards by the smallest step of the division.
    .ask = Which pitch classes does the scale have?
    .answer = They are { $value }.

cardinality =
    .a = It has { $value } { $count ->
        [one] tone
       *[other] tones
    }{ $places }.
    .b = The scale is made of { $value } { $count ->
        [one] tone
       *[other] tones
    }.
    .c = Count along: there { $count ->
        [one] is
       *[other] are
    } { $value } { $count ->
        [one] tone
       *[other] tones
    } before the octave comes round again.
    .define = We count the tones of a scale from the root up to the last tone below the octave. The octave itself is the root again, so it is not counted.
    .noun = tones
    .ask = How many tones does the scale have?
    .answer = It has { $value } { $count ->
        [one] tone
       *[other] tones
    }.

step-pattern =
    .a = Its steps, counted in { $divisions ->
        [12] semitones
       *[other] steps of the division
    }, are { $value }.
    .b = Climb it, and the steps measure { $value }.
    .c = From the root up to the octave, the step pattern is { $value }.
    .long = Its step pattern begins with { $first }, { $second } and { $third }, and it closes with { $last }.
    .define = The step pattern lists how far it is from each tone to the next, all the way up to the octave. It is the shape of the scale: whoever knows it can build the scale on any root.
    .ask = What is the step pattern of the scale?
    .answer = Its steps are { $value }.

cardinality-word =
    .a = The word for a scale of this size is { $value }.
    .b = A scale with so many tones is called { $value }.
    .c = By its size, the scale is { $value }.
    .define = Scales have a family name after the number of their tones, taken from Greek.
    .word-monotonic = monotonic
    .word-ditonic = ditonic
    .word-tritonic = tritonic
    .word-tetratonic = tetratonic
    .word-pentatonic = pentatonic
    .word-hexatonic = hexatonic
    .word-heptatonic = heptatonic
    .word-octatonic = octatonic
    .word-enneatonic = enneatonic
    .word-decatonic = decatonic
    .word-hendecatonic = hendecatonic
    .word-dodecatonic = dodecatonic
    .ask = What do we call a scale with so many tones?
    .answer = We call it { $value }.

semitone-steps =
    .a = It has { $value } semitone { $count ->
        [one] step
       *[other] steps
    }{ $places }.
    .b = { $count ->
        [0] ‹None› of its steps are semitones.
        [one] ‹One› of its steps is a semitone{ $places }.
       *[other] { $value } of its steps are semitones{ $places }.
    }
    .c = Listen for the narrow steps. There { $count ->
        [one] is
       *[other] are
    } { $value } { $count ->
        [one] semitone
       *[other] semitones
    } between neighbours{ $places }.
    .define = A semitone step is the smallest step on the keyboard, from a key to the very next. It pulls: the ear expects the lower tone to rise or the upper tone to fall.
    .noun = semitone steps
    .ask = How many semitone steps does it have?
    .answer = It has { $value } semitone { $count ->
        [one] step
       *[other] steps
    }.

semitone-runs =
    .a = { $count ->
        [0] Its semitone steps never follow each other directly: there are ‹no› such places.
        [one] In ‹one› place, semitone steps follow each other directly{ $places }.
       *[other] In { $value } places, semitone steps follow each other directly{ $places }.
    }
    .b = There { $count ->
        [one] is
       *[other] are
    } { $value } { $count ->
        [one] place
       *[other] places
    } where a semitone meets a semitone{ $places }.
    .define = Where a semitone step is followed by another semitone step, the line creeps. We look for the places where that happens.
    .noun = places with semitones in a row
    .ask = In how many places do semitone steps follow each other?
    .answer = There { $count ->
        [one] is
       *[other] are
    } { $value } such { $count ->
        [one] place
       *[other] places
    }.

hemitonic-word =
    .a = The scale is { $value }.
    .b = { $word ->
        [anhemitonic] Without semitone steps it sounds calm and open: it is { $value }.
       *[other] It has semitone steps, so it is { $value }.
    }
    .define = A scale with semitone steps is called hemitonic, a scale without them anhemitonic.
    .word-anhemitonic = anhemitonic
    .word-hemitonic = hemitonic
    .ask = Is the scale hemitonic or anhemitonic?
    .answer = It is { $value }.

complement =
    .a = { $named ->
        [yes] The tones it leaves out are { $names }.
       *[no] Its complement has the pitch classes { $value }.
    }
    .b = Its complement reads { $value } in pitch classes.
    .none = It leaves out ‹no› tone at all.
    .long = It leaves out many tones: the complement begins with the pitch classes { $first }, { $second } and { $third }.
    .define = The complement is everything the scale leaves out. Play the keys you have not touched, and you hear it.
    .define-other = The complement is everything the scale leaves out. Play the tones of the division you have not touched, and you hear it.
    .ask = Which tones does the scale leave out?
    .answer = Its complement has the pitch classes { $value }.

place-values =
    .a = Written in binary, its tones stand at the places worth { $value }; the worth doubles from place to place.
    .b = From the root upwards the worth of a place doubles at every step, and the scale has tones at { $value }.
    .long = Written in binary, the worth of a place doubles at every step upwards from the root. The picture shows which places the scale fills.
    .define = In binary, the worth of a place doubles from each place to the next. A tone fills its place, a gap leaves it empty, so scales are the same just where all their places are.
    .ask = What are the binary places of its tones worth?
    .answer = They are worth { $value }.

bit-string =
    .a = As a row of ones and zeros, it reads { $value }.
    .b = Go up the octave step by step and mark each tone that belongs: { $value }.
    .long = Written out in marks, step by step through the octave, the scale makes a long row. The picture shows it better than words.
    .define = A bit string writes a scale as a row of marks, a mark for each step of the octave. The mark tells whether the scale has a tone there or leaves a gap.
    .ask = How does the scale read as ones and zeros?
    .answer = It reads { $value }.

## Spelling and names

spelling =
    .a = Its tones are { $value }.
    .b = Spelled from the root upwards, it goes { $value }.
    .c = By name, the tones are { $value }.
    .define = Spelling means choosing a letter for each tone, and a sharp or flat where it needs it. The same key can have several names; the spelling tells what part the tone plays.
    .ask = What are the tones of the scale called?
    .answer = They are { $value }.

degrees =
    .a = Measured against the major scale on the same root, its degrees are { $value }.
    .b = In scale degrees, it reads { $value }.
    .c = The scale degrees are { $value }.
    .define = A scale degree is the place of a tone above the root, compared with the major scale. Flat means a semitone lower than there, sharp a semitone higher.
    .ask = Which scale degrees does it have?
    .answer = They are { $value }.

systematic-name =
    .a = Its systematic name is { $value }.
    .b = If you like names that explain themselves, call it { $value }.
    .c = Seen from the familiar scales, it is { $value }.
    .define = A systematic name takes the nearest familiar scale on the same root and says what has changed.
    .ask = What is its systematic name?
    .answer = It is { $value }.

traditional-names =
    .a = { $count ->
        [one] It has a traditional name: { $value }.
       *[other] Traditions have their own names for it: { $value }.
    }
    .b = You may meet it under the name { $value }.
    .long = Many traditions have named it. You may meet it as { $first } or as { $second }.
    .define = A traditional name is what musicians of some place and time have called the scale. Each name comes with a source.
    .ask = By what name do musicians know it?
    .answer = By the name { $value }.

## Set classes

normal-form =
    .a = Its normal form by Forte's rule is { $value }.
    .b = Packed as tightly as they go, the pitch classes read { $value }. That is the normal form by Forte's rule.
    .none = An empty set has ‹no› normal form to read out.
    .long = Its normal form by Forte's rule begins with { $first }, { $second } and { $third }.
    .define = The normal form is the tightest order of the pitch classes: turn the scale round until it spans as little as possible, and then until it is packed most closely towards its low end. So Allen Forte defined it.
    .ask = What is its normal form by Forte's rule?
    .answer = It is { $value }.

prime-form =
    .a = Its prime form by Forte's rule is { $value }.
    .b = Moved down and turned into its simplest shape, the set class reads { $value }. That is the prime form by Forte's rule.
    .none = An empty set has ‹no› prime form to read out.
    .long = Its prime form by Forte's rule begins with { $first }, { $second } and { $third }.
    .define = The prime form is the simplest way to write a set class. We look at the scale and its mirror image, take the tightest order, and begin counting from nothing. So Allen Forte defined it.
    .ask = What is its prime form by Forte's rule?
    .answer = It is { $value }.

forte-label =
    .a = In Allen Forte's table, its set class has the label { $value }.
    .b = Analysts look it up under the Forte label { $value }.
    .define = Allen Forte made a table of all set classes. A Forte label gives the number of tones, then the place in that table.
    .ask = Which Forte label does its set class have?
    .answer = Its label is { $value }.

is-z-related =
    .a = The scale { $value }.
    .b = { $is ->
        [yes] Its store of intervals turns up in a different set class too: it { $value }.
       *[no] Its store of intervals belongs to its set class alone: it { $value }.
    }
    .define = Set classes are called Z-related if they contain the same intervals equally often, although transposing or mirroring never turns them into each other.
    .yes = is Z-related to another set class
    .no = is not Z-related to any set class

normal-form-rahn =
    .a = By Rahn's rule, its normal form is { $value }.
    .b = The normal form after John Rahn reads { $value }.
    .none = An empty set has ‹no› normal form to read out.
    .long = By Rahn's rule, its normal form begins with { $first }, { $second } and { $third }.
    .define = John Rahn's normal form also looks for the order that spans least. Where several orders tie, his rule compares their intervals from the far end.

is-prime-form =
    .a = Counted from its root, the scale { $value }.
    .b = { $is ->
        [yes] There is nothing left to rearrange: it { $value }.
       *[no] It would have to be turned or mirrored: it { $value }.
    }
    .define = Some scales are already their own prime form: counted from the root, they stand in the tightest order of all.
    .yes = is its own prime form by Forte's rule
    .no = is not its own prime form by Forte's rule

prime-form-rahn =
    .a = By Rahn's rule, its prime form is { $value }.
    .b = The prime form after John Rahn reads { $value }.
    .none = An empty set has ‹no› prime form to read out.
    .long = By Rahn's rule, its prime form begins with { $first }, { $second } and { $third }.
    .define = John Rahn's prime form agrees with Forte's nearly always. Where orders tie, his rule compares their intervals from the far end.

is-prime-form-rahn =
    .a = Counted from its root, the scale { $value }.
    .b = { $is ->
        [yes] There is nothing left to rearrange: it { $value }.
       *[no] It would have to be turned or mirrored: it { $value }.
    }
    .define = By John Rahn's rule, too, some scales are already their own prime form: counted from the root, they stand in the tightest order.
    .yes = is its own prime form by Rahn's rule
    .no = is not its own prime form by Rahn's rule

z-partner =
    .a = Its Z partner is the set class { $value }.
    .b = The set class that shares all its intervals is { $value }.
    .define = The Z partner is the other set class with exactly the same intervals, equally often.

## Modes and symmetry

mode-count =
    .a = It has { $value } distinct { $count ->
        [one] mode
       *[other] modes
    }.
    .b = Start it from each of its tones, and you get { $value } different { $count ->
        [one] scale
       *[other] scales
    }.
    .c = There { $count ->
        [one] is
       *[other] are
    } { $value } { $count ->
        [one] mode
       *[other] modes
    } to be had from these tones.
    .define = Take the same tones, but begin on a different tone: that is a mode. Modes are distinct if their steps come in a different order.
    .noun = distinct modes
    .ask = How many distinct modes does it have?
    .answer = It has { $value } { $count ->
        [one] mode
       *[other] modes
    }.

inversion =
    .a = Turned over about its root, the scale has the pitch classes { $value }.
    .b = Its inversion reads { $value } in pitch classes.
    .long = Its inversion begins with the pitch classes { $first }, { $second } and { $third }.
    .define = Inversion turns the scale over about its root. What was so far above the root is now as far below.
    .ask = Which pitch classes does its inversion have?
    .answer = They are { $value }.

reflection-axes =
    .a = It has { $value } { $count ->
        [one] axis
       *[other] axes
    } of reflection.
    .b = { $count ->
        [0] You can fold its clock wherever you like, the sides never match: it has ‹no› axes of reflection.
        [one] Fold its clock along a line so that the sides match: there is just ‹one› such axis of reflection.
       *[other] Fold its clock along a line so that the sides match: there are { $value } such axes of reflection.
    }
    .define = Draw the tones on a clock face. An axis of reflection is a line along which you can fold the clock so that tones fall on tones and gaps on gaps.
    .noun = axes of reflection
    .ask = How many axes of reflection does it have?
    .answer = It has { $value } { $count ->
        [one] axis
       *[other] axes
    } of reflection.

is-chiral =
    .a = The scale { $value }.
    .b = { $is ->
        [yes] Like a left and a right hand, the scale and its mirror image cannot be moved onto each other: it { $value }.
       *[no] Its mirror image is the same kind of scale again: it { $value }.
    }
    .define = A scale is chiral if its mirror image is a different kind of scale, just as a left glove does not fit the right hand.
    .yes = is chiral
    .no = is not chiral
    .ask = Is the scale chiral?
    .answer = The scale { $value }.

is-palindromic =
    .a = The step pattern { $value }.
    .b = { $is ->
        [yes] Read its steps downwards and you find them in the same order: the pattern { $value }.
       *[no] Read its steps downwards and the order changes: the pattern { $value }.
    }
    .define = A palindrome reads the same backwards. If a step pattern is palindromic, the scale climbs and falls by the same steps.
    .yes = is a palindrome
    .no = is not a palindrome
    .ask = Is its step pattern a palindrome?
    .answer = The pattern { $value }.

rotational-symmetry =
    .a = { $count ->
        [one] Only the transposition by nothing brings its own tones back: its degree of transpositional symmetry is ‹one›.
       *[other] Its degree of transpositional symmetry is { $value }: so many transpositions within the octave, the one by nothing among them, bring its own tones back.
    }
    .b = { $count ->
        [one] Its degree of transpositional symmetry is ‹one›, as for most scales.
       *[other] Turn its clock all the way round, and it falls on itself at { $value } positions. That is its degree of transpositional symmetry.
    }
    .define = Move a scale up until it has exactly its own tones again. How many such moves there are within the octave is its degree of transpositional symmetry; not moving at all counts too.
    .ask = What is its degree of transpositional symmetry?
    .answer = It is { $value }.

transposition-count =
    .a = It has { $value } distinct { $count ->
        [one] transposition
       *[other] transpositions
    }.
    .b = Move it through all keys, and you meet { $value } different { $count ->
        [one] set
       *[other] sets
    } of tones.
    .define = Transpose a scale step by step through the octave. Most scales give new tones each time, but some come back early. We count the distinct transpositions.
    .noun = distinct transpositions
    .ask = How many distinct transpositions does it have?
    .answer = It has { $value } distinct { $count ->
        [one] transposition
       *[other] transpositions
    }.

has-limited-transpositions =
    .a = The scale { $value }.
    .b = { $is ->
        [yes] Transpose it, and you soon meet tones you have heard before: it { $value }.
       *[no] Each transposition within the octave brings different tones: it { $value }.
    }
    .define = A scale of limited transposition has its own tones back before it has been moved through the whole octave. Olivier Messiaen spoke of the charm of impossibilities.
    .yes = is a scale of limited transposition
    .no = is not a scale of limited transposition
    .ask = Is it a scale of limited transposition?
    .answer = It { $value }.

## Intervals and common tones

tones-without-fifth =
    .a = { $count ->
        [0] Every tone has its fifth above: there are ‹no› tones without it.
        [one] ‹One› tone lacks its fifth above{ $places }.
       *[other] { $value } tones lack their fifth above{ $places }.
    }
    .b = There { $count ->
        [one] is
       *[other] are
    } { $value } { $count ->
        [one] tone
       *[other] tones
    } without a fifth above{ $places }.
    .define = The perfect fifth is the strongest support a tone can have. We look for the tones whose fifth above is missing from the scale.
    .noun = tones without a fifth above
    .ask = How many tones lack their fifth above?
    .answer = { $count ->
        [0] ‹None› of them do
        [one] ‹One› tone does
       *[other] { $value } tones do
    }.

tritones =
    .a = It has { $value } { $count ->
        [one] tritone
       *[other] tritones
    }{ $places }.
    .b = { $count ->
        [0] It holds ‹no› tritones, and so it is free of that tension.
        [one] It holds ‹one› tritone{ $places }.
       *[other] It holds { $value } tritones{ $places }.
    }
    .define = A tritone is the interval that cuts the octave into equal halves.
    .noun = tritones
    .ask = How many tritones does it hold?
    .answer = It holds { $value } { $count ->
        [one] tritone
       *[other] tritones
    }.

interval-class-vector =
    .a = Its interval-class vector is { $value }.
    .b = Count the intervals between all its tones, class by class from the smallest: { $value }. That is the interval-class vector.
    .long = Its interval-class vector begins with { $first }, { $second } and { $third }.
    .define = An interval class puts an interval and its inversion together, as seconds with sevenths. The interval-class vector counts how often each class occurs, from the smallest to the largest.
    .ask = What is its interval-class vector?
    .answer = It is { $value }.

common-tones-transposition =
    .a = Move it up step by step, and the tones that stay are, in turn, { $value }.
    .b = The common tones under transposition number { $value }.
    .long = Move it up by a step, and the tones that stay number { $first }; by a step more, { $second }.
    .define = Move a scale up and some of its tones may be in it still. These are the common tones under transposition. Many of them make a smooth change of key. Now and then a tone stays wherever in the scale the scale is begun anew.
    .ask = How many tones stay when it is transposed step by step?
    .answer = In turn, { $value }.

is-deep =
    .a = The scale { $value }.
    .b = { $is ->
        [yes] Each interval class occurs with a frequency of its own: the scale { $value }.
       *[no] Some interval classes are equally frequent: the scale { $value }.
    }
    .define = In a deep scale, every interval class occurs a different number of times. So each transposition keeps a different number of common tones.
    .yes = is a deep scale
    .no = is not a deep scale
    .ask = Is it a deep scale?
    .answer = It { $value }.

rare-intervals =
    .a = Measured in { $divisions ->
        [12] semitones
       *[other] steps of the division
    }, its rare { $count ->
        [one] interval is
       *[other] intervals are
    } { $value }.
    .b = The { $count ->
        [one] interval class that occurs
       *[other] interval classes that occur
    } least often { $count ->
        [one] measures
       *[other] measure
    } { $value }.
    .long = Many interval classes are equally rare here, beginning with { $first } and { $second }.
    .define = A rare interval occurs in the scale, but less often than the others. Hear it, and you know best where in the scale you are.
    .ask = Which of its intervals are rare?
    .answer = Those that measure { $value }.

common-tones-inversion =
    .a = Turn it over about the root, then about each later place: the tones that stay number { $value }.
    .b = Its common tones under inversion are, in turn, { $value }.
    .long = Turn it over about the root, and the tones that stay number { $first }.
    .define = Turn a scale over and some tones may fall on tones of the scale. These are the common tones under inversion, counted for every way of turning it over.

## Spectra and evenness

generators =
    .a = { $count ->
        [one] It can be built as a chain of equal links. In { $divisions ->
        [12] semitones
       *[other] steps of the division
    }, its generator measures { $value }.
       *[other] It can be built as a chain of equal links. In { $divisions ->
        [12] semitones
       *[other] steps of the division
    }, its generators measure { $value }.
    }
    .b = Measured in { $divisions ->
        [12] semitones
       *[other] steps of the division
    }, its { $count ->
        [one] generator is
       *[other] generators are
    } { $value }.
    .none = There is ‹no› generator: it cannot be strung together from equal links.
    .long = Very many intervals generate it, beginning with { $first } and { $second }.
    .define = A generator is an interval that reaches every tone of the scale in an unbroken chain. The circle of fifths strings scales together in this way.
    .ask = Which intervals generate the scale?
    .answer = Measured in { $divisions ->
        [12] semitones
       *[other] steps of the division
    }, they are { $value }.

is-generated =
    .a = The scale { $value }.
    .b = { $is ->
        [yes] Its tones hang together in a chain of equal links: it { $value }.
       *[no] Its tones cannot be strung on a chain of equal links: it { $value }.
    }
    .define = A generated scale is an unbroken chain of the same interval, as the major scale is a chain of fifths.
    .yes = is a generated scale
    .no = is not a generated scale
    .ask = Is it a generated scale?
    .answer = It { $value }.

spectra =
    .a = Its spectra, from single scale steps upwards, are { $value }.
    .b = Counted in { $divisions ->
        [12] semitones
       *[other] steps of the division
    }, each single scale step measures { $first }{ $count ->
        [one] {""}
       *[other] , and the next larger span { $second }
    }.
    .long = Counted in { $divisions ->
        [12] semitones
       *[other] steps of the division
    }, each single scale step measures { $first }, and the widest span below the octave { $last }.
    .define = A spectrum collects the sizes of all intervals that span equally many scale steps. Seconds have their spectrum, thirds have theirs, and so on.
    .ask = Which sizes do single scale steps have?
    .answer = They measure { $first }.

well-formedness =
    .a = { $word ->
        [non-degenerate] The scale is well-formed, and { $value }.
        [degenerate] The scale is well-formed, but { $value }.
       *[other] The scale is { $value }.
    }
    .b = { $word ->
        [non-degenerate] The same interval, always spanning equally many scale steps, builds all of it, and its steps differ: as a well-formed scale it is { $value }.
        [degenerate] All its steps are equal, and so, as a well-formed scale, it is { $value }.
       *[other] A chain of equal links that always span equally many scale steps does not exist here: it is { $value }.
    }
    .define = A well-formed scale is a chain of equal intervals that always spans equally many scale steps. If all its steps are equal, it is called degenerate.
    .word-non-degenerate = non-degenerate
    .word-degenerate = degenerate
    .word-not-well-formed = not well-formed
    .ask = Is the scale well-formed, and does it count as degenerate?
    .answer = It is { $value }.

is-maximally-even =
    .a = The scale { $value }.
    .b = { $is ->
        [yes] Its tones are spread round the octave as evenly as they can be: it { $value }.
       *[no] Its tones could be spread more evenly round the octave: it { $value }.
    }
    .define = A scale is maximally even if its tones are spread over the octave as evenly as the keyboard allows. Where they cannot be perfectly even, the sizes differ by the least possible.
    .define-other = A scale is maximally even if its tones are spread over the octave as evenly as the division allows. Where they cannot be perfectly even, the sizes differ by the least possible.
    .yes = is maximally even
    .no = is not maximally even
    .ask = Is the scale maximally even?
    .answer = It { $value }.

is-myhill =
    .a = The scale { $value }.
    .b = { $is ->
        [yes] Seconds, thirds, fourths, every kind comes large and small and nothing in between: the scale { $value }.
       *[no] Not every kind of interval comes in just a large and a small size: the scale { $value }.
    }
    .define = Myhill's property means that each kind of interval, seconds, thirds and so on, comes in exactly a large size and a small size. The major scale is the best-known example.
    .yes = has Myhill's property
    .no = does not have Myhill's property
    .ask = Does the scale have Myhill's property?
    .answer = It { $value }.

is-pairwise-well-formed =
    .a = The scale { $value }.
    .b = { $is ->
        [yes] Blur any pair of its step sizes until they sound alike, and a well-formed pattern remains: it { $value }.
       *[no] Blurring pairs of its step sizes does not always leave a well-formed pattern: it { $value }.
    }
    .define = A scale is pairwise well-formed if its steps are large, middle and small, and the pattern becomes well-formed whenever any pair of these sizes is taken as equal.
    .yes = is pairwise well-formed
    .no = is not pairwise well-formed

spectrum-widths =
    .a = Its spectrum widths, from single scale steps upwards, are { $value }.
    .b = From the smallest interval of each kind to the largest, it is { $value }. These are the spectrum widths.
    .long = Its spectrum widths begin with { $first }, { $second } and { $third }.
    .define = The spectrum width is the difference between the largest and the smallest interval of a kind.

chord-length-sum =
    .a = The sum of chord lengths is { $value }, in radii of the circle.
    .b = Join all its tones by straight lines across the circle, and the lines add up to { $value } radii.
    .define = Put the tones on a circle and join every pair by a straight line. The sum of chord lengths adds up all these lines. The more evenly the tones are spread, the larger it is.

has-cardinality-equals-variety =
    .a = The scale { $value }.
    .b = { $is ->
        [yes] Move any pattern along it, and it takes exactly as many shapes as it has tones: the scale { $value }.
       *[no] Patterns moved along it do not always take as many shapes as they have tones: the scale { $value }.
    }
    .define = Take a pattern of scale tones and move it along the scale. If it always takes as many shapes as it has tones, cardinality equals variety.
    .yes = satisfies cardinality equals variety
    .no = does not satisfy cardinality equals variety

is-second-order-maximally-even =
    .a = The scale { $value }.
    .b = { $is ->
        [yes] There is an even scale in which its tones are spread as evenly as possible again: it { $value }.
       *[no] There is not any even scale in which its tones are spread evenly again: it { $value }.
    }
    .define = Take a maximally even scale, and from its tones choose again as evenly as possible. What you get is second-order maximally even. Triads lie in the major scale like this.
    .yes = is second-order maximally even
    .no = is not second-order maximally even

mean-spectrum-width =
    .a = Its mean spectrum width is { $value }.
    .b = Measured in { $divisions ->
        [12] semitones
       *[other] steps of the division
    }, the largest and the smallest interval of a span differ on average by { $value }.
    .define = The mean spectrum width adds the widths of all spectra and divides by the number of tones. It tells how uneven the scale is.

has-structure-implies-multiplicity =
    .a = The scale { $value }.
    .b = { $is ->
        [yes] How often each shape of a pattern occurs can be read from a circle: the scale { $value }.
       *[no] How often each shape of a pattern occurs cannot be read from a circle: the scale { $value }.
    }
    .define = Lay the scale out on a circle of equal spans, such as the circle of fifths. If the gaps between the tones of a pattern tell how often each of its shapes occurs, structure implies multiplicity.
    .yes = satisfies structure implies multiplicity
    .no = does not satisfy structure implies multiplicity

## Propriety and coherence

ambiguities =
    .a = It has { $value } { $count ->
        [one] ambiguity
       *[other] ambiguities
    }{ $places }.
    .b = { $count ->
        [0] Whatever interval you hear, its size alone tells how many scale steps it spans: there are ‹no› ambiguities.
        [one] In ‹one› case, intervals sound equally large and yet span different numbers of scale steps{ $places }.
       *[other] In { $value } cases, intervals sound equally large and yet span different numbers of scale steps{ $places }.
    }
    .define = An ambiguity is a pair of intervals of the same size that span different numbers of scale steps. Heard alone, they cannot be told apart.
    .noun = ambiguities
    .ask = How many ambiguities does it have?
    .answer = It has { $value } { $count ->
        [one] ambiguity
       *[other] ambiguities
    }.

contradictions =
    .a = It has { $value } { $count ->
        [one] contradiction
       *[other] contradictions
    }{ $places }.
    .b = { $count ->
        [0] An interval of fewer scale steps is never the larger: there are ‹no› contradictions.
        [one] In ‹one› case, the interval of fewer scale steps is the larger{ $places }.
       *[other] In { $value } cases, the interval of fewer scale steps is the larger{ $places }.
    }
    .define = A contradiction is a pair of intervals where the interval that spans fewer scale steps sounds larger all the same.
    .noun = contradictions
    .ask = How many contradictions does it have?
    .answer = It has { $value } { $count ->
        [one] contradiction
       *[other] contradictions
    }.

propriety =
    .a = The scale is { $value }.
    .b = { $word ->
        [strictly-proper] More scale steps always make a larger interval: it is { $value }.
        [improper] More scale steps sometimes make a smaller interval: it is { $value }.
       *[other] More scale steps never make a smaller interval, though sometimes an equal size: it is { $value }.
    }
    .define = A scale is strictly proper if more scale steps always make a larger interval. It is proper if they may also make an equal size, and improper if they may make a smaller size.
    .word-strictly-proper = strictly proper
    .word-proper = proper
    .word-improper = improper
    .ask = Is the scale strictly proper, proper or improper?
    .answer = It is { $value }.

differences =
    .a = It has { $value } { $count ->
        [one] difference
       *[other] differences
    }.
    .b = { $count ->
        [0] Intervals of equally many scale steps are always equally large: there are ‹no› differences.
       *[other] Compare intervals of equally many scale steps, and { $value } { $count ->
        [one] pair differs
       *[other] pairs differ
    } in size.
    }
    .define = A difference is a pair of intervals that span equally many scale steps but are not equally large.
    .noun = differences

coherence-failures =
    .a = It has { $value } coherence { $count ->
        [one] failure
       *[other] failures
    }.
    .b = Ambiguities and contradictions taken together, there { $count ->
        [one] is
       *[other] are
    } { $value } coherence { $count ->
        [one] failure
       *[other] failures
    }.
    .define = Coherence fails wherever an interval of fewer scale steps is not the smaller. Ambiguities and contradictions are counted together.
    .noun = coherence failures

efficiency =
    .a = Its efficiency is { $value }.
    .b = On average one must hear this share of its tones to be sure of the key: { $value }. That is its efficiency.
    .define = How many tones must you hear, in random order, until you know which transposition of the scale is played? The average share of tones is called its efficiency.

is-balzano-coherent =
    .a = The scale { $value }.
    .b = { $is ->
        [yes] Apart from the middle of the octave, more scale steps always sound larger: it { $value }.
       *[no] More scale steps do not always sound larger: it { $value }.
    }
    .define = Gerald Balzano calls a scale coherent if more scale steps always make a larger interval. He allows an exception in the middle of the octave.
    .yes = is coherent in Balzano's sense
    .no = is not coherent in Balzano's sense

sameness-quotient =
    .a = Its sameness quotient is { $value }.
    .b = Where equal spans would always be equally large, the sameness quotient would be whole. Here it is { $value }.
    .define = The sameness quotient tells how seldom intervals of equally many scale steps differ in size. It is whole if they never do.

stability =
    .a = Its stability is { $value }.
    .b = Heard alone, this share of its intervals can be told without doubt: { $value }. That is its stability.
    .define = Some intervals can be told by their size alone: as a second, a third and so on. Stability is the share of intervals of which that is true.

coherence-quotient =
    .a = Its coherence quotient is { $value }.
    .b = Where size and scale steps never disagree, the coherence quotient is whole. Here it is { $value }.
    .define = The coherence quotient tells how seldom the size of intervals disagrees with the number of their scale steps. It is whole if they never disagree.

## Fourier and balance

centre-of-gravity =
    .a = The centre of gravity of its tones lies at { $value } from the middle of the circle, in radii.
    .b = Hang equal weights on its tones, and their centre of gravity has the coordinates { $value }.
    .define = Think of the tones as equal weights on the rim of a wheel. Their centre of gravity is the point on which the wheel would rest level.

evenness =
    .a = Its evenness is { $value }.
    .b = Against a perfectly equal division, its evenness comes to { $value }.
    .define = Evenness compares the tones of a scale with a perfectly equal division of the octave. The nearer they come to it, the larger it is.

fourier-magnitudes =
    .a = The sizes of its Fourier coefficients, rounded, are { $value }.
    .b = Rounded, the Fourier coefficients have the sizes { $value }.
    .long = Its Fourier coefficients, rounded, begin with the sizes { $first }, { $second } and { $third }.
    .define = Fourier coefficients tell how strongly the tones gather on equally spaced points of the circle. A large coefficient means that they gather strongly.

balance =
    .a = Its balance is { $value }.
    .b = Set on a wheel, its tones reach a balance of { $value }.
    .define = Think of the tones as equal weights on a wheel. Balance tells how nearly the wheel would stay at rest.

is-balanced =
    .a = The scale { $value }.
    .b = { $is ->
        [yes] Set its tones as weights on a wheel, and the wheel stays at rest: the scale { $value }.
       *[no] Set its tones as weights on a wheel, and the wheel turns: the scale { $value }.
    }
    .define = A scale is perfectly balanced if its tones, hung as equal weights on a wheel, leave the wheel at rest in any position.
    .yes = is perfectly balanced
    .no = is not perfectly balanced

## Chords

diminished-triads =
    .a = It holds { $value } diminished { $count ->
        [one] triad
       *[other] triads
    }{ $places }.
    .b = On { $count ->
        [0] ‹none›
       *[other] { $value }
    } of its tones stands a diminished triad{ $places }.
    .define = A diminished triad stacks a minor third on a minor third. It sounds tight and wants to move on.
    .noun = diminished triads
    .ask = How many diminished triads does it hold?
    .answer = It holds { $value } diminished { $count ->
        [one] triad
       *[other] triads
    }.

major-triads =
    .a = It holds { $value } major { $count ->
        [one] triad
       *[other] triads
    }{ $places }.
    .b = { $count ->
        [0] You will look in vain for major triads: there are ‹no› such chords.
       *[other] There { $count ->
        [one] is
       *[other] are
    } { $value } major { $count ->
        [one] triad
       *[other] triads
    } in it{ $places }.
    }
    .c = For bright chords, it offers { $value } major { $count ->
        [one] triad
       *[other] triads
    }{ $places }.
    .define = A major triad has a root, a major third above it, and a perfect fifth.
    .noun = major triads
    .ask = How many major triads does it hold?
    .answer = It holds { $value } major { $count ->
        [one] triad
       *[other] triads
    }.

minor-triads =
    .a = It holds { $value } minor { $count ->
        [one] triad
       *[other] triads
    }{ $places }.
    .b = { $count ->
        [0] You will look in vain for minor triads: there are ‹no› such chords.
       *[other] There { $count ->
        [one] is
       *[other] are
    } { $value } minor { $count ->
        [one] triad
       *[other] triads
    } in it{ $places }.
    }
    .c = For darker chords, it offers { $value } minor { $count ->
        [one] triad
       *[other] triads
    }{ $places }.
    .define = A minor triad has a root, a minor third above it, and a perfect fifth.
    .noun = minor triads
    .ask = How many minor triads does it hold?
    .answer = It holds { $value } minor { $count ->
        [one] triad
       *[other] triads
    }.

triads =
    .a = { $count ->
        [one] Its only triad is { $value }.
       *[other] Its triads are { $value }.
    }
    .b = You can harmonise with { $count ->
        [one] this triad
       *[other] these triads
    }: { $value }.
    .none = It holds ‹no› triads.
    .long = It is rich in triads, among them { $first }, { $second } and { $third }.
    .define = A triad is a chord of a root with a third and a fifth above it. It may be major, minor, diminished or augmented.
    .ask = Which triads does it hold?
    .answer = They are { $value }.

tertian-triads =
    .a = Stack every other tone, and the triads on its degrees are { $value }.
    .b = Built from every other tone, the chords on its degrees are { $value }.
    .long = Stack every other tone, and the triads on its degrees begin with { $first }, { $second } and { $third }.
    .define = Take a tone, skip the next, take the next, skip and take again: that is how a triad is built on each degree. Such a chord is called tertian.
    .ask = Which triads stand on its degrees?
    .answer = In order, { $value }.

augmented-triads =
    .a = Counted by their roots, it holds { $value } augmented { $count ->
        [one] triad
       *[other] triads
    }{ $places }.
    .b = { $count ->
        [0] It holds ‹no› augmented triads.
       *[other] On { $value } of its tones stands an augmented triad{ $places }.
    }
    .define = An augmented triad stacks a major third on a major third, and so it cuts the octave into equal parts. Each of its tones can be its root.
    .noun = augmented triads
    .ask = How many augmented triads does it hold?
    .answer = It holds { $value } augmented { $count ->
        [one] triad
       *[other] triads
    }.

parsimonious-links =
    .a = There { $count ->
        [one] is
       *[other] are
    } { $value } parsimonious { $count ->
        [one] link
       *[other] links
    } between its triads{ $places }.
    .b = { $count ->
        [0] From triad to triad, moving only a tone at a time, there are ‹no› links.
       *[other] Move a tone at a time from triad to triad: { $value } { $count ->
        [one] link
       *[other] links
    } can be found{ $places }.
    }
    .define = A parsimonious link joins a major and a minor triad that have all their tones in common but the last, and that tone moves only a small step. Chords linked like this melt into each other.
    .noun = parsimonious links between triads
    .ask = How many parsimonious links join its triads?
    .answer = There { $count ->
        [one] is
       *[other] are
    } { $value } { $count ->
        [one] link
       *[other] links
    }.

seventh-chords =
    .a = It holds { $value } seventh { $count ->
        [one] chord
       *[other] chords
    }{ $places }.
    .b = There { $count ->
        [one] is
       *[other] are
    } { $value } seventh { $count ->
        [one] chord
       *[other] chords
    } in it{ $places }.
    .define = A seventh chord is a triad with another third on top. We count the usual kinds, from the major seventh chord to the diminished.
    .noun = seventh chords
    .ask = How many seventh chords does it hold?
    .answer = It holds { $value } seventh { $count ->
        [one] chord
       *[other] chords
    }.

sevenths =
    .a = { $count ->
        [one] Its only seventh chord is { $value }.
       *[other] Its seventh chords are { $value }.
    }
    .b = With sevenths added, it offers { $value }.
    .none = It holds ‹no› seventh chords.
    .long = It is rich in seventh chords, among them { $first }, { $second } and { $third }.
    .define = Seventh chords are named by their root and kind.
    .ask = What are its seventh chords called?
    .answer = They are { $value }.

tertian-sevenths =
    .a = Stack every other tone a little higher, and the seventh chords on its degrees are { $value }.
    .b = The seventh chords on its degrees are { $value }.
    .long = The seventh chords on its degrees begin with { $first } and { $second }.
    .define = Take every other tone once more and put it on the triad: that is the tertian seventh chord of a degree.
    .ask = Which seventh chords stand on its degrees?
    .answer = In order, { $value }.

hamiltonian-paths =
    .a = There { $count ->
        [one] is
       *[other] are
    } { $value } { $count ->
        [one] path
       *[other] paths
    } through all its major and minor triads.
    .b = { $count ->
        [0] Visiting every major and minor triad without repeating a chord cannot be done: there are ‹no› such paths.
       *[other] You can visit every major and minor triad, without repeating a chord, in { $value } { $count ->
        [one] way
       *[other] ways
    }.
    }
    .define = A Hamiltonian path visits all major and minor triads of the scale without repeating any, and moves only a tone at a time.
    .noun = paths through all its triads

hamiltonian-cycles =
    .a = There { $count ->
        [one] is
       *[other] are
    } { $value } round { $count ->
        [one] trip
       *[other] trips
    } through all its major and minor triads.
    .b = { $count ->
        [0] A round trip through all its triads does not exist: the count is ‹zero›.
       *[other] And home again: { $value } round { $count ->
        [one] trip leads
       *[other] trips lead
    } through all its triads and back to the start.
    }
    .define = A Hamiltonian cycle is a round trip: it visits all major and minor triads, a tone changing at a time, and comes back to where it began.
    .noun = round trips through all its triads

## Relatives

one-step-neighbours =
    .a = It has { $value } one-step { $count ->
        [one] neighbour
       *[other] neighbours
    }.
    .b = Move a tone to the next free place, and you reach { $value } other { $count ->
        [one] scale
       *[other] scales
    }.
    .define = A one-step neighbour is a scale you reach by moving a tone to the next free place. Neighbours are the easiest scales to slip into.
    .noun = one-step neighbours
    .ask = How many one-step neighbours does it have?
    .answer = It has { $value } { $count ->
        [one] neighbour
       *[other] neighbours
    }.

named-subsets =
    .a = Inside it you find { $value }.
    .b = Leave out some tones, and a scale with a name remains: { $value }.
    .none = It contains ‹no› smaller scale that our sources name.
    .long = It contains several smaller scales that have a name, among them { $first } and { $second }.
    .define = Some scales hide inside others: leave out a few tones, and what remains has a name of its own.
    .ask = Which scales with a name are hidden inside it?
    .answer = You find { $value }.

named-supersets =
    .a = It is contained in { $value }.
    .b = Add tones to it, and you come to { $value }.
    .none = There is ‹no› larger scale with a name around it.
    .long = It is contained in several larger scales that have a name, among them { $first } and { $second }.
    .define = Some scales are parts of larger scales on the same root: add a few tones, and what you get has a name of its own.
    .ask = Which larger scales with a name contain it?
    .answer = It is part of { $value }.

## Consonance

just-ratios =
    .a = The nearest just ratios are { $value }.
    .b = In just intonation, its tones would have the ratios { $value }.
    .long = Its nearest just ratios begin with { $first }, { $second } and { $third }.
    .define = A just ratio is a ratio of small whole numbers between the frequencies of tones. The simpler it is, the more the tones blend.
    .ask = Which just ratios lie nearest to its tones?
    .answer = They are { $value }.

huron-consonance =
    .a = By Huron's weights, its consonance sums to { $value }.
    .b = Weigh each interval after David Huron, and the sum is { $value }.
    .define = David Huron gives every interval class a weight, high for consonance and low for dissonance. Adding them tells how consonant a scale can be.

barlow-harmonicity =
    .a = Against the root, the harmonicities of its tones, rounded, are { $value }.
    .b = After Clarence Barlow, rounded, its tones have the harmonicities { $value }.
    .none = There are ‹no› tones beside the root to compare with it.
    .long = Rounded, the harmonicities begin with { $first }, { $second } and { $third }.
    .define = Clarence Barlow's harmonicity tells how simple a ratio is. Simple ratios have a large harmonicity, be it above or below nothing.

euler-gradus =
    .a = Euler's degrees of sweetness, from the root upwards, are { $value }.
    .b = After Leonhard Euler, its tones have the degrees { $value } against the root.
    .long = Euler's degrees of sweetness begin with { $first }, { $second } and { $third }.
    .define = Leonhard Euler gave each ratio a degree of sweetness, gradus suavitatis. The lower the degree, the sweeter the interval.

hutchinson-knopoff-roughness =
    .a = Its roughness by Hutchinson and Knopoff is { $value }.
    .b = Sound all its tones together: after Hutchinson and Knopoff, the roughness is { $value }.
    .define = Hutchinson and Knopoff measure roughness by the beating of neighbouring partials when all tones sound together.

just-errors =
    .a = Against just intonation, its tones are off by { $value } cents, rounded.
    .b = Rounded to whole cents, the errors against just intonation are { $value }.
    .long = The tone furthest from just intonation is off by { $entry } cents, rounded.
    .define = The equal keyboard compromises. The error of a tone is how far it lies from the nearest just ratio, measured in cents.
    .define-other = An equal division compromises. The error of a tone is how far it lies from the nearest just ratio, measured in cents.

sethares-roughness =
    .a = Its roughness by Sethares is { $value }.
    .b = Sound all its tones together: by Sethares's model, the roughness is { $value }.
    .define = William Sethares adds up the beating of all partials. His unit here is the roughness of pure tones close together around the tuning fork.

## Tuning

tone-cents =
    .a = In cents above the root, its tones stand at { $value }.
    .b = Measured in cents, rounded, the tones lie at { $value }.
    .long = In cents above the root, its tones begin with { $first }, { $second } and { $third }.
    .define = A cent is a tiny unit of pitch: a hundredth of an equal semitone.
    .ask = How many cents above the root do its tones stand?
    .answer = At { $value }.

five-limit-cents =
    .a = In five-limit just intonation, rounded to whole cents, its tones stand at { $value }.
    .b = The picture changes in five-limit just intonation: rounded, { $tone } stands at { $entry } cents.
    .long = In five-limit just intonation, rounded, { $tone } stands at { $entry } cents.
    .define = Five-limit just intonation builds every ratio from the smallest primes, so that fifths and thirds are pure.

kirnberger-cents =
    .a = In Kirnberger's tuning, rounded to whole cents, its tones stand at { $value }.
    .b = In Kirnberger's tuning, rounded, { $tone } stands at { $entry } cents.
    .long = In Kirnberger's tuning, rounded, { $tone } stands at { $entry } cents.
    .define = Johann Philipp Kirnberger tempered a few fifths, so that the most used of the thirds is pure and the others stay usable.

pythagorean-cents =
    .a = In Pythagorean tuning, rounded to whole cents, its tones stand at { $value }.
    .b = In Pythagorean tuning, rounded, { $tone } stands at { $entry } cents.
    .long = In Pythagorean tuning, rounded, { $tone } stands at { $entry } cents.
    .define = Pythagorean tuning is made of pure fifths alone. Its thirds come out wide.

quarter-comma-cents =
    .a = In quarter-comma meantone, rounded to whole cents, its tones stand at { $value }.
    .b = In quarter-comma meantone, rounded, { $tone } stands at { $entry } cents.
    .long = In quarter-comma meantone, rounded, { $tone } stands at { $entry } cents.
    .define = Quarter-comma meantone narrows the fifths a little, so that most major thirds are pure.

tone-frequencies =
    .a = Rounded to whole hertz, its tones have the frequencies { $value }.
    .b = In hertz, rounded, the tones vibrate at { $value }.
    .long = Rounded to whole hertz, the frequencies begin with { $first }, { $second } and { $third }.
    .define = Hertz tell how fast a tone vibrates, counted over a tick of the clock.

vallotti-cents =
    .a = In Vallotti's tuning, rounded to whole cents, its tones stand at { $value }.
    .b = In Vallotti's tuning, rounded, { $tone } stands at { $entry } cents.
    .long = In Vallotti's tuning, rounded, { $tone } stands at { $entry } cents.
    .define = Francesco Vallotti spread the comma over the fifths among the white keys and left the others pure.

werckmeister-cents =
    .a = In Werckmeister's tuning, rounded to whole cents, its tones stand at { $value }.
    .b = In Werckmeister's tuning, rounded, { $tone } stands at { $entry } cents.
    .long = In Werckmeister's tuning, rounded, { $tone } stands at { $entry } cents.
    .define = Andreas Werckmeister narrowed a few of the fifths by part of a comma, so that every key can be played and each has its colour.

midi-tuning-words =
    .a = In the MIDI tuning standard, the lowest tone is written { $first }.
    .b = A synthesiser that knows MIDI tuning is told { $first } for the lowest tone.
    .long = In the MIDI tuning standard, the lowest tone is written { $first }.
    .long-b = A synthesiser that knows MIDI tuning is told { $first } for the lowest tone.
    .define = The MIDI tuning standard writes every tone as a key and a fraction above it, in bytes. Synthesisers read it.

## Colour and home

nearest-relative =
    .a = { $label ->
        [changed] Lay { $value } beside it on the same root. Over there { $many ->
            [one] stands
           *[other] stand
        } { $names } instead.
        [left-out] Let { $names } go from { $value } on the same root, and this scale remains.
       *[added] Let { $names } join { $value } on the same root, and this scale is what you get.
    }
    .b = { $label ->
        [changed] Among the familiar scales, { $value } stands nearest to it. Over there, the difference is { $names }.
        [left-out] Take { $value } on the same root and leave out { $names }.
       *[added] Take { $value } on the same root and add { $names }.
    }
    .define = The nearest familiar scale is the major, minor or pentatonic scale on the same root that takes the fewest changes.
    .ask = Which familiar scale on the same root is nearest to it?
    .answer = The nearest is { $value }.

colour-tones =
    .a = { $count ->
        [one] Its colour tone is { $value }. Hold it, and you hear which scale this is.
       *[other] Its colour tones are { $value }. Hold them, and you hear which scale this is.
    }
    .b = { $count ->
        [one] What gives it its colour is { $value }. Without it, a listener could take the scale for its familiar neighbour.
       *[other] What gives it its colour is { $value }. Without them, a listener could take the scale for its familiar neighbour.
    }
    .long = Nearly every tone gives it colour, from { $first } to { $last }.
    .define = A colour tone tells a scale from its nearest familiar neighbour. Lean on it when you play.
    .ask = Which tones give the scale its colour?
    .answer = { $count ->
        [one] The colour tone is { $value }.
       *[other] The colour tones are { $value }.
    }

brightness =
    .a = Add up the steps from the root to each of its tones, and its brightness comes to { $value }.
    .b = In brightness, the scale measures { $value }.
    .define = Raise a tone, and a scale grows brighter; lower it, and the scale grows darker. Brightness measures that: it adds up how many steps each tone lies above the root.
    .more = It is brighter than { $other }: its tones lie ‹higher› above the root, all told.
    .fewer = It is darker than { $other }: its tones lie ‹lower› above the root, all told.
    .same = It is just as bright as { $other }: all told, its tones lie ‹as high› above the root.
    .ask = How bright is the scale, all its steps above the root added up?
    .answer = Its brightness is { $value }.

tonic =
    .a = Home is { $value }: there a tune comes to rest.
    .b = Its tonic is { $value }. Play it whenever you want to arrive.
    .define = The tonic is the chord on the root. It is home: a tune that ends there sounds finished.
    .ask = Which chord is its home?
    .answer = Its tonic is { $value }.

colour-chords =
    .a = { $count ->
        [one] The chord that carries its colour is { $value }. Go there from the tonic and come back, and you hear the scale.
       *[other] The chords that carry its colour are { $value }. Go from the tonic to any of them and come back, and you hear the scale.
    }
    .b = Beside the tonic, its colour sounds in { $value }. Rock to and fro between home and there, and sing over it.
    .long = Many of its chords carry its colour. Begin with { $first }, and come back to the tonic.
    .define = A colour chord is a major or minor triad that holds a colour tone. The tonic and such a chord in turn are enough to keep a scale in the ear.
    .ask = Which chords carry its colour?
    .answer = { $count ->
        [one] The colour chord is { $value }.
       *[other] The colour chords are { $value }.
    }

tendency-tones =
    .a = { $count ->
        [one] { $value } wants to move on, into the tonic{ $places }.
       *[other] { $value } want to move on, into the tonic{ $places }.
    }
    .b = Over the tonic, the ear hears a pull in { $value }{ $places }.
    .define = A tendency tone lies just outside the tonic, a semitone from a tone of it. The ear expects it to give way to its neighbour.
    .ask = Which of its tones pull towards the tonic?
    .answer = { $count ->
        [one] { $value } does.
       *[other] { $value } do.
    }

chord-symbols =
    .a = If you read it from a chord sheet, it fits { $value }.
    .b = Where a player meets { $value }, this scale will do.
    .long = It fits several chord symbols, { $first } and { $second } among them.
    .define = A chord symbol tells a player which chord sounds. A scale fits it if all the tones of the chord belong to the scale.
    .ask = Which chord on its root does the scale fit?
    .answer = It fits { $value }.

tensions =
    .a = { $count ->
        [one] Held above its chord, { $value } enriches it without a clash.
       *[other] Held above its chord, { $value } enrich it without a clash.
    }
    .b = If you want more than the plain chord, add { $value }. It blends.
    .define = An available tension lies a whole tone above a tone of the chord. It can be held there: it makes the sound richer and still blends.
    .ask = Which tones may be held above its chord?
    .answer = Hold { $value } if you like.

avoid-tones =
    .a = { $count ->
        [one] Only pass through { $value }. Held above the chord, it rubs a semitone against it.
       *[other] Only pass through { $value }. Held above the chord, they rub a semitone against it.
    }
    .b = Hurry through { $value } while the chord sounds. The rub is good in passing, and hard when it lasts.
    .define = A tone to avoid lies a semitone above a tone of the chord. It is welcome in passing, but when it is held, the chord loses its own sound.
    .ask = Which tones are for passing only, above its chord?
    .answer = Only pass through { $value }.

tetrachords =
    .a = From the root upwards it is built of { $value }.
    .b = Its building blocks, the lower and then the upper, are { $value }.
    .define = A tetrachord is a building block of a scale: the tones of its lower part, or those of its upper part up to the octave. Scales that share a block sound alike there.
    .word-major = a major tetrachord
    .word-minor = a minor tetrachord
    .word-phrygian = a phrygian tetrachord
    .word-harmonic = a harmonic tetrachord
    .word-whole-tone = a whole-tone tetrachord
    .ask = Which tetrachords is the scale built of?
    .answer = It is built of { $value }.

same-tones =
    .a = Its tones belong to another scale as well, with another home: it is { $value }.
    .b = Keep the tones and change the home. Heard that way, it is { $value }.
    .define = When another of its tones becomes home, the same tones make another scale. Home is where a tune comes to rest.
    .ask = Of which other scale is it a mode?
    .answer = It is { $value }.

mode-names =
    .a = Begin on each of its tones in turn, and you get { $value }.
    .b = Its modes are called { $value }.
    .long = Its modes run from { $first } to { $last }.
    .define = Each tone of a scale can be home, and with every new home the order of steps changes. That is why the modes have names of their own.
    .ask = What are its modes called?
    .answer = They are { $value }.
