### The words of the stories: what a lesson asks, and how it answers. Slots are those of docs/stories.md.
### A sentence is left out where the scale has nothing for one of its slots. Outside the slots stands nothing that would
### need proof: no numbers, ordinals or note names.

## Headings

chapter-music =
    .a = A tune to begin with
    .b = Before a word is said
chapter-known =
    .a = From something you know
    .b = Next door to the familiar
chapter-why =
    .a = What it does to the tune
    .b = What changes
chapter-chords =
    .a = Chords with its colour
    .b = Home and away
chapter-family =
    .a = Where it belongs
    .b = Its family
chapter-closer =
    .a = A closer look
    .b = Under the lid
chapter-steps =
    .a = How it is built
    .b = Step by step
chapter-you =
    .a = Your turn
    .b = Play it
chapter-ear =
    .a = Ears only
    .b = Listen again
chapter-answer =
    .a = So, the answer
    .b = Back to the question
chapter-rest =
    .a = For the curious
    .b = Worth knowing
word-higher =
    .a = ‹higher›
word-lower =
    .a = ‹lower›

## A tone or two away from something familiar

one-ask =
    .a = { $changes ->
        [1] You know nearly every tone of this tune. Which is the stranger, and what does it do?
       *[other] You know most tones of this tune. Which are the strangers, and what do they do?
    }
    .b = { $changes ->
        [1] There is a tone in this tune that is not where you would expect it. Did you catch it?
       *[other] Some tones of this tune are not where you would expect them. Did you catch them?
    }
one-beside =
    .a = Begin with { $relative }.
    .b = You have played { $relative } before.
    .c = Its neighbour you know: { $relative }.
one-moves =
    .a = Watch its { $place } degree: { $old } { $way ->
        [down] sinks
       *[up] climbs
    } to { $new }.
    .b = Take its { $place } degree and move it { $way ->
        [down] down
       *[up] up
    }, from { $old } to { $new }.
    .c = Now { $way ->
        [down] lower
       *[up] raise
    } { $old } to { $new }.
one-moves-more =
    .a = The { $place-2 } goes { $way-2 ->
        [down] down
       *[up] up
    } as well: { $old-2 } turns into { $new-2 }.
    .b = Then its { $place-2 }: { $old-2 } { $way-2 ->
        [down] sinks
       *[up] climbs
    } to { $new-2 }.
    .c = Then let { $old-2 } become { $new-2 }.
one-is =
    .a = Nothing else moves, and we are in { $name }.
    .b = The other tones stay put. Welcome to { $name }.
one-tune =
    .a = A tune changes its coat: { $name } leads, and { $relative } follows.
    .b = Listen to a tune in { $name }, and then to its double in { $relative }.
why-pull =
    .a = { $new } is restless. The step from { $pull-step } is ‹semitone_steps: a semitone, the smallest on the keyboard | a semitone›, and it wants to be taken.
    .b = Stay on { $new } for a moment, and you hear it lean. From { $pull-step } is ‹semitone_steps: a semitone, the smallest step there is | a semitone›.
why-hear-pull =
    .a = Hear every tone that leans, and let it go: { $pulls }.
    .b = Listen to the leaning tones of this scale find their goal: { $pulls }.
why-from-above =
    .a = In major, what pulls home comes from below. Here it comes down to { $root } from above.
    .b = So the way home to { $root } leads downstairs.
why-from-below =
    .a = It lies right below home and drives the tune up to { $root }.
    .b = Whoever hears { $new } waits for { $root }.
why-into-chord =
    .a = Its goal is { $target }, a tone of the chord at home.
    .b = It reaches for { $target }, and so into the chord at home.
why-lost =
    .a = In { $relative }, { $lost } pulls by the smallest step. { $new } has let go of that, and the line is free to float.
    .b = { $relative } has a pull there, { $lost }. With { $new } it is gone, and the tune takes its time.
why-gap-over =
    .a = Move a degree, and the steps around it change. From { $over-from } up to { $over-to } you now leap { $over-steps } semitones.
    .b = The step after { $over-from } pays for it: up to { $over-to } it measures { $over-steps } semitones, a gap you can hear.
why-gap-under =
    .a = Move a degree, and the steps around it change. From { $under-from } up to { $under-to } you now leap { $under-steps } semitones.
    .b = The step before { $under-to } pays for it: from { $under-from } it measures { $under-steps } semitones, a gap you can hear.
why-light =
    .a = Added up, its tones lie { $higher } above the root than those of { $relative }. Musicians call that { $light ->
        [brighter] brighter
       *[darker] darker
    }.
    .b = Every tone counted, it lies { $higher } than { $relative }, so we call it the { $light ->
        [brighter] brighter
       *[darker] darker
    } of the pair.
one-answer-asked =
    .a = { $changes ->
        [1] So who was the stranger?
       *[other] So who were the strangers?
    }
    .b = { $changes ->
        [1] Which tone makes the difference, then?
       *[other] Which tones make the difference, then?
    }
one-answer =
    .a = { $new }, the { $degree } degree of { $name }.
    .b = The { $degree } degree, { $new }. Put { $old } in its place, and you are back in { $relative }.
    .c = { $new }, where { $relative } has { $old }.
one-answer-more =
    .a = { $new } and { $new-2 }, the { $degree } degree and the { $degree-2 } of { $name }.
    .b = The { $degree } degree, { $new }, and the { $degree-2 }, { $new-2 }: with the old tones you would be in { $relative }.
    .c = { $new } and { $new-2 }, where { $relative } has { $olds }.
one-answer-home =
    .a = It stands next door to { $root }, and the whole tune knows it.
    .b = Lean on { $new }, and you feel how near { $root } is.
one-answer-free =
    .a = It gives up a pull, and the tune breathes.
    .b = Where { $old } pushes, { $new } lets go.
one-answer-chord =
    .a = { $new } leans on { $target }, and { $home } glows a little.
    .b = Play { $new } before { $target }, and you are there.

## Chords

chords-home =
    .a = At home sounds { $home }.
    .b = A tune in { $name } comes to rest on { $home }.
chords-colour =
    .a = To hear its colour in a chord, play { $chord }.
    .b = { $chord } carries its colour.
chords-was =
    .a = On that root { $relative } has { $chord-was }.
    .b = Compare { $relative }: there it would be { $chord-was }.
chords-vamp =
    .a = Swing from { $home } to { $chord } and back, and you will know it anywhere.
    .b = { $home }, { $chord }, { $home }: the scale in a handful of tones.
chords-tune =
    .a = With those chords below, the tune stands in its own light.
    .b = Put the tune on top of { $home } and { $chord }.

## Its family

family-mode =
    .a = Its tones are those of { $parent }, with home on { $root }: the { $mode } mode.
    .b = Start { $parent } from { $root }, and its { $mode } mode is what you hear.

## The learner plays

you-call =
    .a = I play, and you answer in the silence. Touch { $new } on the way, and come home to { $root }.
    .b = Take your instrument. Where I stop, you go on: lean on { $new }, end on { $root }.
you-call-plain =
    .a = I play, and you answer in the silence. Start where you like, and come home to { $root }.
    .b = Take your instrument. Go on from where I stop, and end on { $root }.
you-pattern =
    .a = To get { $name } into the hand, play it in threes, slowly.
    .b = An exercise for the way home: { $name } in threes, up and down.
ear-listen =
    .a = Put the pictures away. A new tune comes, and comes again.
    .b = Close your eyes. Another tune, and then again.
ear-ask =
    .a = Was { $new } in it before the break, or after?
    .b = Where did you hear { $new }: before the break, or after it?
ear-answer =
    .a = Before it. After the break { $old } had come back.
    .b = Before. Then { $old } took its place again.

## Old tones, another home

home-ask =
    .a = Every tone of this tune belongs to { $parent } too. So why does it sound new?
    .b = You could play this tune on the tones of { $parent }. Why is its home another?
home-parent =
    .a = In { $parent } a tune rests on { $parent-root }.
    .b = Think of { $parent } and its home, { $parent-root }.
home-moves =
    .a = Keep every tone, and move home to { $root }. That is { $name }, the { $mode } mode of { $parent }.
    .b = Change nothing but the tone you rest on. With { $root } as home it is { $name }, the { $mode } mode of { $parent }.
home-drone =
    .a = Hold { $root } below, and every tone gets a new weight.
    .b = Now { $root } sounds through, and old tones turn new.
home-steps =
    .a = From { $root } the steps come in another order: { $steps }, counted in semitones.
    .b = Climb from { $root }, and the steps are these, in semitones: { $steps }.
home-beside =
    .a = What stands out from here? Beside { $relative }, on the same root: { $colours }.
    .b = Set { $relative } beside it, on the same root, and you see what sets it apart: { $colours }.
home-answer-asked =
    .a = Why, then, does { $name } sound new?
    .b = So why did the old tones sound new?
home-answer =
    .a = Because we measure every tone from home. With home on { $root }, it is { $colours } that we notice.
    .b = Home moved to { $root }, and from there { $colours } { $colours-count ->
        [1] stands
       *[other] stand
    } out.

## What is left out

less-ask =
    .a = This tune leaves something out. What do we gain by that?
    .b = Something is missing in this tune, and nobody misses it. Why?
less-beside =
    .a = Think of { $relative }, with all its steps.
    .b = Begin with { $relative }.
less-take =
    .a = Take away { $olds }. What remains is { $tones }.
    .b = Leave out { $olds }. We keep { $tones }.
both-heard =
    .a = Hear them in turn: { $name }, and then { $relative }.
    .b = Listen to { $name }, and to { $relative } after it.
less-is =
    .a = That is { $name }.
    .b = This is what we call { $name }.
less-narrow-gone =
    .a = And with them go the narrow steps. It has { $narrow } ‹semitone_steps: semitones, the smallest steps of the keyboard | semitones›.
    .b = It has { $narrow } ‹semitone_steps: semitones, the smallest steps of the keyboard | semitones›. The tight places of { $relative } have gone with the tones.
less-narrow-left =
    .a = Of the tight places { $narrow } remain, and they count for more now: { $narrow-places }.
    .b = Its ‹semitone_steps: semitones, the smallest steps there are, | semitones› stand out all the more: { $narrow-places }.
less-tritone-gone =
    .a = It has { $tritones } ‹tritones: tritones, which split the octave in the middle | tritones›, so its tones get along.
    .b = And there are { $tritones } ‹tritones: tritones, the intervals that split the octave in the middle | tritones›.
less-steps =
    .a = What you get instead are wide steps. Counted in semitones: { $steps }.
    .b = The gaps give it its gait: { $steps }, counted in semitones.
less-free =
    .a = So you may land on any of its tones, and it will sound meant.
    .b = That is why children and beginners can improvise with it at once.
less-answer-asked =
    .a = What do we gain, then?
    .b = So why does nobody miss anything?
less-answer-free =
    .a = Freedom. With { $olds } out of the way, any tone goes with any other.
    .b = We lose { $olds }, and with them all that pushes.
less-answer =
    .a = With { $olds } gone the tune gets room, and what remains gets weight.
    .b = We lose { $olds }, and every tone that stays is heard more clearly.

## What is added

more-ask =
    .a = { $changes ->
        [1] This tune has a guest from outside. Who is it, and what is it for?
       *[other] This tune has guests from outside. Who are they, and what are they for?
    }
    .b = { $changes ->
        [1] There is a tone too many in this tune, and it is the best of all. Which?
       *[other] There are tones too many in this tune, and it lives on them. Which?
    }
more-beside =
    .a = Think of { $relative }, the house before the guest arrives.
    .b = Begin with { $relative }.
more-comes =
    .a = Now { $new } comes in, between { $below } and { $above }.
    .b = Into the gap from { $below } to { $above } steps { $new }.
more-comes-too =
    .a = And { $new-2 }, between { $below-2 } and { $above-2 }.
    .b = Another, { $new-2 }, settles between { $below-2 } and { $above-2 }.
more-is =
    .a = Together that makes { $name }.
    .b = And so { $relative } turns into { $name }.
more-narrow =
    .a = It is close all around: { $in-narrow } is ‹semitone_steps: a semitone, the smallest step of the keyboard | a semitone›, and so is { $out-narrow }.
    .b = You slide through it by ‹semitone_steps: semitones, the smallest steps there are | semitones›, { $in-narrow } and on, { $out-narrow }.
more-pass =
    .a = Nobody rests there. You pass through { $new }, and the passing is the point.
    .b = Try to stop on { $new }: it asks to go on.
more-answer-asked =
    .a = { $changes ->
        [1] So who is the guest?
       *[other] So who are the guests?
    }
    .b = { $changes ->
        [1] And which tone was it?
       *[other] And which tones were they?
    }
more-answer =
    .a = It is { $colours }, on top of { $relative }: a spice, to be used in passing.
    .b = { $colours }. Leave it out, and only { $relative } is left.

## All alike

alike-ask =
    .a = Where is home in this tune? Look for it, and you will look for a long time.
    .b = This music floats and never lands. Why does it not come home?
alike-steps =
    .a = Count its steps in semitones: { $steps }.
    .b = Here are its steps, in semitones: { $steps }.
alike-equal =
    .a = Every step is like every other, so the steps keep silent about where you are.
    .b = With steps all of a size, each tone sees the same above and below.
alike-round =
    .a = A short pattern comes round and round, so each round looks like the last.
    .b = The steps repeat themselves long before the octave is full.
alike-shifts =
    .a = ‹transposition_count: Shift the whole scale along, and soon it falls on its own tones: a new place is a transposition only if the tones are new | Shift the whole scale along, and soon it falls on its own tones›. There are only { $shifts } different transpositions of it.
    .b = That is why it has just { $shifts } transpositions: ‹transposition_count: move it on, and it meets its own tones | move it on, and it meets itself›.
alike-modes =
    .a = Begin on another tone, and hear whether you notice. It has just { $modes } { $modes-count ->
        [1] mode
       *[other] modes
    }.
    .b = It has { $modes } { $modes-count ->
        [1] mode, and it is always the same
       *[other] different modes
    }. Listen.
alike-drone =
    .a = Only a held tone gives it a floor. Here it stands on { $root }.
    .b = Hold { $root } underneath, and for as long as it sounds there is a home.
alike-chords =
    .a = Even its chords come in sets. Major: { $major-places }.
    .b = Its major chords lie evenly round the circle: { $major-places }.
alike-answer-asked =
    .a = So where is home?
    .b = Why, then, does it never land?
alike-answer =
    .a = Wherever you put it. With { $shifts } transpositions in all, the scale itself leaves the choice to you.
    .b = Because it looks the same from many sides. It has only { $shifts } transpositions. A place for home was never planned.
alike-answer-plain =
    .a = Wherever you put it. Follow the steps, { $steps }, and any place is as good as the next.
    .b = Because it looks the same from many sides: { $steps }. A place for home was never planned.

## Two in one

halves-ask =
    .a = Something small is hidden in this scale, and it comes back. Can you hear it?
    .b = This scale is made of parts that you know. Which?
halves-triads =
    .a = Take { $half-1 }. Take { $half-2 }. Nothing in them is the same, and together they are the whole scale.
    .b = Whatever { $half-1 } leaves of its tones is { $half-2 }.
halves-triads-hear =
    .a = Hear the chords of this scale from the lowest root up, and listen for { $half-1 } and { $half-2 }.
    .b = Its chords in turn: { $half-1 } and { $half-2 } are among them.
halves-lower =
    .a = Sing it from { $root } up to { $lower-top }: that is { $lower }.
    .b = The lower part, { $root } to { $lower-top }, is { $lower }.
halves-upper =
    .a = Now go on from { $upper-root } to the octave: { $upper }. You know that shape already.
    .b = The upper part begins on { $upper-root }, and it is { $upper } again.
halves-fold =
    .a = So whoever can play the lower part can play the upper, from another key.
    .b = Learn a handful of tones, take it up to { $upper-root }, and you have it all.
halves-answer-asked =
    .a = What is hidden in it, then?
    .b = So what are the parts?
halves-answer-triads =
    .a = { $half-1 } and { $half-2 }, side by side, and nothing is left over.
    .b = Just { $half-1 } and { $half-2 }. Everything else is how you mix them.
halves-answer =
    .a = { $lower } below, { $upper } above: the same hand, in another place.
    .b = The same shape, from { $root } and again from { $upper-root }.

## The rule

rule-ask =
    .a = Could you explain this scale over the telephone, in a breath?
    .b = This scale follows a rule so short that you can keep it for life. What is it?
rule-turns =
    .a = Its steps take turns: { $first-step } up, { $last-step } up, and over again.
    .b = Go up { $first-step }, go up { $last-step }, and repeat that until you are home.
rule-chain =
    .a = Start with a tone and keep going { $link } semitones at a time: { $chain }.
    .b = Walk in strides of { $link } semitones, and you touch { $chain }.
rule-sorted =
    .a = Fold them into an octave, sort them, and there is { $name }.
    .b = Now put them in order, within an octave. That is { $name }.
rule-even =
    .a = All its steps are equal, each { $first-step } semitones. That is the whole rule.
    .b = Up by { $first-step } semitones, and by the same again, until the octave closes.
rule-steps =
    .a = What comes out are these steps: { $steps }, in semitones.
    .b = Look at the steps it makes: { $steps }.
rule-mirror =
    .a = Read those steps backwards, and nothing changes: up and down are alike.
    .b = They are the same backwards. Climb or descend, the pattern stays.
rule-answer-asked =
    .a = What do you say on the telephone, then?
    .b = And the rule?
rule-answer-turns =
    .a = { $first-step } and { $last-step }, by turns, from { $root }.
    .b = From { $root } take { $first-step }, take { $last-step }, and start again.
rule-answer-chain =
    .a = From a tone on, { $link } semitones each time, until you have { $size-words } tones.
    .b = { $size-words } tones, a chain of strides of { $link } semitones.
rule-answer-even =
    .a = From { $root } on, { $first-step } semitones each time.
    .b = Take { $root }, add { $first-step } semitones, and go on like that.

## Tension

bite-ask =
    .a = Something in this tune bites. What is it, and how does it let go?
    .b = Why does this tune never sit still?
bite-steps =
    .a = Count its steps in semitones: { $steps }.
    .b = Follow the steps, in semitones: { $steps }.
bite-narrow =
    .a = The ‹semitone_steps: semitones, the smallest steps of the keyboard, | semitones› are what bites, and there are { $narrow }: { $narrow-places }.
    .b = It packs { $narrow } ‹semitone_steps: semitones, the smallest steps there are, | semitones› into an octave: { $narrow-places }.
bite-runs =
    .a = ‹semitone_runs: Semitones even follow each other directly | Semitones even come in rows›. Places like that: { $runs }.
    .b = ‹semitone_runs: Where semitones come in a row, the tones crowd | Semitones come in rows, too›. Such places: { $runs }.
bite-tritones =
    .a = Then there are ‹tritones: tritones, which split the octave in the middle | tritones›: { $tritone-places }.
    .b = Its ‹tritones: tritones, which split the octave in the middle, | tritones› add to it: { $tritone-places }.
bite-resolve =
    .a = Every bite wants to be resolved. Hear it let go: { $pulls }.
    .b = Now hear the same tones find their rest: { $pulls }.
bite-beside =
    .a = Beside { $relative }, on the same root, what departs is { $colours }.
    .b = Compare { $relative }. What is new is { $colours }.
bite-answer-asked =
    .a = So what bites?
    .b = What keeps the tune moving, then?
bite-answer =
    .a = { $narrow } semitones, and with each the wish to go on.
    .b = Its semitones do, all { $narrow }. Each is a small question, and the next tone answers it.

## A name from elsewhere

far-ask =
    .a = This row of tones bears a name that a keyboard did not give it. What do the bare tones leave out?
    .b = Somebody far from here would know this row of tones by name. What would they miss in it?
far-name =
    .a = The name is { $first-name }, as sources give it.
    .b = In the sources it is called { $first-name }.
far-tones =
    .a = As bare tones it reads { $tones }.
    .b = Written for our keyboard, its tones are { $tones }.
far-steps =
    .a = Its steps, in semitones: { $steps }.
    .b = Climb it, and the steps are these, in semitones: { $steps }.
far-caution =
    .a = But a name like that stands for more than tones. It says which tone is held, how it is approached, how it is tuned, and when it is sung. A list of tones tells you nothing of this.
    .b = Whoever plays it there learns more: where to linger, how to bend into a tone, how high a tone really is. A keyboard shows nothing of that.
far-beside =
    .a = For ears from here, { $relative } is the nearest thing. What departs from it: { $colours }.
    .b = Set it beside { $relative }, on the same root, and { $colours } { $colours-count ->
        [1] stands
       *[other] stand
    } out.
far-answer-asked =
    .a = So what do the bare tones leave out?
    .b = What is missing, then?
far-answer =
    .a = Nearly everything that makes { $first-name } music. Take these tones as a door, and listen to those who grew up with it.
    .b = The playing. The tones of { $first-name } are a beginning, and the rest you learn by listening to people who live in it.

## For every scale

walk-ask =
    .a = What is this scale made of?
    .b = What can you do with these tones?
walk-hear =
    .a = Listen to { $name } rise and fall.
    .b = Here is { $name }, up and down.
walk-hear-unnamed =
    .a = Listen to it rise and fall.
    .b = Here it is, up and down.
walk-steps =
    .a = From the root it climbs in steps of { $steps }.
    .b = Its steps, from the root up: { $steps }.
walk-answer =
    .a = That is what it is made of. Now make something of it.
    .b = The rest is up to you and your instrument.
walk-tune =
    .a = Enough said: a tune.
    .b = And now a tune of nothing but these tones.

## More to practise

chapter-hidden =
    .a = What is inside
    .b = Take it apart
chapter-practice =
    .a = Into the fingers
    .b = Practice
practice-skips =
    .a = Climb { $name } by skipping every other tone, then fill the gap.
    .b = Up a skip, back a step: { $name } with gaps.
practice-waltz =
    .a = Here it dances. { $home } and { $chord } keep time in a waltz.
    .b = Let { $home } and { $chord } sway, and { $name } turns into a waltz.
practice-waltz-plain =
    .a = Here it dances, over a held { $root }.
    .b = A waltz in { $name }, with { $root } as its floor.
practice-clap =
    .a = Clap its steps, { $steps }, as lengths of time. They make a rhythm.
    .b = A wide step is a long beat, a narrow step a short beat: { $steps }.
practice-long =
    .a = A longer tune. Sing the last { $root } along with me.
    .b = Follow a longer tune on the staff, all the way to { $root }.
practice-broken =
    .a = Break the chords of { $name } into single tones.
    .b = Its chords, tone by tone. Let { $root } begin.
practice-again =
    .a = Another round of question and answer, ending on { $root }.
    .b = Once you dare, answer me again, and stop on { $root }.
practice-along =
    .a = Now the floor is yours. I hold the chords of { $name } until you are done.
    .b = Take more than a minute for yourself. The band plays { $name }, you lead.
practice-sing =
    .a = Sing it, tone by tone, against a held { $root }. Which tones rub, and which rest?
    .b = Hold { $root } with me and sing { $name } above it.
practice-jig =
    .a = The same tones can skip. Here they do, and land on { $root }.
    .b = Faster now, in a swinging beat: { $name } on its feet.
practice-fours =
    .a = Longer runs, for fingers that know { $name } by now.
    .b = A last exercise: { $name } in longer runs, up and down.

## The portrait

chapter-walk =
    .a = Walking it
    .b = Step by step
chapter-colour =
    .a = Its colour
    .b = What gives it away
chapter-holds =
    .a = What it holds
    .b = Inside it
chapter-shape =
    .a = Its shape
    .b = How it is balanced
chapter-rely =
    .a = How far the ear can rely on it
    .b = Can the ear trust it?
chapter-written =
    .a = How theorists write it
    .b = On paper
portrait-ask =
    .a = What is there to know about { $name }? Take your time: this is all of it.
    .b = You have heard a tune in { $name }. Now let us see everything that is in it.
portrait-walk =
    .a = A scale is a staircase. Walk { $name } up and down before you count anything.
    .b = Climb { $name } with your ears, and then count what you climbed.
portrait-colour =
    .a = Colour is what departs from what you know.
    .b = You hear what is new by what is old.
portrait-holds =
    .a = Between its tones wait intervals and chords. Hear the chords of { $name } in turn.
    .b = Now open { $name } and look at what its tones make together.
portrait-family =
    .a = Begin { $name } on another of its tones, and another scale stands there.
    .b = The tones of { $name } have other homes as well. Listen to them.
portrait-shape =
    .a = Bend the staircase into a ring, and { $name } has a shape. Its steps even make a rhythm.
    .b = Clap { $name }: its shape is in the beats.
portrait-rely =
    .a = When you hear a few tones of { $name }, can you tell where you are? Hold { $root }, and try.
    .b = An ear finds its way by the sizes of intervals. With { $root } below, how safe is it in { $name }?
portrait-written =
    .a = To find { $name } in a book of theory, you need its other names.
    .b = On paper { $name } loses its sound and gains an address.
portrait-answer =
    .a = That is { $name }, whole. The page beside this lesson holds every figure.
    .b = Now you know { $name } as few people do. Read on, on its page.
portrait-tune =
    .a = And now forget the figures: a tune.
    .b = A last tune, for all that it took.
