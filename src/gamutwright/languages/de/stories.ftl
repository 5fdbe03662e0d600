### Die Worte der Geschichten: was eine Stunde fragt und wie sie antwortet. Die Lücken erklärt docs/stories.md.
### Ein Satz entfällt, wenn die Tonleiter für eine seiner Lücken nichts hat. Außerhalb der Lücken steht nichts, was zu
### beweisen wäre: keine Zahlen, Ordnungszahlen oder Tonnamen.

## Überschriften

chapter-music =
    .a = Zuerst Musik
    .b = Ehe jemand spricht
chapter-known =
    .a = Von etwas Bekanntem aus
    .b = Gleich nebenan
chapter-why =
    .a = Was das bewirkt
    .b = Was sich ändert
chapter-chords =
    .a = Akkorde mit ihrer Farbe
    .b = Zu Hause und unterwegs
chapter-family =
    .a = Wohin sie gehört
    .b = Ihre Familie
chapter-closer =
    .a = Genauer hingesehen
    .b = Ein Blick hinein
chapter-steps =
    .a = Wie sie gebaut ist
    .b = Schritt für Schritt
chapter-you =
    .a = Sie sind dran
    .b = Spielen Sie
chapter-ear =
    .a = Nur mit den Ohren
    .b = Noch einmal hören
chapter-answer =
    .a = Zurück zur Frage
    .b = Die Antwort
chapter-rest =
    .a = Für Neugierige
    .b = Was man noch wissen kann
word-higher =
    .a = ‹höher›
word-lower =
    .a = ‹tiefer›

## Ein Ton oder zwei neben dem Bekannten

one-ask =
    .a = { $changes ->
        [1] Fast jeden Ton dieser Melodie kennen Sie. Welcher ist der Fremde, und was richtet er an?
       *[other] Die meisten Töne dieser Melodie kennen Sie. Welche sind die Fremden, und was richten sie an?
    }
    .b = { $changes ->
        [1] Ein Ton dieser Melodie steht woanders, als man denkt. Haben Sie ihn gehört?
       *[other] Einige Töne dieser Melodie stehen woanders, als man denkt. Haben Sie sie gehört?
    }
one-beside =
    .a = Beginnen wir mit { $relative }.
    .b = Sie haben sicher schon { $relative } gespielt.
    .c = Nebenan wohnt { $relative }.
one-moves =
    .a = Die { $place } Stufe bewegt sich: Aus { $old } wird { $new }.
    .b = Nehmen wir die { $place } Stufe und { $way ->
        [down] senken
       *[up] heben
    } sie, von { $old } nach { $new }.
    .c = Nun { $way ->
        [down] erniedrigen
       *[up] erhöhen
    } wir { $old } zu { $new }.
one-moves-more =
    .a = Auch die { $place-2 } Stufe bewegt sich: Aus { $old-2 } wird { $new-2 }.
    .b = Dann die { $place-2 } Stufe: { $way-2 ->
        [down] Hinunter
       *[up] Hinauf
    } von { $old-2 } nach { $new-2 }.
    .c = Dann lassen wir aus { $old-2 } noch { $new-2 } werden.
one-is =
    .a = Sonst bleibt alles, wie es war. Das ist { $name }.
    .b = Die anderen Töne bleiben stehen, und wir sind in { $name }.
one-tune =
    .a = Nun dieselbe Melodie in neuer und alter Gestalt: voran { $name }, hinterher { $relative }.
    .b = Hören Sie eine Melodie in { $name }, und danach ihr Gegenstück in { $relative }.
why-pull =
    .a = { $new } ist unruhig. Der Schritt { $pull-step } ist ‹semitone_steps: ein Halbton, der kleinste auf der Tastatur | ein Halbton›, und er will gegangen sein.
    .b = Bleiben Sie einen Augenblick auf { $new }, und Sie hören, wohin der Ton zieht. { $pull-step }, das ist ‹semitone_steps: ein Halbton, der kleinste Schritt, den es gibt | ein Halbton›.
why-hear-pull =
    .a = So klingt es, wenn nachgegeben wird: { $pulls }.
    .b = Hören Sie, wohin es ihre unruhigen Töne zieht: { $pulls }.
why-from-above =
    .a = In Dur zieht es von unten nach Hause. Hier geht es von oben hinab nach { $root }.
    .b = Nach { $root } führt der Weg also treppab.
why-from-below =
    .a = Er liegt dicht unter dem Ziel und treibt die Melodie hinauf nach { $root }.
    .b = Wer { $new } hört, wartet auf { $root }.
why-into-chord =
    .a = Sein Ziel ist { $target }, ein Ton des Akkords, in dem sie zu Hause ist.
    .b = Gezogen wird nach { $target }, einem Ton des Akkords, in dem sie zu Hause ist.
why-lost =
    .a = In { $relative } zieht es mit dem kleinsten Schritt: { $lost }. { $new } hat losgelassen, und die Melodie darf schweben.
    .b = An dieser Stelle drängt es in { $relative }, { $lost }. Mit { $new } ist das vorbei, und die Melodie lässt sich Zeit.
why-gap-over =
    .a = Wer eine Stufe bewegt, verändert die Schritte ringsum. Von { $over-from } nach { $over-to } sind es nun { $over-steps } Halbtöne.
    .b = Den Preis zahlt der Schritt nach { $over-from }: Bis { $over-to } misst er { $over-steps } Halbtöne, und das hört man.
why-gap-under =
    .a = Wer eine Stufe bewegt, verändert die Schritte ringsum. Von { $under-from } nach { $under-to } sind es nun { $under-steps } Halbtöne.
    .b = Den Preis zahlt der Schritt vor { $under-to }: Von { $under-from } aus misst er { $under-steps } Halbtöne, und das hört man.
why-light =
    .a = Zusammengezählt liegen ihre Töne { $higher } über dem Grundton als die von { $relative }. { $light ->
        [brighter] Heller
       *[darker] Dunkler
    } nennen das Musiker.
    .b = Alle Töne gerechnet liegt sie { $higher } als { $relative }. Musiker nennen sie darum die { $light ->
        [brighter] hellere
       *[darker] dunklere
    }.
one-answer-asked =
    .a = { $changes ->
        [1] Wer war also der Fremde?
       *[other] Wer waren also die Fremden?
    }
    .b = { $changes ->
        [1] Welcher Ton macht nun den Unterschied?
       *[other] Welche Töne machen nun den Unterschied?
    }
one-answer =
    .a = { $new }, die { $degree } Stufe von { $name }.
    .b = Die { $degree } Stufe, { $new }. Mit { $old } an ihrer Stelle sind wir wieder in { $relative }.
    .c = { $new }, wo { $relative } { $old } hat.
one-answer-more =
    .a = { $new } und { $new-2 }, die { $degree } und die { $degree-2 } Stufe von { $name }.
    .b = Die { $degree } Stufe, { $new }, und die { $degree-2 }, { $new-2 }: Mit den alten Tönen wären wir in { $relative }.
    .c = { $new } und { $new-2 }, wo { $relative } { $olds } hat.
one-answer-home =
    .a = Er wohnt gleich neben { $root }, und die ganze Melodie weiß es.
    .b = Verweilen Sie auf { $new }, und Sie spüren, wie nah { $root } ist.
one-answer-free =
    .a = Er lässt los, und die Melodie atmet auf.
    .b = Wo { $old } drängt, lässt { $new } los.
one-answer-chord =
    .a = { $new } lehnt sich an { $target }, und { $home } fängt an zu leuchten.
    .b = Spielen Sie { $new } vor { $target }, und Sie sind da.

## Akkorde

chords-home =
    .a = Zu Hause klingt { $home }.
    .b = Eine Melodie in { $name } kommt in { $home } zur Ruhe.
chords-colour =
    .a = Ihre Farbe als Akkord, das ist { $chord }.
    .b = { $chord } trägt ihre Farbe.
chords-was =
    .a = An dieser Stelle steht in { $relative } { $chord-was }.
    .b = Zum Vergleich { $relative }: Dort wäre es { $chord-was }.
chords-vamp =
    .a = Pendeln Sie von { $home } nach { $chord } und zurück, und sie ist unverkennbar.
    .b = { $home }, { $chord }, { $home }: die Tonleiter in einer Handvoll Töne.
chords-tune =
    .a = Mit diesen Akkorden darunter steht die Melodie in ihrem eigenen Licht.
    .b = Legen wir die Melodie über { $home } und { $chord }.

## Ihre Familie

family-mode =
    .a = Es sind die Töne von { $parent }, zu Hause auf { $root }: der { $mode } Modus.
    .b = Beginnen Sie { $parent } auf { $root }, und was Sie hören, ist der { $mode } Modus.

## Die Lernenden spielen

you-call =
    .a = Ich spiele, und in der Stille antworten Sie. Unterwegs berühren Sie { $new }, und am Ende steht { $root }.
    .b = Nehmen Sie Ihr Instrument. Wo ich aufhöre, gehen Sie weiter: über { $new } nach Hause, nach { $root }.
you-call-plain =
    .a = Ich spiele, und in der Stille antworten Sie. Beginnen Sie, wo Sie mögen, und enden Sie auf { $root }.
    .b = Nehmen Sie Ihr Instrument. Wo ich aufhöre, gehen Sie weiter, und am Ende steht { $root }.
you-pattern =
    .a = Damit { $name } in die Hand kommt: in Dreiergruppen, ganz langsam.
    .b = Eine Übung für daheim: { $name } in Dreiergruppen, hinauf und hinunter.
ear-listen =
    .a = Die Bilder beiseite. Eine neue Melodie kommt, und sie kommt wieder.
    .b = Augen zu. Noch eine Melodie, und dann wieder.
ear-ask =
    .a = Stand { $new } vor der Pause oder danach?
    .b = Wo war { $new } zu hören: vor der Pause oder danach?
ear-answer =
    .a = Davor. Nach der Pause war { $old } zurück.
    .b = Vor der Pause. Danach stand wieder { $old } an der Stelle.

## Alte Töne, anderes Zuhause

home-ask =
    .a = Jeder Ton dieser Melodie gehört auch zu { $parent }. Warum klingt sie trotzdem neu?
    .b = Diese Melodie ließe sich auf den Tönen von { $parent } spielen. Warum ist sie anderswo zu Hause?
home-parent =
    .a = Das ist { $parent }, mit { $parent-root } als Ruhepunkt.
    .b = Denken Sie an { $parent } und an { $parent-root }, wo es zu Hause ist.
home-moves =
    .a = Alle Töne bleiben, nur das Zuhause zieht um, nach { $root }. Das ist { $name }, der { $mode } Modus von { $parent }.
    .b = Nichts ändert sich als der Ton, auf dem Sie ruhen. Mit { $root } als Zuhause ist es { $name }, der { $mode } Modus von { $parent }.
home-drone =
    .a = Lassen wir { $root } liegen, und jeder Ton bekommt ein neues Gewicht.
    .b = Nun klingt { $root } durch, und alte Töne werden neu.
home-steps =
    .a = Von { $root } aus kommen die Schritte in anderer Folge: { $steps }, in Halbtönen gezählt.
    .b = Steigen Sie von { $root } aus hinauf, so sind die Schritte, in Halbtönen: { $steps }.
home-beside =
    .a = Was fällt von hier aus auf? Neben { $relative } auf demselben Grundton { $colours-count ->
        [1] ist es
       *[other] sind es
    } { $colours }.
    .b = Stellen wir auf demselben Grundton { $relative } daneben. Den Unterschied { $colours-count ->
        [1] macht
       *[other] machen
    } { $colours }.
home-answer-asked =
    .a = Warum also klingt { $name } neu?
    .b = Warum haben die alten Töne also neu geklungen?
home-answer =
    .a = Weil wir jeden Ton von zu Hause aus messen. Mit { $root } als Zuhause { $colours-count ->
        [1] fällt
       *[other] fallen
    } uns { $colours } auf.
    .b = Das Zuhause ist nach { $root } gezogen, und von dort aus { $colours-count ->
        [1] sticht
       *[other] stechen
    } { $colours } heraus.

## Was fehlt

less-ask =
    .a = Diese Melodie lässt etwas weg. Was gewinnen wir dadurch?
    .b = Dieser Melodie fehlt etwas, und niemand vermisst es. Warum?
less-beside =
    .a = Das ist { $relative } mit allen Stufen.
    .b = Beginnen wir mit { $relative }.
less-take =
    .a = Nehmen wir { $olds } heraus. Was bleibt, sind { $tones }.
    .b = Lassen wir { $olds } weg. Wir behalten { $tones }.
both-heard =
    .a = Hören Sie nacheinander { $name } und { $relative }.
    .b = Zum Vergleich: { $name }, und danach { $relative }.
less-is =
    .a = Das ist { $name }.
    .b = So entsteht { $name }.
less-narrow-gone =
    .a = Mit ihnen verschwindet die Enge. Sie hat { $narrow } ‹semitone_steps: Halbtöne, die kleinsten Schritte der Tastatur | Halbtöne›.
    .b = Sie hat { $narrow } ‹semitone_steps: Halbtöne, die kleinsten Schritte der Tastatur | Halbtöne›. Die engen Stellen von { $relative } sind mit verschwunden.
less-narrow-left =
    .a = Von den engen Stellen bleiben { $narrow }, und sie wiegen nun mehr: { $narrow-places }.
    .b = Umso deutlicher treten ihre ‹semitone_steps: Halbtöne, die kleinsten Schritte, | Halbtöne› hervor: { $narrow-places }.
less-tritone-gone =
    .a = Sie hat { $tritones } ‹tritones: Tritoni, die die Oktave in der Mitte spalten | Tritoni›, ihre Töne vertragen sich also.
    .b = Auch { $tritones } ‹tritones: Tritoni, die die Oktave in der Mitte teilen, | Tritoni› sind darin.
less-steps =
    .a = Dafür gibt es weite Schritte. In Halbtönen: { $steps }.
    .b = Die Lücken geben ihr den Gang: { $steps }, in Halbtönen gezählt.
less-free =
    .a = Darum dürfen Sie auf jedem ihrer Töne landen, und es klingt gewollt.
    .b = Deshalb können Kinder und Anfänger sofort damit improvisieren.
less-answer-asked =
    .a = Was gewinnen wir also?
    .b = Warum vermisst nun niemand etwas?
less-answer-free =
    .a = Freiheit. Sind { $olds } aus dem Weg, passt jeder Ton zu jedem.
    .b = Wir verlieren { $olds } und damit alles, was drängt.
less-answer =
    .a = Sind { $olds } fort, bekommt die Melodie Raum, und was bleibt, bekommt Gewicht.
    .b = Wir verlieren { $olds }, und jeder Ton, der bleibt, ist deutlicher zu hören.

## Was dazukommt

more-ask =
    .a = { $changes ->
        [1] Diese Melodie hat einen Gast. Wer ist es, und wozu ist er da?
       *[other] Diese Melodie hat Gäste. Wer sind sie, und wozu sind sie da?
    }
    .b = { $changes ->
        [1] Diese Melodie hat einen Ton zu viel, und er ist der beste von allen. Welcher?
       *[other] Diese Melodie hat Töne zu viel, und sie lebt davon. Welche?
    }
more-beside =
    .a = Das ist { $relative }, das Haus, bevor der Gast kommt.
    .b = Beginnen wir mit { $relative }.
more-comes =
    .a = Nun tritt { $new } ein, zwischen { $below } und { $above }.
    .b = In die Lücke von { $below } nach { $above } stellt sich { $new }.
more-comes-too =
    .a = Und { $new-2 }, zwischen { $below-2 } und { $above-2 }.
    .b = Ein weiterer, { $new-2 }, lässt sich zwischen { $below-2 } und { $above-2 } nieder.
more-is =
    .a = Zusammen ist das { $name }.
    .b = So wird aus { $relative } nun { $name }.
more-narrow =
    .a = Ringsum ist es eng: { $in-narrow } ist ‹semitone_steps: ein Halbton, der kleinste Schritt | ein Halbton›, { $out-narrow } auch.
    .b = Man gleitet in ‹semitone_steps: Halbtönen, den kleinsten Schritten, | Halbtönen› hindurch, { $in-narrow } und weiter, { $out-narrow }.
more-pass =
    .a = Dort ruht niemand. Man geht durch { $new } hindurch, und darauf kommt es an.
    .b = Versuchen Sie, auf { $new } stehen zu bleiben: Es will weiter.
more-answer-asked =
    .a = { $changes ->
        [1] Wer ist also der Gast?
       *[other] Wer sind also die Gäste?
    }
    .b = { $changes ->
        [1] Und welcher Ton war es?
       *[other] Und welche Töne waren es?
    }
more-answer =
    .a = { $colours } über { $relative }: eine Würze, im Vorbeigehen zu nehmen.
    .b = { $colours }. Lassen Sie das weg, und es bleibt { $relative }.

## Alles gleich

alike-ask =
    .a = Wo ist diese Melodie zu Hause? Wer danach sucht, sucht lange.
    .b = Diese Musik schwebt und landet nie. Warum kommt sie nicht nach Hause?
alike-steps =
    .a = Zählen Sie ihre Schritte in Halbtönen: { $steps }.
    .b = Hier sind ihre Schritte, in Halbtönen: { $steps }.
alike-equal =
    .a = Jeder Schritt ist wie jeder andere, also schweigen die Schritte darüber, wo wir sind.
    .b = Wo alle Schritte gleich groß sind, sieht jeder Ton über und unter sich dasselbe.
alike-round =
    .a = Ein kurzes Muster läuft rundherum, und jede Runde sieht aus wie die vorige.
    .b = Die Schritte wiederholen sich, lange bevor die Oktave voll ist.
alike-shifts =
    .a = ‹transposition_count: Verschieben wir die ganze Tonleiter, so fällt sie bald auf ihre eigenen Töne, und nur mit neuen Tönen zählt es als Transposition | Verschieben wir die ganze Tonleiter, so fällt sie bald auf ihre eigenen Töne›. Es gibt nur { $shifts } verschiedene Transpositionen.
    .b = Deshalb hat sie nur { $shifts } Transpositionen: ‹transposition_count: Schiebt man sie weiter, so trifft sie ihre eigenen Töne | Schiebt man sie weiter, trifft sie sich selbst›.
alike-modes =
    .a = Beginnen Sie auf einem anderen Ton, und hören Sie, ob es auffällt. Und verschiedene Modi? { $modes }.
    .b = Wie viele Modi das sind? { $modes }. Hören Sie.
alike-drone =
    .a = Ein liegender Ton gibt ihr Boden. Hier steht sie auf { $root }.
    .b = Halten Sie { $root } darunter, und solange er klingt, gibt es ein Zuhause.
alike-chords =
    .a = Sogar ihre Akkorde kommen in Sätzen. Dur: { $major-places }.
    .b = Ihre Durakkorde liegen gleichmäßig verteilt: { $major-places }.
alike-answer-asked =
    .a = Wo also ist sie zu Hause?
    .b = Warum also landet sie nie?
alike-answer =
    .a = Da, wo Sie sie hinstellen. Mit { $shifts } Transpositionen im Ganzen überlässt die Tonleiter Ihnen die Wahl.
    .b = Weil sie von vielen Seiten gleich aussieht. Sie hat nur { $shifts } Transpositionen. Ein Platz fürs Zuhause ist nicht vorgesehen.
alike-answer-plain =
    .a = Da, wo Sie sie hinstellen. Folgen Sie den Schritten, { $steps }, und jeder Platz ist so gut wie der nächste.
    .b = Weil sie von vielen Seiten gleich aussieht: { $steps }. Ein Platz fürs Zuhause ist nicht vorgesehen.

## Zwei in einer

halves-ask =
    .a = In dieser Tonleiter steckt etwas Kleines, und es kehrt wieder. Hören Sie es?
    .b = Diese Tonleiter besteht aus Teilen, die Sie kennen. Aus welchen?
halves-triads =
    .a = Nehmen Sie { $half-1 }. Nehmen Sie { $half-2 }. Nichts daran ist dasselbe, und zusammen sind sie die ganze Tonleiter.
    .b = Was { $half-1 } von ihren Tönen übrig lässt, ist { $half-2 }.
halves-triads-hear =
    .a = Hören Sie ihre Akkorde vom tiefsten Grundton an, und achten Sie auf { $half-1 } und { $half-2 }.
    .b = Ihre Akkorde der Reihe nach: { $half-1 } und { $half-2 } sind dabei.
halves-lower =
    .a = Singen Sie von { $root } bis { $lower-top }: Das ist ein { $lower }.
    .b = Der untere Teil, { $root } bis { $lower-top }, ist ein { $lower }.
halves-upper =
    .a = Nun weiter von { $upper-root } bis zur Oktave: ein { $upper }. Die Gestalt kennen Sie schon.
    .b = Der obere Teil beginnt auf { $upper-root }, und wieder ist es ein { $upper }.
halves-fold =
    .a = Wer den unteren Teil spielen kann, kann auch den oberen, nur von einer anderen Taste aus.
    .b = Lernen Sie eine Handvoll davon, rücken Sie damit hinauf nach { $upper-root }, und Sie haben alles.
halves-answer-asked =
    .a = Was also steckt in ihr?
    .b = Und aus welchen Teilen besteht sie?
halves-answer-triads =
    .a = { $half-1 } und { $half-2 }, nebeneinander, und alles ist verteilt.
    .b = Nur { $half-1 } und { $half-2 }. Alles andere ist, wie man sie mischt.
halves-answer =
    .a = Unten ein { $lower }, oben ein { $upper }: dieselbe Hand an anderem Ort.
    .b = Dieselbe Gestalt von { $root } aus und wieder von { $upper-root } aus.

## Die Regel

rule-ask =
    .a = Könnten Sie diese Tonleiter am Telefon erklären, in einem Atemzug?
    .b = Diese Tonleiter folgt einer Regel, so kurz, dass man sie nie vergisst. Welcher?
rule-turns =
    .a = Ihre Schritte wechseln sich ab: { $first-step } hinauf, { $last-step } hinauf, und wieder von vorn.
    .b = Gehen Sie { $first-step } hinauf, dann { $last-step }, und immer so weiter, bis Sie zu Hause sind.
rule-chain =
    .a = Beginnen Sie mit einem Ton und gehen Sie immer { $link } Halbtöne weiter: { $chain }.
    .b = In Sprüngen von { $link } Halbtönen berühren Sie { $chain }.
rule-sorted =
    .a = In eine Oktave gelegt und geordnet, ist das { $name }.
    .b = Nun der Höhe nach geordnet, innerhalb einer Oktave: { $name }.
rule-even =
    .a = Alle Schritte sind gleich, jeder misst { $first-step } Halbtöne. Das ist die ganze Regel.
    .b = Hinauf um { $first-step } Halbtöne und noch einmal ebenso, bis sich die Oktave schließt.
rule-steps =
    .a = Heraus kommen diese Schritte: { $steps }, in Halbtönen.
    .b = Sehen Sie die Schritte, die daraus werden: { $steps }.
rule-mirror =
    .a = Rückwärts gelesen ändert sich an ihnen nichts: Hinauf und hinunter sind gleich.
    .b = Rückwärts sind sie dieselben. Ob Sie steigen oder fallen, das Muster bleibt.
rule-answer-asked =
    .a = Was sagen Sie also am Telefon?
    .b = Und die Regel?
rule-answer-turns =
    .a = { $first-step } und { $last-step }, immer abwechselnd, von { $root } aus.
    .b = Von { $root } aus { $first-step }, dann { $last-step }, dann von vorn.
rule-answer-chain =
    .a = Von einem Ton aus immer { $link } Halbtöne weiter, bis Sie { $size-words } Töne haben.
    .b = { $size-words } Töne, eine Kette aus Sprüngen von { $link } Halbtönen.
rule-answer-even =
    .a = Von { $root } aus immer { $first-step } Halbtöne weiter.
    .b = Nehmen Sie { $root }, zählen Sie { $first-step } Halbtöne weiter, und so fort.

## Spannung

bite-ask =
    .a = An dieser Melodie ist etwas bissig. Was ist es, und wie lässt es los?
    .b = Warum sitzt diese Melodie niemals still?
bite-steps =
    .a = Zählen Sie ihre Schritte in Halbtönen: { $steps }.
    .b = Folgen Sie den Schritten, in Halbtönen: { $steps }.
bite-narrow =
    .a = Was beißt, sind die ‹semitone_steps: Halbtöne, die kleinsten Schritte der Tastatur, | Halbtöne,› und es sind { $narrow }: { $narrow-places }.
    .b = In eine Oktave packt sie { $narrow } ‹semitone_steps: Halbtöne, die kleinsten Schritte | Halbtöne›: { $narrow-places }.
bite-runs =
    .a = ‹semitone_runs: Halbtöne folgen einander sogar unmittelbar | Halbtöne stehen sogar in Reihen›. Solche Stellen: { $runs }.
    .b = ‹semitone_runs: Wo Halbtöne in einer Reihe stehen, drängen sich die Töne | Auch Reihen von Halbtönen hat sie›. Solche Stellen: { $runs }.
bite-tritones =
    .a = Dazu kommen ‹tritones: Tritoni, die die Oktave in der Mitte teilen | Tritoni›: { $tritone-places }.
    .b = Ihre ‹tritones: Tritoni, die die Oktave in der Mitte teilen, | Tritoni› tun das Übrige: { $tritone-places }.
bite-resolve =
    .a = Jeder Biss will gelöst sein. Hören Sie, wie es nachgibt: { $pulls }.
    .b = Nun finden dieselben Töne ihre Ruhe: { $pulls }.
bite-beside =
    .a = Neben { $relative } auf demselben Grundton { $colours-count ->
        [1] ist neu
       *[other] sind neu
    }: { $colours }.
    .b = Zum Vergleich { $relative }. Was dort fehlt: { $colours }.
bite-answer-asked =
    .a = Was also beißt?
    .b = Was also hält die Melodie in Bewegung?
bite-answer =
    .a = { $narrow } Halbtöne, und mit jedem der Wunsch weiterzugehen.
    .b = Ihre Halbtöne, alle { $narrow }. Jeder ist eine kleine Frage, und der nächste Ton antwortet.

## Ein Name von anderswo

far-ask =
    .a = Diese Reihe von Tönen trägt einen Namen, der nicht von der Tastatur kommt. Was lassen die bloßen Töne weg?
    .b = Weit weg von hier kennt man diese Töne mit Namen. Was würde man an ihnen vermissen?
far-name =
    .a = Der Name ist { $first-name }, so geben ihn die Quellen.
    .b = In den Quellen heißt sie { $first-name }.
far-tones =
    .a = Als bloße Töne sind es { $tones }.
    .b = Für unsere Tastatur geschrieben, sind ihre Töne { $tones }.
far-steps =
    .a = Ihre Schritte in Halbtönen: { $steps }.
    .b = Steigen Sie hinauf, so sind die Schritte, in Halbtönen: { $steps }.
far-caution =
    .a = Doch ein solcher Name meint mehr als Töne. Er sagt, welcher Ton gehalten wird, wie man zu ihm kommt, wie er gestimmt ist und wann man ihn singt. In einer Liste von Tönen steht davon nichts.
    .b = Wer sie dort spielt, lernt mehr: wo man verweilt, wie man in einen Ton hineingleitet, wie hoch er wirklich ist. Eine Tastatur zeigt nichts davon.
far-beside =
    .a = Für Ohren von hier liegt { $relative } am nächsten. Was davon abweicht: { $colours }.
    .b = Neben { $relative } auf demselben Grundton { $colours-count ->
        [1] fällt
       *[other] fallen
    } { $colours } auf.
far-answer-asked =
    .a = Was also lassen die bloßen Töne weg?
    .b = Was also fehlt?
far-answer =
    .a = Beinahe alles, was { $first-name } zu Musik macht. Nehmen Sie die Töne als Tür, und hören Sie denen zu, die damit groß geworden sind.
    .b = Das Spielen. Die Töne von { $first-name } sind ein Anfang, das Übrige lernt man beim Zuhören, von Menschen, die darin leben.

## Für jede Tonleiter

walk-ask =
    .a = Woraus besteht diese Tonleiter?
    .b = Was lässt sich mit diesen Tönen anfangen?
walk-hear =
    .a = Hören Sie, wie { $name } steigt und fällt.
    .b = Das ist { $name }, hinauf und hinunter.
walk-hear-unnamed =
    .a = Hören Sie, wie sie steigt und fällt.
    .b = Das ist sie, hinauf und hinunter.
walk-steps =
    .a = Vom Grundton aus steigt sie in Schritten von { $steps }.
    .b = Ihre Schritte vom Grundton an: { $steps }.
walk-answer =
    .a = Daraus besteht sie. Machen Sie etwas daraus.
    .b = Das Übrige liegt bei Ihnen und Ihrem Instrument.
walk-tune =
    .a = Genug geredet: eine Melodie.
    .b = Und nun eine Melodie aus nichts als diesen Tönen.

## Mehr zum Üben

chapter-hidden =
    .a = Was in ihr steckt
    .b = Auseinandergenommen
chapter-practice =
    .a = In die Finger
    .b = Zum Üben
practice-skips =
    .a = Steigen Sie in { $name } hinauf, überspringen Sie jeden nächsten Ton, und holen Sie ihn nach.
    .b = Ein Sprung hinauf, ein Schritt zurück: { $name } mit Lücken.
practice-waltz =
    .a = Hier tanzt sie. { $home } und { $chord } halten den Takt eines Walzers.
    .b = Lassen Sie { $home } und { $chord } schaukeln, und { $name } wird zum Walzer.
practice-waltz-plain =
    .a = Hier tanzt sie, über einem liegenden { $root }.
    .b = Ein Walzer in { $name }, mit { $root } als Boden.
practice-clap =
    .a = Klatschen Sie ihre Schritte, { $steps }, als Längen. Daraus wird ein Rhythmus.
    .b = Weite Schritte sind lang, enge sind kurz: { $steps }.
practice-long =
    .a = Eine längere Melodie. Das letzte { $root } singen Sie mit.
    .b = Folgen Sie einer längeren Melodie in den Noten, bis zum { $root } am Ende.
practice-broken =
    .a = Zerlegen wir die Akkorde von { $name } in einzelne Töne.
    .b = Ihre Akkorde, Ton für Ton. { $root } fängt an.
practice-again =
    .a = Noch eine Runde Frage und Antwort, mit { $root } am Schluss.
    .b = Antworten Sie mir wieder, und bleiben Sie auf { $root } stehen.
practice-along =
    .a = Jetzt gehört die Bühne Ihnen. Ich halte die Akkorde von { $name }, bis Sie fertig sind.
    .b = Nehmen Sie sich Zeit für sich. Die Band spielt { $name }, Sie führen.
practice-sing =
    .a = Singen Sie sie Ton für Ton über einem liegenden { $root }. Welche Töne reiben sich, welche ruhen?
    .b = Halten Sie { $root } mit mir aus, und singen Sie { $name } darüber.
practice-jig =
    .a = Dieselben Töne können hüpfen. Hier tun sie es und landen auf { $root }.
    .b = Schneller jetzt, in schwingendem Takt: { $name } ist auf den Beinen.
practice-fours =
    .a = Längere Läufe, für Finger, die { $name } inzwischen kennen.
    .b = Eine letzte Übung: { $name } in längeren Läufen, hinauf und hinunter.

## Das Porträt

chapter-walk =
    .a = Zu Fuß hinauf
    .b = Stufe für Stufe
chapter-colour =
    .a = Ihre Farbe
    .b = Woran man sie erkennt
chapter-holds =
    .a = Was in ihr steckt
    .b = In ihrem Inneren
chapter-shape =
    .a = Ihre Gestalt
    .b = Wie sie im Gleichgewicht steht
chapter-rely =
    .a = Wie weit das Ohr ihr trauen kann
    .b = Findet sich das Ohr zurecht?
chapter-written =
    .a = Wie man sie in der Theorie schreibt
    .b = Auf dem Papier
portrait-ask =
    .a = Was gibt es über { $name } zu wissen? Nehmen Sie sich Zeit: Hier ist alles.
    .b = Sie haben eine Melodie in { $name } gehört. Nun sehen wir uns an, was alles darin steckt.
portrait-walk =
    .a = Eine Tonleiter ist eine Treppe. Gehen Sie { $name } hinauf und hinunter, ehe Sie etwas zählen.
    .b = Steigen Sie { $name } mit den Ohren hinauf, und zählen Sie danach.
portrait-colour =
    .a = Farbe ist das, was vom Bekannten abweicht.
    .b = Das Neue hört man am Alten.
portrait-holds =
    .a = Zwischen ihren Tönen warten Intervalle und Akkorde. Hören Sie der Reihe nach die Akkorde von { $name }.
    .b = Öffnen wir { $name } und sehen nach, was ihre Töne miteinander ergeben.
portrait-family =
    .a = Beginnen Sie { $name } auf einem anderen Ton, und eine andere Tonleiter steht da.
    .b = Die Töne von { $name } sind auch anderswo zu Hause. Hören Sie hin.
portrait-shape =
    .a = Biegt man die Treppe zum Ring, so hat { $name } eine Gestalt. Sogar einen Rhythmus geben ihre Schritte.
    .b = Klatschen Sie { $name }: Die Gestalt steckt in den Schlägen.
portrait-rely =
    .a = Wenn Sie ein paar Töne von { $name } hören, wissen Sie dann, wo Sie sind? Halten Sie { $root }, und probieren Sie es.
    .b = Das Ohr findet seinen Weg an der Größe der Intervalle. Wie sicher ist es in { $name }, mit { $root } darunter?
portrait-written =
    .a = Um { $name } in einem Buch zu finden, brauchen Sie ihre anderen Namen.
    .b = Auf dem Papier verliert { $name } den Klang und gewinnt eine Adresse.
portrait-answer =
    .a = Das ist { $name }, im Ganzen. Auf der Seite neben dieser Stunde steht jede Zahl.
    .b = Nun kennen Sie { $name }, wie es wenige tun. Lesen Sie auf der Seite weiter.
portrait-tune =
    .a = Und nun vergessen Sie die Zahlen: eine Melodie.
    .b = Zum Schluss eine Melodie, für die ganze Mühe.
