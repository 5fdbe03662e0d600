whole-tone-steps =
    .title = Ganztonschritte
    .a = Sie hat { $count ->
        [one] ‹einen› Ganztonschritt
       *[other] { $value } Ganztonschritte
    }{ $places }.
    .b = Zwischen Nachbarn { $count ->
        [one] liegt
       *[other] liegen
    } { $count ->
        [one] ‹ein› Ganztonschritt
       *[other] { $value } Ganztonschritte
    }{ $places }.
    .define = Ein Ganztonschritt ist so weit wie zwei Halbtöne. Er geht, ohne zu ziehen.
    .noun = Ganztonschritte
    .terms = Ganztonschritt, Ganztonschritte
    .ask = Wie viele Ganztonschritte hat sie?
    .answer = Sie hat { $count ->
        [one] ‹einen› Ganztonschritt
       *[other] { $value } Ganztonschritte
    }.
