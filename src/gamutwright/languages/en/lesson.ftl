### What a lesson says in English. One message for each fact; see messages.py for the attributes.
### Outside ‹ › stands nothing that would need proof: no numbers, ordinals or note names.

## Comparisons and rarity

compare-more =
    .a = It has ‹more› { $noun } than { $other }.
    .b = Compared with { $other }, there are ‹more› { $noun }.
compare-fewer =
    .a = It has ‹fewer› { $noun } than { $other }.
    .b = Compared with { $other }, there are ‹fewer› { $noun }.
compare-same =
    .a = It has ‹as many› { $noun } as { $other }.
    .b = In { $noun } it has ‹as many› as { $other }.
compare-alike =
    .a = So it is with { $other }: it { $value }, too.
    .b = And { $other } { $value }, too.
compare-unlike =
    .a = And { $other }? It { $value }.
    .b = By contrast, { $other } { $value }.
share-words =
    .one = one
rare =
    .a = Among all scales of this size, this holds for only { $share }.
    .b = That is rare. It holds for { $share } of the scales with as many tones.
    .c = Few scales can say so. It holds for { $share } among those of the same size.
common =
    .a = Among all scales of this size, this holds for { $share }.
    .b = It is in good company: this holds for { $share } among the scales with as many tones.
    .c = Quite a few scales are like this. It holds for { $share } among those of the same size.
rare-classes =
    .a = Among all kinds of scales of this size, this holds for only { $share }.
    .b = That is rare. It holds for { $share } of the kinds of scales with as many tones.
common-classes =
    .a = Among all kinds of scales of this size, this holds for { $share }.
    .b = It is in good company: this holds for { $share } among the kinds of scales with as many tones.
