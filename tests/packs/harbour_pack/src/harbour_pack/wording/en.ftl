whole-tone-steps =
    .a = It has { $value } whole-tone { $count ->
        [one] step
       *[other] steps
    }{ $places }.
    .b = Between neighbours there { $count ->
        [one] is
       *[other] are
    } { $value } whole-tone { $count ->
        [one] step
       *[other] steps
    }{ $places }.
    .define = A whole-tone step is as wide as two semitones. It walks without pulling.
    .noun = whole-tone steps
    .ask = How many whole-tone steps does it have?
    .answer = It has { $value } whole-tone { $count ->
        [one] step
       *[other] steps
    }.
