### Was die Fakten dieses Pakets auf Deutsch sagen, eine Nachricht je Fakt; die Attribute erklärt phrasing/messages.py.
### Außerhalb von ‹ › steht nichts, was zu beweisen wäre: keine Zahlen, Ordnungszahlen oder Notennamen.

## Töne und Schritte

pitch-classes =
    .title = Tonhöhenklassen
    .a = Als Tonhöhenklassen lautet die Tonleiter { $value }.
    .b = In Zahlen geschrieben sind ihre Tonhöhenklassen { $value }.
    .c = Vom Grundton aufwärts heißen die Tonhöhenklassen { $value }.
    .long = Ihre Tonhöhenklassen beginnen mit { $first }, { $second } und { $third }, und die letzte ist { $last }.
    .define = Eine Tonhöhenklasse ist ein Ton ohne seine Oktavlage: Alle Tasten gleichen Namens zählen als dieselbe. Wir zählen sie in den kleinsten Schritten der Klaviatur aufwärts.
    .define-other = Eine Tonhöhenklasse ist ein Ton ohne seine Oktavlage: Alle Töne im Abstand ganzer Oktaven zählen als derselbe. Wir zählen sie in den kleinsten Schritten der Teilung aufwärts.
    .ask = Welche Tonhöhenklassen hat die Tonleiter?
    .answer = Es sind { $value }.
    .terms = Tonhöhenklasse, Tonhöhenklassen

cardinality =
    .title = Anzahl der Töne
    .a = Sie hat { $count ->
        [one] ‹einen› Ton
       *[other] { $value } Töne
    }{ $places }.
    .b = Die Tonleiter besteht aus { $count ->
        [0] ‹null› Tönen
        [one] ‹einem› Ton
       *[other] { $value } Tönen
    }.
    .c = Zählen wir mit: Bis die Oktave wiederkehrt, { $count ->
        [one] ist es ‹ein› Ton
       *[other] sind es { $value } Töne
    }.
    .define = Wir zählen die Töne vom Grundton bis zum letzten Ton unter der Oktave. Die Oktave selbst ist wieder der Grundton und zählt nicht mit.
    .noun = Töne
    .ask = Wie viele Töne hat die Tonleiter?
    .answer = Sie hat { $count ->
        [one] ‹einen› Ton
       *[other] { $value } Töne
    }.
    .terms = Tonanzahl

step-pattern =
    .title = Schrittmuster
    .a = Ihre Schritte, gezählt in { $divisions ->
        [12] Halbtönen
       *[other] Schritten der Teilung
    }, sind { $value }.
    .b = Steigen wir hinauf, so messen die Schritte { $value }.
    .c = Vom Grundton bis zur Oktave lautet das Schrittmuster { $value }.
    .long = Ihr Schrittmuster beginnt mit { $first }, { $second } und { $third }, und es schließt mit { $last }.
    .define = Das Schrittmuster sagt, wie weit es von jedem Ton zum nächsten ist, bis hinauf zur Oktave. Es ist die Gestalt der Tonleiter: Wer es kennt, kann sie auf jedem Grundton bauen.
    .ask = Wie lautet das Schrittmuster der Tonleiter?
    .answer = Ihre Schritte sind { $value }.
    .terms = Schrittmuster

cardinality-word =
    .title = Wort für die Größe
    .a = Das Wort für eine Tonleiter dieser Größe ist { $value }.
    .b = Eine Tonleiter mit so vielen Tönen nennt man { $value }.
    .c = Ihrer Größe nach ist die Tonleiter { $value }.
    .define = Tonleitern haben nach der Zahl ihrer Töne einen Familiennamen; er kommt aus dem Griechischen.
    .word-monotonic = monotonisch
    .word-ditonic = ditonisch
    .word-tritonic = tritonisch
    .word-tetratonic = tetratonisch
    .word-pentatonic = pentatonisch
    .word-hexatonic = hexatonisch
    .word-heptatonic = heptatonisch
    .word-octatonic = oktatonisch
    .word-enneatonic = enneatonisch
    .word-decatonic = dekatonisch
    .word-hendecatonic = hendekatonisch
    .word-dodecatonic = dodekatonisch
    .ask = Wie nennt man eine Tonleiter mit so vielen Tönen?
    .answer = Man nennt sie { $value }.
    .terms = monotonisch, ditonisch, tetratonisch, pentatonisch, hexatonisch, heptatonisch, oktatonisch, enneatonisch, dekatonisch, hendekatonisch, dodekatonisch

semitone-steps =
    .title = Halbtonschritte
    .a = Sie hat { $count ->
        [one] ‹einen› Halbtonschritt
       *[other] { $value } Halbtonschritte
    }{ $places }.
    .b = { $count ->
        [0] ‹Keiner› ihrer Schritte ist ein Halbton.
        [one] ‹Einer› ihrer Schritte ist ein Halbton{ $places }.
       *[other] { $value } ihrer Schritte sind Halbtöne{ $places }.
    }
    .c = Lauschen wir den engen Schritten. Zwischen Nachbarn gibt es { $count ->
        [one] ‹einen› Halbton
       *[other] { $value } Halbtöne
    }{ $places }.
    .define = Ein Halbtonschritt ist der kleinste Schritt auf der Klaviatur, von einer Taste zur allernächsten. Er zieht: Das Ohr erwartet, dass der untere Ton steigt oder der obere fällt.
    .noun = Halbtonschritte
    .ask = Wie viele Halbtonschritte hat sie?
    .answer = Sie hat { $count ->
        [one] ‹einen› Halbtonschritt
       *[other] { $value } Halbtonschritte
    }.
    .terms = Halbton, Halbtöne, Halbtönen, Halbtonschritt, Halbtonschritte

semitone-runs =
    .title = Halbtonschritte in Folge
    .a = { $count ->
        [0] Ihre Halbtonschritte folgen nie unmittelbar aufeinander: Es gibt ‹keine› solche Stelle.
        [one] An ‹einer› Stelle folgen Halbtonschritte unmittelbar aufeinander{ $places }.
       *[other] An { $value } Stellen folgen Halbtonschritte unmittelbar aufeinander{ $places }.
    }
    .b = Es gibt { $count ->
        [one] ‹eine› Stelle
       *[other] { $value } Stellen
    }, wo Halbton auf Halbton folgt{ $places }.
    .define = Wo auf einen Halbtonschritt gleich noch ein Halbtonschritt folgt, kriecht die Linie. Wir suchen die Stellen, an denen das geschieht.
    .noun = Stellen mit Halbtönen in Folge
    .ask = An wie vielen Stellen folgen Halbtonschritte aufeinander?
    .answer = Es gibt { $count ->
        [one] ‹eine› solche Stelle
       *[other] { $value } solche Stellen
    }.
    .terms = Halbtöne in Folge, aufeinanderfolgende Halbtöne

hemitonic-word =
    .title = Hemitonisch oder anhemitonisch
    .a = Die Tonleiter ist { $value }.
    .b = { $word ->
        [anhemitonic] Ohne Halbtonschritte klingt sie ruhig und offen: Sie ist { $value }.
       *[other] Sie hat Halbtonschritte, deshalb ist sie { $value }.
    }
    .define = Eine Tonleiter mit Halbtonschritten heißt hemitonisch, eine ohne sie anhemitonisch.
    .word-anhemitonic = anhemitonisch
    .word-hemitonic = hemitonisch
    .ask = Ist die Tonleiter hemitonisch oder anhemitonisch?
    .answer = Sie ist { $value }.
    .terms = hemitonisch, anhemitonisch

complement =
    .title = Komplement
    .a = { $named ->
        [yes] Die Töne, die sie auslässt, sind { $names }.
       *[no] Ihr Komplement hat die Tonhöhenklassen { $value }.
    }
    .b = Ihr Komplement lautet in Tonhöhenklassen { $value }.
    .none = Sie lässt ‹keinen› Ton aus.
    .long = Sie lässt viele Töne aus: Das Komplement beginnt mit den Tonhöhenklassen { $first }, { $second } und { $third }.
    .define = Das Komplement ist alles, was die Tonleiter auslässt. Spielen wir die Tasten, die wir nicht berührt haben, so hören wir es.
    .define-other = Das Komplement ist alles, was die Tonleiter auslässt. Spielen wir die Töne der Teilung, die wir nicht berührt haben, so hören wir es.
    .ask = Welche Töne lässt die Tonleiter aus?
    .answer = Ihr Komplement hat die Tonhöhenklassen { $value }.
    .terms = Komplement

place-values =
    .title = Werte der Binärstellen
    .a = Binär geschrieben stehen ihre Töne auf den Stellen mit dem Wert { $value }; von Stelle zu Stelle verdoppelt sich der Wert.
    .b = Vom Grundton aufwärts verdoppelt sich mit jedem Schritt der Wert der Stelle, und Töne stehen bei { $value }.
    .long = Binär geschrieben verdoppelt sich vom Grundton aufwärts mit jedem Schritt der Wert der Stelle. Das Bild zeigt, welche Stellen besetzt sind.
    .define = Im Binären verdoppelt sich der Wert von jeder Stelle zur nächsten. Ein Ton besetzt seine Stelle, eine Lücke lässt sie leer; so sind Tonleitern genau dann gleich, wenn alle Stellen gleich sind.
    .terms = Binärstelle, Binärstellen, Zweierpotenzen
    .ask = Welchen Wert haben die Binärstellen ihrer Töne?
    .answer = Sie haben den Wert { $value }.

bit-string =
    .title = Bitfolge
    .a = Als Reihe von Einsen und Nullen lautet sie { $value }.
    .b = Gehen wir Schritt für Schritt durch die Oktave und zeichnen jeden Ton an, der dazugehört: { $value }.
    .long = Schritt für Schritt durch die Oktave notiert, gibt die Tonleiter eine lange Reihe von Zeichen. Das Bild zeigt sie besser als Worte.
    .define = Die Bitfolge schreibt eine Tonleiter als Reihe von Zeichen, ein Zeichen für jeden Schritt der Oktave. Es sagt, ob die Tonleiter dort einen Ton hat oder eine Lücke.
    .ask = Wie lautet die Tonleiter in Einsen und Nullen?
    .answer = Sie lautet { $value }.
    .terms = Bitfolge

## Schreibweise und Namen

spelling =
    .title = Schreibweise
    .a = Ihre Töne heißen { $value }.
    .b = Vom Grundton aufwärts schreibt man sie { $value }.
    .c = Mit Namen sind es die Töne { $value }.
    .define = Die Schreibweise wählt für jeden Ton einen Buchstaben, wo nötig mit Kreuz oder Be. Dieselbe Taste kann mehrere Namen haben; die Schreibweise sagt, welche Rolle der Ton spielt.
    .ask = Wie heißen die Töne der Tonleiter?
    .answer = Sie heißen { $value }.
    .terms = Schreibweise

degrees =
    .title = Tonleiterstufen
    .a = Gemessen an der Durtonleiter auf demselben Grundton sind ihre Stufen { $value }.
    .b = In Tonleiterstufen lautet sie { $value }.
    .c = Die Tonleiterstufen sind { $value }.
    .define = Eine Tonleiterstufe ist der Platz eines Tones über dem Grundton, verglichen mit der Durtonleiter. Erniedrigt heißt einen Halbton tiefer als dort, erhöht einen Halbton höher.
    .ask = Welche Tonleiterstufen hat sie?
    .answer = Es sind { $value }.
    .terms = Tonleiterstufe, Tonleiterstufen

systematic-name =
    .title = Systematischer Name
    .a = Ihr systematischer Name ist { $value }.
    .b = Wer Namen mag, die sich selbst erklären, nennt sie { $value }.
    .c = Von den vertrauten Tonleitern her gesehen ist sie { $value }.
    .define = Ein systematischer Name geht von der nächsten vertrauten Tonleiter auf demselben Grundton aus und sagt, was sich ändert.
    .ask = Wie lautet ihr systematischer Name?
    .answer = Er lautet { $value }.
    .terms = systematischer Name

traditional-names =
    .title = Überlieferte Namen
    .a = { $count ->
        [one] Sie hat einen überlieferten Namen: { $value }.
       *[other] Überliefert sind für sie die Namen { $value }.
    }
    .b = Begegnen kann man ihr unter dem Namen { $value }.
    .long = Viele Traditionen haben sie benannt. Begegnen kann man ihr als { $first } oder als { $second }.
    .define = Ein überlieferter Name ist das, was Musiker eines Ortes und einer Zeit die Tonleiter genannt haben. Zu jedem Namen gehört eine Quelle.
    .ask = Unter welchem Namen kennt man sie?
    .answer = Unter dem Namen { $value }.
    .terms = überlieferter Name

## Mengenklassen

normal-form =
    .title = Normalform (Forte)
    .a = Ihre Normalform nach Forte ist { $value }.
    .b = So dicht wie möglich gepackt lauten die Tonhöhenklassen { $value }. Das ist die Normalform nach Forte.
    .none = Eine leere Menge hat ‹keine› Normalform zum Vorlesen.
    .long = Ihre Normalform nach Forte beginnt mit { $first }, { $second } und { $third }.
    .define = Die Normalform ist die dichteste Anordnung der Tonhöhenklassen: Wir drehen die Tonleiter, bis sie möglichst wenig umspannt und zum unteren Ende hin möglichst dicht gepackt ist. So hat Allen Forte sie bestimmt.
    .ask = Wie lautet ihre Normalform nach Forte?
    .answer = Sie lautet { $value }.
    .terms = Normalform

prime-form =
    .title = Primform (Forte)
    .a = Ihre Primform nach Forte ist { $value }.
    .b = Auf die einfachste Gestalt gebracht lautet die Mengenklasse { $value }. Das ist die Primform nach Forte.
    .none = Eine leere Menge hat ‹keine› Primform zum Vorlesen.
    .long = Ihre Primform nach Forte beginnt mit { $first }, { $second } und { $third }.
    .define = Die Primform ist die einfachste Art, eine Mengenklasse zu schreiben. Wir betrachten die Tonleiter und ihr Spiegelbild, nehmen die dichteste Anordnung und beginnen ganz unten zu zählen. So hat Allen Forte sie bestimmt.
    .ask = Wie lautet ihre Primform nach Forte?
    .answer = Sie lautet { $value }.
    .terms = Primform

forte-label =
    .title = Forte-Nummer
    .a = In Allen Fortes Tabelle trägt ihre Mengenklasse die Bezeichnung { $value }.
    .b = In der Analyse schlägt man sie unter der Forte-Nummer { $value } nach.
    .define = Allen Forte hat alle Mengenklassen in eine Tabelle gebracht. Eine Forte-Nummer nennt die Zahl der Töne und dann den Platz in dieser Tabelle.
    .ask = Welche Forte-Nummer hat ihre Mengenklasse?
    .answer = Sie hat die Nummer { $value }.
    .terms = Forte-Nummer, Mengenklasse, Mengenklassen

is-z-related =
    .title = Z-Verwandtschaft
    .a = Die Tonleiter { $value }.
    .b = { $is ->
        [yes] Ihr Vorrat an Intervallen findet sich in einer anderen Mengenklasse wieder: Sie { $value }.
       *[no] Ihr Vorrat an Intervallen gehört ihrer Mengenklasse allein: Sie { $value }.
    }
    .define = Mengenklassen heißen Z-verwandt, wenn sie dieselben Intervalle gleich oft enthalten, obwohl sie durch Transponieren oder Spiegeln nie ineinander übergehen.
    .yes = ist mit einer anderen Mengenklasse Z-verwandt
    .no = ist mit anderen Mengenklassen nicht Z-verwandt
    .terms = Z-verwandt

normal-form-rahn =
    .title = Normalform (Rahn)
    .a = Nach Rahns Regel ist ihre Normalform { $value }.
    .b = Die Normalform nach John Rahn lautet { $value }.
    .none = Eine leere Menge hat ‹keine› Normalform zum Vorlesen.
    .long = Nach Rahns Regel beginnt ihre Normalform mit { $first }, { $second } und { $third }.
    .define = Auch John Rahns Normalform sucht die Anordnung, die am wenigsten umspannt. Sind mehrere gleich gut, so vergleicht seine Regel ihre Intervalle vom anderen Ende her.
    .terms = Normalform

is-prime-form =
    .title = Ist ihre Primform (Forte)
    .a = Vom Grundton aus gezählt gilt für die Tonleiter: Sie { $value }.
    .b = { $is ->
        [yes] Hier bleibt nichts umzustellen: Sie { $value }.
       *[no] Man müsste sie drehen oder spiegeln: Sie { $value }.
    }
    .define = Manche Tonleitern sind schon ihre eigene Primform: Vom Grundton aus gezählt stehen sie in der dichtesten Anordnung überhaupt.
    .yes = ist ihre eigene Primform nach Forte
    .no = ist nicht ihre eigene Primform nach Forte

prime-form-rahn =
    .title = Primform (Rahn)
    .a = Nach Rahns Regel ist ihre Primform { $value }.
    .b = Die Primform nach John Rahn lautet { $value }.
    .none = Eine leere Menge hat ‹keine› Primform zum Vorlesen.
    .long = Nach Rahns Regel beginnt ihre Primform mit { $first }, { $second } und { $third }.
    .define = John Rahns Primform stimmt fast immer mit der von Forte überein. Sind Anordnungen gleich gut, so vergleicht seine Regel ihre Intervalle vom anderen Ende her.
    .terms = Primform

is-prime-form-rahn =
    .title = Ist ihre Primform (Rahn)
    .a = Vom Grundton aus gezählt gilt für die Tonleiter: Sie { $value }.
    .b = { $is ->
        [yes] Hier bleibt nichts umzustellen: Sie { $value }.
       *[no] Man müsste sie drehen oder spiegeln: Sie { $value }.
    }
    .define = Auch nach John Rahns Regel sind manche Tonleitern schon ihre eigene Primform: Vom Grundton aus gezählt stehen sie in der dichtesten Anordnung.
    .yes = ist ihre eigene Primform nach Rahn
    .no = ist nicht ihre eigene Primform nach Rahn

z-partner =
    .title = Z-Partner
    .a = Ihr Z-Partner ist die Mengenklasse { $value }.
    .b = Alle ihre Intervalle teilt sie mit der Mengenklasse { $value }.
    .define = Der Z-Partner ist die andere Mengenklasse mit genau denselben Intervallen in gleicher Häufigkeit.
    .terms = Z-Partner

## Modi und Symmetrie

mode-count =
    .title = Verschiedene Modi
    .a = Sie hat { $count ->
        [one] ‹einen› Modus
       *[other] { $value } verschiedene Modi
    }.
    .b = Beginnt man auf jedem ihrer Töne, so entstehen { $count ->
        [0] ‹keine› verschiedenen Tonleitern
        [one] immer dieselben Schritte: Es bleibt bei ‹einem› Modus
       *[other] { $value } verschiedene Tonleitern
    }.
    .c = Aus diesen Tönen lassen sich { $count ->
        [one] nicht mehrere Modi gewinnen, sondern ‹einer›
       *[other] { $value } Modi gewinnen
    }.
    .define = Nehmen wir dieselben Töne, aber beginnen auf einem anderen: Das ist ein Modus. Modi sind verschieden, wenn ihre Schritte in anderer Reihenfolge kommen.
    .noun = verschiedene Modi
    .ask = Wie viele verschiedene Modi hat sie?
    .answer = Sie hat { $count ->
        [one] ‹einen› Modus
       *[other] { $value } Modi
    }.
    .terms = verschiedene Modi

inversion =
    .title = Umkehrung
    .a = Um ihren Grundton umgeklappt hat die Tonleiter die Tonhöhenklassen { $value }.
    .b = Ihre Umkehrung lautet in Tonhöhenklassen { $value }.
    .long = Ihre Umkehrung beginnt mit den Tonhöhenklassen { $first }, { $second } und { $third }.
    .define = Die Umkehrung klappt die Tonleiter um ihren Grundton. Was so weit über dem Grundton lag, liegt nun ebenso weit darunter.
    .ask = Welche Tonhöhenklassen hat ihre Umkehrung?
    .answer = Es sind { $value }.
    .terms = Umkehrung

reflection-axes =
    .title = Spiegelachsen
    .a = Sie hat { $count ->
        [one] ‹eine› Spiegelachse
       *[other] { $value } Spiegelachsen
    }.
    .b = { $count ->
        [0] Wie man ihr Zifferblatt auch faltet, die Seiten passen nie aufeinander: Sie hat ‹keine› Spiegelachsen.
        [one] Falten wir ihr Zifferblatt so, dass die Seiten aufeinanderpassen: Das geht an ‹einer› Spiegelachse.
       *[other] Falten wir ihr Zifferblatt so, dass die Seiten aufeinanderpassen: Das geht an { $value } Spiegelachsen.
    }
    .define = Zeichnen wir die Töne auf ein Zifferblatt. Eine Spiegelachse ist eine Linie, an der man es falten kann, sodass Töne auf Töne fallen und Lücken auf Lücken.
    .noun = Spiegelachsen
    .ask = Wie viele Spiegelachsen hat sie?
    .answer = Sie hat { $count ->
        [one] ‹eine› Spiegelachse
       *[other] { $value } Spiegelachsen
    }.
    .terms = Spiegelachse, Spiegelachsen

is-chiral =
    .title = Chiralität
    .a = Die Tonleiter { $value }.
    .b = { $is ->
        [yes] Wie eine linke und eine rechte Hand lassen sich die Tonleiter und ihr Spiegelbild nicht zur Deckung bringen: Sie { $value }.
       *[no] Ihr Spiegelbild ist wieder eine Tonleiter derselben Art: Sie { $value }.
    }
    .define = Eine Tonleiter ist chiral, wenn ihr Spiegelbild eine andere Art von Tonleiter ist, so wie ein linker Handschuh an die rechte Hand nicht passt.
    .yes = ist chiral
    .no = ist nicht chiral
    .ask = Ist die Tonleiter chiral?
    .answer = Die Tonleiter { $value }.
    .terms = chiral, achiral, Chiralität

is-palindromic =
    .title = Palindromisches Schrittmuster
    .a = Das Schrittmuster { $value }.
    .b = { $is ->
        [yes] Liest man ihre Schritte abwärts, so stehen sie in derselben Reihenfolge: Das Muster { $value }.
       *[no] Liest man ihre Schritte abwärts, so ändert sich die Reihenfolge: Das Muster { $value }.
    }
    .define = Ein Palindrom liest sich rückwärts ebenso. Ist das Schrittmuster ein Palindrom, so steigt und fällt die Tonleiter in denselben Schritten.
    .yes = ist ein Palindrom
    .no = ist nicht palindromisch
    .ask = Ist ihr Schrittmuster ein Palindrom?
    .answer = Das Muster { $value }.
    .terms = Palindrom, palindromisch

rotational-symmetry =
    .title = Grad der Transpositionssymmetrie
    .a = { $count ->
        [one] Nur die Transposition um nichts bringt ihre eigenen Töne zurück: Der Grad ihrer Transpositionssymmetrie ist ‹eins›.
       *[other] Der Grad ihrer Transpositionssymmetrie ist { $value }: So viele Transpositionen innerhalb der Oktave, die um nichts mitgezählt, bringen ihre eigenen Töne zurück.
    }
    .b = { $count ->
        [one] Der Grad ihrer Transpositionssymmetrie ist ‹eins›, wie bei den meisten Tonleitern.
       *[other] Drehen wir ihr Zifferblatt ganz herum, so fällt es in { $value } Lagen auf sich selbst. Das ist der Grad ihrer Transpositionssymmetrie.
    }
    .define = Verschieben wir eine Tonleiter, bis sie wieder genau ihre eigenen Töne hat. Wie viele solche Verschiebungen es in der Oktave gibt, ist der Grad ihrer Transpositionssymmetrie; auch das Stehenbleiben zählt.
    .ask = Wie groß ist der Grad ihrer Transpositionssymmetrie?
    .answer = Er ist { $value }.
    .terms = Transpositionssymmetrie

transposition-count =
    .title = Verschiedene Transpositionen
    .a = Sie hat { $count ->
        [one] ‹eine› Transposition
       *[other] { $value } verschiedene Transpositionen
    }.
    .b = Führen wir sie durch alle Tonarten, so begegnen uns { $count ->
        [one] immer dieselben Töne, also ‹eine› Tonmenge
       *[other] { $value } verschiedene Tonmengen
    }.
    .define = Transponieren wir eine Tonleiter Schritt für Schritt durch die Oktave. Die meisten ergeben jedes Mal neue Töne, manche kehren früher wieder. Wir zählen die verschiedenen Transpositionen.
    .noun = verschiedene Transpositionen
    .ask = Wie viele verschiedene Transpositionen hat sie?
    .answer = Sie hat { $count ->
        [one] ‹eine› Transposition
       *[other] { $value } verschiedene Transpositionen
    }.
    .terms = verschiedene Transpositionen

has-limited-transpositions =
    .title = Begrenzte Transponierbarkeit
    .a = Die Tonleiter { $value }.
    .b = { $is ->
        [yes] Transponiert man sie, so trifft man bald auf Töne, die man schon gehört hat: Sie { $value }.
       *[no] Jede Transposition innerhalb der Oktave bringt andere Töne: Sie { $value }.
    }
    .define = Eine begrenzt transponierbare Tonleiter hat ihre eigenen Töne wieder, bevor sie durch die ganze Oktave gewandert ist. Olivier Messiaen sprach vom Zauber des Unmöglichen.
    .yes = ist begrenzt transponierbar
    .no = ist nicht begrenzt transponierbar
    .ask = Ist die Tonleiter begrenzt transponierbar?
    .answer = Sie { $value }.
    .terms = begrenzt transponierbar

## Intervalle und gemeinsame Töne

tones-without-fifth =
    .title = Töne ohne Quinte darüber
    .a = { $count ->
        [0] Jeder Ton hat seine Quinte über sich: ‹Keinem› fehlt sie.
        [one] ‹Einem› Ton fehlt die Quinte darüber{ $places }.
       *[other] { $value } Tönen fehlt die Quinte darüber{ $places }.
    }
    .b = Es gibt { $count ->
        [one] ‹einen› Ton
       *[other] { $value } Töne
    } ohne Quinte darüber{ $places }.
    .define = Die reine Quinte ist die stärkste Stütze, die ein Ton haben kann. Wir suchen die Töne, deren Quinte darüber in der Tonleiter fehlt.
    .noun = Töne ohne Quinte darüber
    .ask = Wie vielen Tönen fehlt die Quinte darüber?
    .answer = { $count ->
        [0] ‹Keinem› Ton fehlt sie
        [one] ‹Einem› Ton fehlt sie
       *[other] { $value } Tönen fehlt sie
    }.
    .terms = Quinte darüber

tritones =
    .title = Tritoni
    .a = Sie hat { $count ->
        [one] ‹einen› Tritonus
       *[other] { $value } Tritoni
    }{ $places }.
    .b = { $count ->
        [0] Sie enthält ‹keinen› Tritonus und ist frei von dieser Spannung.
        [one] Sie enthält ‹einen› Tritonus{ $places }.
       *[other] Sie enthält { $value } Tritoni{ $places }.
    }
    .define = Ein Tritonus ist das Intervall, das die Oktave in gleiche Hälften teilt.
    .noun = Tritoni
    .ask = Wie viele Tritoni enthält sie?
    .answer = Sie enthält { $count ->
        [one] ‹einen› Tritonus
       *[other] { $value } Tritoni
    }.
    .terms = Tritonus, Tritoni

interval-class-vector =
    .title = Intervallklassenvektor
    .a = Ihr Intervallklassenvektor ist { $value }.
    .b = Zählen wir die Intervalle zwischen allen Tönen, Klasse für Klasse von der kleinsten an: { $value }. Das ist der Intervallklassenvektor.
    .long = Ihr Intervallklassenvektor beginnt mit { $first }, { $second } und { $third }.
    .define = Eine Intervallklasse fasst ein Intervall und seine Umkehrung zusammen, etwa Sekunden und Septimen. Der Intervallklassenvektor zählt, wie oft jede Klasse vorkommt, von der kleinsten bis zur größten.
    .ask = Wie lautet ihr Intervallklassenvektor?
    .answer = Er lautet { $value }.
    .terms = Intervallklasse, Intervallklassen, Intervallklassenvektor

common-tones-transposition =
    .title = Gemeinsame Töne bei Transposition
    .a = Schieben wir sie Schritt für Schritt aufwärts, so bleiben der Reihe nach so viele Töne liegen: { $value }.
    .b = Die gemeinsamen Töne bei Transposition sind der Reihe nach { $value }.
    .long = Um einen Schritt verschoben behält sie so viele Töne: { $first }. Noch ein Schritt weiter sind es { $second }.
    .define = Verschiebt man eine Tonleiter, so können manche ihrer Töne liegen bleiben. Das sind die gemeinsamen Töne bei Transposition. Viele von ihnen machen den Wechsel der Tonart weich. Mitunter bleibt ein Ton liegen, auf welchem ihrer Töne die Tonleiter auch neu beginnt.
    .ask = Wie viele Töne bleiben liegen, wenn sie Schritt für Schritt transponiert wird?
    .answer = Der Reihe nach { $value }.
    .terms = gemeinsame Töne bei Transposition, gemeinsamen Töne bei Transposition

is-deep =
    .title = Tiefe Skala
    .a = Die Tonleiter { $value }.
    .b = { $is ->
        [yes] Jede Intervallklasse kommt verschieden oft vor: Die Tonleiter { $value }.
       *[no] Manche Intervallklassen sind gleich häufig: Die Tonleiter { $value }.
    }
    .define = In einer tiefen Skala kommt jede Intervallklasse verschieden oft vor. Deshalb behält jede Transposition eine andere Zahl gemeinsamer Töne.
    .yes = ist eine tiefe Skala
    .no = ist nicht tief
    .ask = Ist sie eine tiefe Skala?
    .answer = Sie { $value }.
    .terms = tiefe Skala, tiefen Skala

rare-intervals =
    .title = Seltene Intervalle
    .a = Gemessen in { $divisions ->
        [12] Halbtönen
       *[other] Schritten der Teilung
    } { $count ->
        [one] ist ihr seltenes Intervall
       *[other] sind ihre seltenen Intervalle
    } { $value }.
    .b = { $count ->
        [one] Die Intervallklasse, die am seltensten vorkommt, misst
       *[other] Die Intervallklassen, die am seltensten vorkommen, messen
    } { $value }.
    .long = Viele Intervallklassen sind hier gleich selten, angefangen mit { $first } und { $second }.
    .define = Ein seltenes Intervall kommt in der Tonleiter vor, aber weniger oft als die anderen. Wer es hört, weiß am besten, wo in der Tonleiter er ist.
    .ask = Welche ihrer Intervalle sind selten?
    .answer = Die, die { $value } messen.
    .terms = seltenes Intervall, seltene Intervalle, seltenen Intervalle

common-tones-inversion =
    .title = Gemeinsame Töne bei Umkehrung
    .a = Klappen wir sie um den Grundton und dann um jede weitere Stelle, so bleiben so viele Töne liegen: { $value }.
    .b = Ihre gemeinsamen Töne bei Umkehrung sind der Reihe nach { $value }.
    .long = Um den Grundton geklappt behält sie so viele Töne: { $first }.
    .define = Klappt man eine Tonleiter um, so können Töne auf Töne der Tonleiter fallen. Das sind die gemeinsamen Töne bei Umkehrung, gezählt für jede Art des Umklappens.
    .terms = gemeinsame Töne bei Umkehrung, gemeinsamen Töne bei Umkehrung

## Spektren und Gleichmäßigkeit

generators =
    .title = Erzeuger
    .a = { $count ->
        [one] Sie lässt sich als Kette gleicher Glieder bauen. In { $divisions ->
        [12] Halbtönen
       *[other] Schritten der Teilung
    } misst ihr Erzeuger { $value }.
       *[other] Sie lässt sich als Kette gleicher Glieder bauen. In { $divisions ->
        [12] Halbtönen
       *[other] Schritten der Teilung
    } messen ihre Erzeuger { $value }.
    }
    .b = Gemessen in { $divisions ->
        [12] Halbtönen
       *[other] Schritten der Teilung
    } { $count ->
        [one] ist ihr Erzeuger
       *[other] sind ihre Erzeuger
    } { $value }.
    .none = Es gibt ‹keinen› Erzeuger: Aus gleichen Gliedern lässt sie sich nicht zusammenketten.
    .long = Sehr viele Intervalle erzeugen sie, angefangen mit { $first } und { $second }.
    .define = Ein Erzeuger ist ein Intervall, das in einer ununterbrochenen Kette jeden Ton der Tonleiter erreicht. Der Quintenzirkel reiht Tonleitern auf diese Weise auf.
    .ask = Welche Intervalle erzeugen die Tonleiter?
    .answer = Gemessen in { $divisions ->
        [12] Halbtönen
       *[other] Schritten der Teilung
    } sind es { $value }.
    .terms = Erzeuger, Quintenzirkel

is-generated =
    .title = Erzeugte Skala
    .a = Die Tonleiter { $value }.
    .b = { $is ->
        [yes] Ihre Töne hängen in einer Kette gleicher Glieder zusammen: Sie { $value }.
       *[no] Ihre Töne lassen sich nicht zu einer Kette gleicher Glieder reihen: Sie { $value }.
    }
    .define = Eine erzeugte Skala ist eine ununterbrochene Kette desselben Intervalls, so wie die Durtonleiter eine Kette von Quinten ist.
    .yes = ist eine erzeugte Skala
    .no = ist nicht erzeugt
    .ask = Ist sie eine erzeugte Skala?
    .answer = Sie { $value }.
    .terms = erzeugte Skala

spectra =
    .title = Spektren
    .a = Ihre Spektren sind, von den einzelnen Tonschritten an, { $value }.
    .b = Gezählt in { $divisions ->
        [12] Halbtönen
       *[other] Schritten der Teilung
    } messen die einzelnen Tonschritte { $first }{ $count ->
        [one] {""}
       *[other] , und die nächstgrößere Spanne misst { $second }
    }.
    .long = Gezählt in { $divisions ->
        [12] Halbtönen
       *[other] Schritten der Teilung
    } messen die einzelnen Tonschritte { $first }, und die weiteste Spanne unter der Oktave misst { $last }.
    .define = Ein Spektrum sammelt die Größen aller Intervalle, die gleich viele Tonschritte umspannen. Sekunden haben ihr Spektrum, Terzen das ihre und so fort.
    .ask = Welche Größen haben die einzelnen Tonschritte?
    .answer = Sie messen { $first }.
    .terms = Spektrum, Spektren

well-formedness =
    .title = Wohlgeformtheit
    .a = { $word ->
        [non-degenerate] Die Tonleiter ist wohlgeformt und { $value }.
        [degenerate] Die Tonleiter ist wohlgeformt, aber { $value }.
       *[other] Die Tonleiter ist { $value }.
    }
    .b = { $word ->
        [non-degenerate] Dasselbe Intervall, das immer gleich viele Tonschritte umspannt, baut sie ganz auf, und ihre Schritte sind verschieden: Als wohlgeformte Skala ist sie { $value }.
        [degenerate] Alle ihre Schritte sind gleich, und so ist sie als wohlgeformte Skala { $value }.
       *[other] Eine Kette gleicher Glieder, die immer gleich viele Tonschritte umspannen, gibt es hier nicht: Sie ist { $value }.
    }
    .define = Eine wohlgeformte Skala ist eine Kette gleicher Intervalle, die immer gleich viele Tonschritte umspannen. Sind alle Schritte gleich groß, so heißt sie entartet.
    .word-non-degenerate = nicht entartet
    .word-degenerate = entartet
    .word-not-well-formed = nicht wohlgeformt
    .ask = Ist die Tonleiter wohlgeformt, und gilt sie als entartet?
    .answer = Sie ist { $value }.
    .terms = wohlgeformt, wohlgeformte, Wohlgeformtheit, entartet

is-maximally-even =
    .title = Maximale Gleichmäßigkeit
    .a = Die Tonleiter { $value }.
    .b = { $is ->
        [yes] Ihre Töne sind so gleichmäßig wie möglich über die Oktave verteilt: Sie { $value }.
       *[no] Ihre Töne ließen sich gleichmäßiger über die Oktave verteilen: Sie { $value }.
    }
    .define = Eine Tonleiter ist maximal gleichmäßig, wenn ihre Töne so gleichmäßig über die Oktave verteilt sind, wie es die Klaviatur erlaubt. Geht es nicht ganz auf, so unterscheiden sich die Größen so wenig wie möglich.
    .define-other = Eine Tonleiter ist maximal gleichmäßig, wenn ihre Töne so gleichmäßig über die Oktave verteilt sind, wie es die Teilung erlaubt. Geht es nicht ganz auf, so unterscheiden sich die Größen so wenig wie möglich.
    .yes = ist maximal gleichmäßig
    .no = ist nicht maximal gleichmäßig
    .ask = Ist die Tonleiter maximal gleichmäßig?
    .answer = Sie { $value }.
    .terms = maximal gleichmäßig

is-myhill =
    .title = Myhill-Eigenschaft
    .a = Die Tonleiter { $value }.
    .b = { $is ->
        [yes] Sekunden, Terzen, Quarten, jede Art gibt es groß und klein und nichts dazwischen: Die Tonleiter { $value }.
       *[no] Nicht jede Art von Intervall gibt es nur groß und klein: Die Tonleiter { $value }.
    }
    .define = Myhill-Eigenschaft heißt: Jede Art von Intervall, Sekunden, Terzen und so fort, kommt genau in einer großen und einer kleinen Gestalt vor. Die Durtonleiter ist das bekannteste Beispiel.
    .yes = hat die Myhill-Eigenschaft
    .no = hat die Myhill-Eigenschaft nicht
    .ask = Hat die Tonleiter die Myhill-Eigenschaft?
    .answer = Sie { $value }.
    .terms = Myhill-Eigenschaft

is-pairwise-well-formed =
    .title = Paarweise Wohlgeformtheit
    .a = Die Tonleiter { $value }.
    .b = { $is ->
        [yes] Lässt man je ein Paar ihrer Schrittgrößen verschwimmen, so bleibt ein wohlgeformtes Muster: Sie { $value }.
       *[no] Lässt man Paare ihrer Schrittgrößen verschwimmen, so bleibt nicht immer ein wohlgeformtes Muster: Sie { $value }.
    }
    .define = Eine Tonleiter ist paarweise wohlgeformt, wenn ihre Schritte groß, mittel und klein sind und das Muster wohlgeformt wird, sobald ein beliebiges Paar dieser Größen als gleich gilt.
    .yes = ist paarweise wohlgeformt
    .no = ist nicht paarweise wohlgeformt
    .terms = paarweise wohlgeformt

spectrum-widths =
    .title = Spektrumsbreiten
    .a = Ihre Spektrumsbreiten sind, von den einzelnen Tonschritten an, { $value }.
    .b = Vom kleinsten Intervall jeder Art zum größten sind es { $value }. Das sind die Spektrumsbreiten.
    .long = Ihre Spektrumsbreiten beginnen mit { $first }, { $second } und { $third }.
    .define = Die Spektrumsbreite ist der Unterschied zwischen dem größten und dem kleinsten Intervall einer Art.
    .terms = Spektrumsbreite, Spektrumsbreiten

chord-length-sum =
    .title = Summe der Sehnenlängen
    .a = Die Summe der Sehnenlängen ist { $value }, gemessen in Radien des Kreises.
    .b = Verbinden wir alle Töne quer durch den Kreis mit geraden Linien, so ergeben sie zusammen { $value } Radien.
    .define = Setzen wir die Töne auf einen Kreis und verbinden jedes Paar durch eine gerade Linie, eine Sehne. Die Summe der Sehnenlängen zählt alle diese Linien zusammen. Je gleichmäßiger die Töne verteilt sind, desto größer ist sie.
    .terms = Summe der Sehnenlängen

has-cardinality-equals-variety =
    .title = Anzahl gleich Vielfalt
    .a = Die Tonleiter { $value }.
    .b = { $is ->
        [yes] Verschiebt man ein Muster auf ihr, so nimmt es genau so viele Gestalten an, wie es Töne hat: Sie { $value }.
       *[no] Verschiebt man Muster auf ihr, so nehmen sie nicht immer so viele Gestalten an, wie sie Töne haben: Sie { $value }.
    }
    .define = Nehmen wir ein Muster aus Tönen und verschieben es auf der Tonleiter. Nimmt es immer so viele Gestalten an, wie es Töne hat, so ist die Anzahl gleich der Vielfalt.
    .yes = erfüllt den Satz „Anzahl gleich Vielfalt“
    .no = erfüllt den Satz „Anzahl gleich Vielfalt“ nicht
    .terms = Anzahl gleich Vielfalt

is-second-order-maximally-even =
    .title = Maximale Gleichmäßigkeit zweiter Ordnung
    .a = Die Tonleiter { $value }.
    .b = { $is ->
        [yes] Es gibt eine gleichmäßige Skala, in der ihre Töne wieder so gleichmäßig wie möglich verteilt sind: Sie { $value }.
       *[no] In einer gleichmäßigen Skala sind ihre Töne nirgends wieder gleichmäßig verteilt: Sie { $value }.
    }
    .define = Nehmen wir eine maximal gleichmäßige Skala und wählen aus ihren Tönen wieder so gleichmäßig wie möglich. Was entsteht, ist maximal gleichmäßig zweiter Ordnung. So liegen die Dreiklänge in der Durtonleiter.
    .yes = ist maximal gleichmäßig zweiter Ordnung
    .no = ist nicht maximal gleichmäßig zweiter Ordnung
    .terms = maximal gleichmäßig zweiter Ordnung

mean-spectrum-width =
    .title = Mittlere Spektrumsbreite
    .a = Ihre mittlere Spektrumsbreite ist { $value }.
    .b = Gemessen in { $divisions ->
        [12] Halbtönen
       *[other] Schritten der Teilung
    } unterscheiden sich das größte und das kleinste Intervall einer Spanne im Mittel um { $value }.
    .define = Die mittlere Spektrumsbreite zählt die Breiten aller Spektren zusammen und teilt durch die Zahl der Töne. Sie sagt, wie ungleichmäßig die Tonleiter ist.
    .terms = mittlere Spektrumsbreite

has-structure-implies-multiplicity =
    .title = Struktur bestimmt Vielfachheit
    .a = Die Tonleiter { $value }.
    .b = { $is ->
        [yes] Wie oft jede Gestalt eines Musters vorkommt, lässt sich an einem Kreis ablesen: Sie { $value }.
       *[no] Wie oft jede Gestalt eines Musters vorkommt, lässt sich an einem Kreis nicht ablesen: Sie { $value }.
    }
    .define = Legen wir die Tonleiter auf einen Kreis gleicher Spannen, etwa den Quintenzirkel. Sagen dort die Lücken zwischen den Tönen eines Musters, wie oft jede seiner Gestalten vorkommt, so bestimmt die Struktur die Vielfachheit.
    .yes = erfüllt den Satz „Struktur bestimmt Vielfachheit“
    .no = erfüllt den Satz „Struktur bestimmt Vielfachheit“ nicht
    .terms = Struktur bestimmt Vielfachheit

## Propriety und Kohärenz

ambiguities =
    .title = Mehrdeutigkeiten
    .a = Sie hat { $count ->
        [one] ‹eine› Mehrdeutigkeit
       *[other] { $value } Mehrdeutigkeiten
    }{ $places }.
    .b = { $count ->
        [0] Welches Intervall man auch hört, seine Größe allein sagt, wie viele Tonschritte es umspannt: Es gibt ‹keine› Mehrdeutigkeiten.
        [one] In ‹einem› Fall klingen Intervalle gleich groß und umspannen doch verschieden viele Tonschritte{ $places }.
       *[other] In { $value } Fällen klingen Intervalle gleich groß und umspannen doch verschieden viele Tonschritte{ $places }.
    }
    .define = Eine Mehrdeutigkeit ist ein Paar von Intervallen gleicher Größe, die verschieden viele Tonschritte umspannen. Für sich allein gehört lassen sie sich nicht unterscheiden.
    .noun = Mehrdeutigkeiten
    .ask = Wie viele Mehrdeutigkeiten hat sie?
    .answer = Sie hat { $count ->
        [one] ‹eine› Mehrdeutigkeit
       *[other] { $value } Mehrdeutigkeiten
    }.
    .terms = Mehrdeutigkeit, Mehrdeutigkeiten

contradictions =
    .title = Widersprüche
    .a = Sie hat { $count ->
        [one] ‹einen› Widerspruch
       *[other] { $value } Widersprüche
    }{ $places }.
    .b = { $count ->
        [0] Ein Intervall von weniger Tonschritten ist nie das größere: Es gibt ‹keine› Widersprüche.
        [one] In ‹einem› Fall ist das Intervall von weniger Tonschritten das größere{ $places }.
       *[other] In { $value } Fällen ist das Intervall von weniger Tonschritten das größere{ $places }.
    }
    .define = Ein Widerspruch ist ein Paar von Intervallen, bei dem das mit weniger Tonschritten dennoch größer klingt.
    .noun = Widersprüche
    .ask = Wie viele Widersprüche hat sie?
    .answer = Sie hat { $count ->
        [one] ‹einen› Widerspruch
       *[other] { $value } Widersprüche
    }.
    .terms = Widerspruch, Widersprüche

propriety =
    .title = Propriety nach Rothenberg
    .a = Die Tonleiter ist { $value }.
    .b = { $word ->
        [strictly-proper] Mehr Tonschritte ergeben immer ein größeres Intervall: Sie ist { $value }.
        [improper] Mehr Tonschritte ergeben manchmal ein kleineres Intervall: Sie ist { $value }.
       *[other] Mehr Tonschritte ergeben nie ein kleineres Intervall, manchmal aber ein gleich großes: Sie ist { $value }.
    }
    .define = Eine Tonleiter ist strikt proper, wenn mehr Tonschritte immer ein größeres Intervall ergeben. Sie ist proper, wenn es auch gleich groß sein darf, und improper, wenn es manchmal kleiner ist.
    .word-strictly-proper = strikt proper
    .word-proper = proper
    .word-improper = improper
    .ask = Ist die Tonleiter strikt proper, proper oder improper?
    .answer = Sie ist { $value }.
    .terms = proper, strikt proper, improper

differences =
    .title = Größenunterschiede
    .a = Sie hat { $count ->
        [one] ‹einen› Größenunterschied
       *[other] { $value } Größenunterschiede
    }.
    .b = { $count ->
        [0] Intervalle von gleich vielen Tonschritten sind immer gleich groß: Es gibt ‹keine› Größenunterschiede.
        [one] Vergleichen wir Intervalle von gleich vielen Tonschritten, so ist ‹ein› Paar verschieden groß.
       *[other] Vergleichen wir Intervalle von gleich vielen Tonschritten, so sind { $value } Paare verschieden groß.
    }
    .define = Ein Größenunterschied ist ein Paar von Intervallen, die gleich viele Tonschritte umspannen, aber nicht gleich groß sind.
    .noun = Größenunterschiede
    .terms = Größenunterschied, Größenunterschiede

coherence-failures =
    .title = Kohärenzfehler
    .a = Sie hat { $count ->
        [one] ‹einen› Kohärenzfehler
       *[other] { $value } Kohärenzfehler
    }.
    .b = Mehrdeutigkeiten und Widersprüche zusammen ergeben { $count ->
        [one] ‹einen›
       *[other] { $value }
    } Kohärenzfehler.
    .define = Die Kohärenz versagt überall, wo ein Intervall von weniger Tonschritten nicht das kleinere ist. Mehrdeutigkeiten und Widersprüche werden zusammengezählt.
    .noun = Kohärenzfehler
    .terms = Kohärenzfehler

efficiency =
    .title = Effizienz
    .a = Ihre Effizienz ist { $value }.
    .b = Im Mittel muss man diesen Anteil ihrer Töne hören, um der Tonart sicher zu sein: { $value }. Das ist ihre Effizienz.
    .define = Wie viele Töne muss man in zufälliger Folge hören, bis man weiß, welche Transposition gespielt wird? Der mittlere Anteil der Töne heißt Effizienz.
    .terms = Effizienz

is-balzano-coherent =
    .title = Kohärenz nach Balzano
    .a = Die Tonleiter { $value }.
    .b = { $is ->
        [yes] Von der Mitte der Oktave abgesehen klingen mehr Tonschritte immer größer: Sie { $value }.
       *[no] Mehr Tonschritte klingen nicht immer größer: Sie { $value }.
    }
    .define = Gerald Balzano nennt eine Tonleiter kohärent, wenn mehr Tonschritte immer ein größeres Intervall ergeben. In der Mitte der Oktave lässt er eine Ausnahme zu.
    .yes = ist im Sinne Balzanos kohärent
    .no = ist im Sinne Balzanos nicht kohärent
    .terms = Balzano, Balzanos

sameness-quotient =
    .title = Gleichheitsquotient
    .a = Ihr Gleichheitsquotient ist { $value }.
    .b = Wären gleiche Spannen immer gleich groß, so wäre der Gleichheitsquotient voll. Hier ist er { $value }.
    .define = Der Gleichheitsquotient sagt, wie selten sich Intervalle von gleich vielen Tonschritten in der Größe unterscheiden. Er ist voll, wenn sie es nie tun.
    .terms = Gleichheitsquotient

stability =
    .title = Stabilität
    .a = Ihre Stabilität ist { $value }.
    .b = Für sich allein gehört lässt sich dieser Anteil ihrer Intervalle ohne Zweifel benennen: { $value }. Das ist ihre Stabilität.
    .define = Manche Intervalle erkennt man schon an ihrer Größe, als Sekunde, als Terz und so fort. Stabilität ist der Anteil der Intervalle, für die das gilt.
    .terms = Stabilität

coherence-quotient =
    .title = Kohärenzquotient
    .a = Ihr Kohärenzquotient ist { $value }.
    .b = Wo sich Größe und Tonschritte nie widersprechen, ist der Kohärenzquotient voll. Hier ist er { $value }.
    .define = Der Kohärenzquotient sagt, wie selten die Größe von Intervallen der Zahl ihrer Tonschritte widerspricht. Er ist voll, wenn sie es nie tut.
    .terms = Kohärenzquotient

## Fourier und Ausgewogenheit

centre-of-gravity =
    .title = Schwerpunkt
    .a = Der Schwerpunkt ihrer Töne liegt bei { $value }, von der Mitte des Kreises aus in Radien gemessen.
    .b = Hängt man gleiche Gewichte an ihre Töne, so hat ihr Schwerpunkt die Koordinaten { $value }.
    .define = Denken wir uns die Töne als gleiche Gewichte am Rand eines Rades. Ihr Schwerpunkt ist die Stelle, auf der das Rad waagrecht ruhen würde.
    .terms = Schwerpunkt

evenness =
    .title = Gleichmäßigkeit
    .a = Ihre Gleichmäßigkeit ist { $value }.
    .b = Gegen eine völlig gleiche Teilung gehalten erreicht sie eine Gleichmäßigkeit von { $value }.
    .define = Die Gleichmäßigkeit vergleicht die Töne einer Tonleiter mit einer völlig gleichen Teilung der Oktave. Je näher sie ihr kommen, desto größer ist sie.
    .terms = Gleichmäßigkeit

fourier-magnitudes =
    .title = Fourier-Koeffizienten
    .a = Die Größen ihrer Fourier-Koeffizienten sind, gerundet, { $value }.
    .b = Gerundet haben die Fourier-Koeffizienten die Größen { $value }.
    .long = Ihre Fourier-Koeffizienten beginnen, gerundet, mit den Größen { $first }, { $second } und { $third }.
    .define = Fourier-Koeffizienten sagen, wie stark sich die Töne an gleich weit entfernten Stellen des Kreises sammeln. Ein großer Koeffizient heißt, dass sie sich stark sammeln.
    .terms = Fourier-Koeffizient, Fourier-Koeffizienten

balance =
    .title = Ausgewogenheit
    .a = Ihre Ausgewogenheit ist { $value }.
    .b = Auf ein Rad gesetzt erreichen ihre Töne eine Ausgewogenheit von { $value }.
    .define = Denken wir uns die Töne als gleiche Gewichte auf einem Rad. Die Ausgewogenheit sagt, wie nahe das Rad daran ist, in Ruhe zu bleiben.
    .terms = Ausgewogenheit

is-balanced =
    .title = Vollkommene Ausgewogenheit
    .a = Die Tonleiter { $value }.
    .b = { $is ->
        [yes] Setzt man ihre Töne als Gewichte auf ein Rad, so bleibt das Rad in Ruhe: Die Tonleiter { $value }.
       *[no] Setzt man ihre Töne als Gewichte auf ein Rad, so dreht sich das Rad: Die Tonleiter { $value }.
    }
    .define = Eine Tonleiter ist vollkommen ausgewogen, wenn ihre Töne, als gleiche Gewichte an ein Rad gehängt, das Rad in jeder Stellung in Ruhe lassen.
    .yes = ist vollkommen ausgewogen
    .no = ist nicht vollkommen ausgewogen
    .terms = vollkommen ausgewogen

## Akkorde

diminished-triads =
    .title = Verminderte Dreiklänge
    .a = Sie enthält { $count ->
        [one] ‹einen› verminderten Dreiklang
       *[other] { $value } { $count ->
            [0] verminderten
           *[other] verminderte
        } Dreiklänge
    }{ $places }.
    .b = Auf { $count ->
        [0] ‹keinem›
        [one] ‹einem›
       *[other] { $value }
    } ihrer Töne steht ein verminderter Dreiklang{ $places }.
    .define = Ein verminderter Dreiklang schichtet kleine Terz auf kleine Terz. Er klingt eng und will weiter.
    .noun = verminderte Dreiklänge
    .ask = Wie viele verminderte Dreiklänge enthält sie?
    .answer = Sie enthält { $count ->
        [one] ‹einen› verminderten Dreiklang
       *[other] { $value } { $count ->
            [0] verminderten
           *[other] verminderte
        } Dreiklänge
    }.
    .terms = verminderter Dreiklang, verminderte Dreiklänge, verminderten Dreiklänge, verminderten Dreiklang

major-triads =
    .title = Durdreiklänge
    .a = Sie enthält { $count ->
        [one] ‹einen› Durdreiklang
       *[other] { $value } Durdreiklänge
    }{ $places }.
    .b = { $count ->
        [0] Durdreiklänge sucht man hier vergebens: Es gibt ‹keine›.
        [one] Es gibt ‹einen› Durdreiklang in ihr{ $places }.
       *[other] Es gibt { $value } Durdreiklänge in ihr{ $places }.
    }
    .c = An hellen Akkorden bietet sie { $count ->
        [one] ‹einen› Durdreiklang
       *[other] { $value } Durdreiklänge
    }{ $places }.
    .define = Ein Durdreiklang hat einen Grundton, eine große Terz darüber und eine reine Quinte.
    .noun = Durdreiklänge
    .ask = Wie viele Durdreiklänge enthält sie?
    .answer = Sie enthält { $count ->
        [one] ‹einen› Durdreiklang
       *[other] { $value } Durdreiklänge
    }.
    .terms = Durdreiklang, Durdreiklänge

minor-triads =
    .title = Molldreiklänge
    .a = Sie enthält { $count ->
        [one] ‹einen› Molldreiklang
       *[other] { $value } Molldreiklänge
    }{ $places }.
    .b = { $count ->
        [0] Molldreiklänge sucht man hier vergebens: Es gibt ‹keine›.
        [one] Es gibt ‹einen› Molldreiklang in ihr{ $places }.
       *[other] Es gibt { $value } Molldreiklänge in ihr{ $places }.
    }
    .c = An dunkleren Akkorden bietet sie { $count ->
        [one] ‹einen› Molldreiklang
       *[other] { $value } Molldreiklänge
    }{ $places }.
    .define = Ein Molldreiklang hat einen Grundton, eine kleine Terz darüber und eine reine Quinte.
    .noun = Molldreiklänge
    .ask = Wie viele Molldreiklänge enthält sie?
    .answer = Sie enthält { $count ->
        [one] ‹einen› Molldreiklang
       *[other] { $value } Molldreiklänge
    }.
    .terms = Molldreiklang, Molldreiklänge

triads =
    .title = Dreiklänge
    .a = { $count ->
        [one] Ihr einziger Dreiklang ist { $value }.
       *[other] Ihre Dreiklänge sind { $value }.
    }
    .b = Harmonisieren kann man mit { $count ->
        [one] diesem Dreiklang
       *[other] diesen Dreiklängen
    }: { $value }.
    .none = Sie enthält ‹keine› Dreiklänge.
    .long = Sie ist reich an Dreiklängen, darunter { $first }, { $second } und { $third }.
    .define = Ein Dreiklang besteht aus einem Grundton mit Terz und Quinte. Es gibt ihn in Dur und Moll, vermindert und übermäßig.
    .ask = Welche Dreiklänge enthält sie?
    .answer = Es sind { $value }.
    .terms = Dreiklang, Dreiklänge, Dreiklängen

tertian-triads =
    .title = Terzschichtungsdreiklänge
    .a = Schichten wir jeden übernächsten Ton, so lauten die Dreiklänge auf ihren Stufen { $value }.
    .b = Aus jedem übernächsten Ton gebaut sind die Akkorde auf ihren Stufen { $value }.
    .long = Schichten wir jeden übernächsten Ton, so beginnen die Dreiklänge auf ihren Stufen mit { $first }, { $second } und { $third }.
    .define = Einen Ton nehmen, den nächsten auslassen, wieder nehmen, auslassen und nehmen: So entsteht auf jeder Stufe ein Dreiklang. Man nennt ihn einen Terzschichtungsdreiklang.
    .ask = Welche Dreiklänge stehen auf ihren Stufen?
    .answer = Der Reihe nach { $value }.
    .terms = Terzschichtungsdreiklang

augmented-triads =
    .title = Übermäßige Dreiklänge
    .a = Nach Grundtönen gezählt enthält sie { $count ->
        [one] ‹einen› übermäßigen Dreiklang
       *[other] { $value } { $count ->
            [0] übermäßigen
           *[other] übermäßige
        } Dreiklänge
    }{ $places }.
    .b = Auf { $count ->
        [0] ‹keinem›
        [one] ‹einem›
       *[other] { $value }
    } ihrer Töne steht ein übermäßiger Dreiklang{ $places }.
    .define = Ein übermäßiger Dreiklang schichtet große Terz auf große Terz und teilt so die Oktave in gleiche Teile. Jeder seiner Töne kann Grundton sein.
    .noun = übermäßige Dreiklänge
    .ask = Wie viele übermäßige Dreiklänge enthält sie?
    .answer = Sie enthält { $count ->
        [one] ‹einen› übermäßigen Dreiklang
       *[other] { $value } { $count ->
            [0] übermäßigen
           *[other] übermäßige
        } Dreiklänge
    }.
    .terms = übermäßiger Dreiklang, übermäßige Dreiklänge, übermäßigen Dreiklänge, übermäßigen Dreiklang

parsimonious-links =
    .title = Sparsame Verbindungen
    .a = Zwischen ihren Dreiklängen gibt es { $count ->
        [one] ‹eine› sparsame Verbindung
       *[other] { $value } { $count ->
            [0] sparsamen
           *[other] sparsame
        } Verbindungen
    }{ $places }.
    .b = { $count ->
        [0] Von Dreiklang zu Dreiklang, nur je einen Ton bewegend, gibt es ‹keine› Verbindungen.
        [one] Bewegen wir von Dreiklang zu Dreiklang je einen Ton, so findet sich ‹eine› Verbindung{ $places }.
       *[other] Bewegen wir von Dreiklang zu Dreiklang je einen Ton, so finden sich { $value } Verbindungen{ $places }.
    }
    .define = Eine sparsame Verbindung führt von einem Durdreiklang zu einem Molldreiklang, wenn dabei alle Töne bis auf den letzten liegen bleiben und dieser einen kleinen Schritt macht. So verbundene Akkorde gehen weich ineinander über.
    .noun = sparsame Verbindungen zwischen Dreiklängen
    .ask = Wie viele sparsame Verbindungen gibt es zwischen ihren Dreiklängen?
    .answer = Es gibt { $count ->
        [one] ‹eine› Verbindung
       *[other] { $value } Verbindungen
    }.
    .terms = sparsame Verbindung, sparsame Verbindungen, sparsamen Verbindungen

seventh-chords =
    .title = Septakkorde
    .a = Sie enthält { $count ->
        [one] ‹einen› Septakkord
       *[other] { $value } Septakkorde
    }{ $places }.
    .b = Es gibt { $count ->
        [one] ‹einen› Septakkord
       *[other] { $value } Septakkorde
    } in ihr{ $places }.
    .define = Ein Septakkord ist ein Dreiklang mit einer weiteren Terz obenauf. Wir zählen die gebräuchlichen Arten, vom großen Septakkord bis zum verminderten.
    .noun = Septakkorde
    .ask = Wie viele Septakkorde enthält sie?
    .answer = Sie enthält { $count ->
        [one] ‹einen› Septakkord
       *[other] { $value } Septakkorde
    }.
    .terms = Septakkord, Septakkorde

sevenths =
    .title = Namen der Septakkorde
    .a = { $count ->
        [one] Ihr einziger Septakkord ist { $value }.
       *[other] Ihre Septakkorde sind { $value }.
    }
    .b = Mit Septime bietet sie { $value }.
    .none = Sie enthält ‹keine› Septakkorde.
    .long = Sie ist reich an Septakkorden, darunter { $first }, { $second } und { $third }.
    .define = Septakkorde benennt man nach Grundton und Art.
    .ask = Wie heißen ihre Septakkorde?
    .answer = Es sind { $value }.

tertian-sevenths =
    .title = Terzschichtungsseptakkorde
    .a = Schichten wir noch einen übernächsten Ton darauf, so lauten die Septakkorde auf ihren Stufen { $value }.
    .b = Die Septakkorde auf ihren Stufen sind { $value }.
    .long = Die Septakkorde auf ihren Stufen beginnen mit { $first } und { $second }.
    .define = Setzen wir auf den Dreiklang einer Stufe noch den übernächsten Ton: Das ist ihr Terzschichtungsseptakkord.
    .ask = Welche Septakkorde stehen auf ihren Stufen?
    .answer = Der Reihe nach { $value }.
    .terms = Terzschichtungsseptakkord

hamiltonian-paths =
    .title = Hamiltonwege durch die Dreiklänge
    .a = Es gibt { $count ->
        [one] ‹einen› Weg
       *[other] { $value } Wege
    } durch alle ihre Durdreiklänge und Molldreiklänge.
    .b = { $count ->
        [0] Jeden Durdreiklang und Molldreiklang zu besuchen, ohne sich zu wiederholen, gelingt nicht: Es gibt ‹keinen› solchen Weg.
        [one] Jeden Durdreiklang und Molldreiklang zu besuchen, ohne sich zu wiederholen, gelingt auf ‹einem› Weg.
       *[other] Jeden Durdreiklang und Molldreiklang zu besuchen, ohne sich zu wiederholen, gelingt auf { $value } Wegen.
    }
    .define = Ein Hamiltonweg besucht alle Durdreiklänge und Molldreiklänge der Tonleiter, ohne sich zu wiederholen, und bewegt dabei Ton um Ton allein.
    .noun = Wege durch alle Dreiklänge
    .terms = Hamiltonweg, Hamiltonwege

hamiltonian-cycles =
    .title = Hamiltonkreise durch die Dreiklänge
    .a = Es gibt { $count ->
        [one] ‹eine› Rundreise
       *[other] { $value } Rundreisen
    } durch alle ihre Durdreiklänge und Molldreiklänge.
    .b = { $count ->
        [0] Eine Rundreise durch alle Dreiklänge gibt es nicht: Ihre Zahl ist ‹null›.
        [one] Und wieder nach Hause: ‹Eine› Rundreise führt durch alle Dreiklänge zum Anfang zurück.
       *[other] Und wieder nach Hause: { $value } Rundreisen führen durch alle Dreiklänge zum Anfang zurück.
    }
    .define = Ein Hamiltonkreis ist eine Rundreise: Sie besucht alle Durdreiklänge und Molldreiklänge, wobei sich je ein Ton ändert, und kehrt an den Anfang zurück.
    .noun = Rundreisen durch alle Dreiklänge
    .terms = Hamiltonkreis, Hamiltonkreise

## Verwandte

one-step-neighbours =
    .title = Nachbartonleitern
    .a = Sie hat { $count ->
        [one] ‹eine› Nachbartonleiter
       *[other] { $value } Nachbartonleitern
    }.
    .b = Rücken wir einen Ton auf den nächsten freien Platz, so erreichen wir { $count ->
        [one] ‹eine› andere Tonleiter
       *[other] { $value } { $count ->
            [0] anderen
           *[other] andere
        } Tonleitern
    }.
    .define = Eine Nachbartonleiter erreicht man, indem man einen Ton auf den nächsten freien Platz rückt. In Nachbarn gleitet man am leichtesten hinüber.
    .noun = Nachbartonleitern
    .ask = Wie viele Nachbartonleitern hat sie?
    .answer = Sie hat { $count ->
        [one] ‹eine› Nachbartonleiter
       *[other] { $value } Nachbartonleitern
    }.
    .terms = Nachbartonleiter, Nachbartonleitern

named-subsets =
    .title = Benannte Tonleitern darin
    .a = In ihr findet man { $value }.
    .b = Lässt man Töne weg, so bleibt etwas mit eigenem Namen: { $value }.
    .none = Sie enthält ‹keine› kleinere Tonleiter, die unsere Quellen benennen.
    .long = Sie enthält mehrere kleinere Tonleitern mit eigenem Namen, darunter { $first } und { $second }.
    .define = Manche Tonleitern stecken in anderen: Lässt man ein paar Töne weg, so hat der Rest einen eigenen Namen.
    .ask = Welche benannten Tonleitern stecken in ihr?
    .answer = Man findet { $value }.

named-supersets =
    .title = Benannte Tonleitern darum
    .a = Enthalten ist sie in { $value }.
    .b = Nimmt man Töne hinzu, so kommt man zu { $value }.
    .none = Um sie herum gibt es ‹keine› größere Tonleiter mit eigenem Namen.
    .long = Enthalten ist sie in mehreren größeren Tonleitern mit eigenem Namen, darunter { $first } und { $second }.
    .define = Manche Tonleitern sind Teile größerer Tonleitern auf demselben Grundton: Nimmt man ein paar Töne hinzu, so hat das Ganze einen eigenen Namen.
    .ask = Welche größeren benannten Tonleitern enthalten sie?
    .answer = Sie ist Teil von { $value }.

## Konsonanz

just-ratios =
    .title = Nächste reine Verhältnisse
    .a = Die nächsten reinen Verhältnisse sind { $value }.
    .b = In reiner Stimmung hätten ihre Töne die Verhältnisse { $value }.
    .long = Ihre nächsten reinen Verhältnisse beginnen mit { $first }, { $second } und { $third }.
    .define = Ein reines Verhältnis ist ein Verhältnis kleiner ganzer Zahlen zwischen den Frequenzen von Tönen. Je einfacher es ist, desto mehr verschmelzen die Töne.
    .ask = Welche reinen Verhältnisse liegen ihren Tönen am nächsten?
    .answer = Es sind { $value }.
    .terms = reines Verhältnis, reinen Verhältnisse, reine Verhältnisse

huron-consonance =
    .title = Konsonanz nach Huron
    .a = Nach Hurons Gewichten summiert sich ihre Konsonanz zu { $value }.
    .b = Wiegt man jedes Intervall nach David Huron, so ist die Summe { $value }.
    .define = David Huron gibt jeder Intervallklasse ein Gewicht, hoch für Konsonanz und niedrig für Dissonanz. Ihre Summe sagt, wie konsonant eine Tonleiter sein kann.

barlow-harmonicity =
    .title = Harmonizität nach Barlow
    .a = Gegen den Grundton sind die Harmonizitäten ihrer Töne, gerundet, { $value }.
    .b = Nach Clarence Barlow haben ihre Töne, gerundet, die Harmonizitäten { $value }.
    .none = Außer dem Grundton gibt es ‹keine› Töne zu vergleichen.
    .long = Gerundet beginnen die Harmonizitäten mit { $first }, { $second } und { $third }.
    .define = Clarence Barlows Harmonizität sagt, wie einfach ein Verhältnis ist. Einfache Verhältnisse haben eine große Harmonizität, ob mit oder ohne Minuszeichen.
    .terms = Harmonizität, Harmonizitäten

euler-gradus =
    .title = Gradus suavitatis nach Euler
    .a = Eulers Grade der Lieblichkeit sind, vom Grundton aufwärts, { $value }.
    .b = Nach Leonhard Euler haben ihre Töne gegen den Grundton die Grade { $value }.
    .long = Eulers Grade der Lieblichkeit beginnen mit { $first }, { $second } und { $third }.
    .define = Leonhard Euler gab jedem Verhältnis einen Grad der Lieblichkeit, gradus suavitatis. Je niedriger der Grad, desto lieblicher das Intervall.
    .terms = gradus suavitatis, Grad der Lieblichkeit, Grade der Lieblichkeit

hutchinson-knopoff-roughness =
    .title = Rauigkeit nach Hutchinson und Knopoff
    .a = Ihre Rauigkeit nach Hutchinson und Knopoff ist { $value }.
    .b = Lassen wir alle ihre Töne zusammen klingen: Nach Hutchinson und Knopoff ist die Rauigkeit { $value }.
    .define = Hutchinson und Knopoff messen die Rauigkeit am Schweben benachbarter Teiltöne, wenn alle Töne zusammen klingen.
    .terms = Rauigkeit nach Hutchinson und Knopoff

just-errors =
    .title = Abweichungen von der reinen Stimmung
    .a = Gegen die reine Stimmung weichen ihre Töne, gerundet, um { $value } Cent ab.
    .b = Auf ganze Cent gerundet sind die Abweichungen von der reinen Stimmung { $value }.
    .long = Der Ton, der am weitesten von der reinen Stimmung abliegt, weicht gerundet um { $entry } Cent ab.
    .define = Die gleichstufige Klaviatur ist ein Kompromiss. Die Abweichung eines Tones sagt, wie weit er vom nächsten reinen Verhältnis liegt, gemessen in Cent.
    .define-other = Eine gleichstufige Teilung ist ein Kompromiss. Die Abweichung eines Tones sagt, wie weit er vom nächsten reinen Verhältnis liegt, gemessen in Cent.

sethares-roughness =
    .title = Rauigkeit nach Sethares
    .a = Ihre Rauigkeit nach Sethares ist { $value }.
    .b = Lassen wir alle ihre Töne zusammen klingen: Nach dem Modell von Sethares ist die Rauigkeit { $value }.
    .define = William Sethares zählt das Schweben aller Teiltöne zusammen. Die Einheit ist hier die Rauigkeit reiner Töne, die nahe beim Stimmton eng beieinander liegen.
    .terms = Rauigkeit nach Sethares

## Stimmung

tone-cents =
    .title = Töne in Cent
    .a = In Cent über dem Grundton liegen ihre Töne bei { $value }.
    .b = In Cent gemessen und gerundet liegen die Töne bei { $value }.
    .long = In Cent über dem Grundton beginnen ihre Töne mit { $first }, { $second } und { $third }.
    .define = Ein Cent ist eine winzige Einheit der Tonhöhe: ein Hundertstel eines gleichstufigen Halbtons.
    .ask = Wie viele Cent über dem Grundton liegen ihre Töne?
    .answer = Bei { $value }.
    .terms = Cent

five-limit-cents =
    .title = Reine Quint-Terz-Stimmung
    .a = In reiner Quint-Terz-Stimmung, auf ganze Cent gerundet, liegen ihre Töne bei { $value }.
    .b = In reiner Quint-Terz-Stimmung ändert sich das Bild: Gerundet liegt { $tone } bei { $entry } Cent.
    .long = In reiner Quint-Terz-Stimmung liegt { $tone } gerundet bei { $entry } Cent.
    .define = Die reine Quint-Terz-Stimmung baut jedes Verhältnis aus den kleinsten Primzahlen, sodass Quinten und Terzen rein sind.
    .terms = Quint-Terz-Stimmung

kirnberger-cents =
    .title = Kirnberger III
    .a = In Kirnbergers Stimmung, auf ganze Cent gerundet, liegen ihre Töne bei { $value }.
    .b = In Kirnbergers Stimmung liegt { $tone } gerundet bei { $entry } Cent.
    .long = In Kirnbergers Stimmung liegt { $tone } gerundet bei { $entry } Cent.
    .define = Johann Philipp Kirnberger hat einige Quinten so temperiert, dass die meistgebrauchte der Terzen rein ist und die übrigen brauchbar bleiben.
    .terms = Kirnberger, Kirnbergers

pythagorean-cents =
    .title = Pythagoreische Stimmung
    .a = In pythagoreischer Stimmung, auf ganze Cent gerundet, liegen ihre Töne bei { $value }.
    .b = In pythagoreischer Stimmung liegt { $tone } gerundet bei { $entry } Cent.
    .long = In pythagoreischer Stimmung liegt { $tone } gerundet bei { $entry } Cent.
    .define = Die pythagoreische Stimmung besteht allein aus reinen Quinten. Ihre Terzen geraten weit.
    .terms = pythagoreische Stimmung, pythagoreischer Stimmung

quarter-comma-cents =
    .title = Mitteltönige Stimmung (Viertelkomma)
    .a = In der mitteltönigen Stimmung mit geteiltem Komma, auf ganze Cent gerundet, liegen ihre Töne bei { $value }.
    .b = In mitteltöniger Stimmung liegt { $tone } gerundet bei { $entry } Cent.
    .long = In mitteltöniger Stimmung liegt { $tone } gerundet bei { $entry } Cent.
    .define = Die mitteltönige Stimmung macht die Quinten etwas enger, sodass die meisten großen Terzen rein sind.
    .terms = mitteltönige Stimmung, mitteltöniger Stimmung, mitteltönigen Stimmung

tone-frequencies =
    .title = Töne in Hertz
    .a = Auf ganze Hertz gerundet haben ihre Töne die Frequenzen { $value }.
    .b = In Hertz gerundet schwingen die Töne mit { $value }.
    .long = Auf ganze Hertz gerundet beginnen die Frequenzen mit { $first }, { $second } und { $third }.
    .define = Hertz sagen, wie oft ein Ton in einem Takt der Sekundenuhr schwingt.
    .terms = Hertz

vallotti-cents =
    .title = Vallotti
    .a = In Vallottis Stimmung, auf ganze Cent gerundet, liegen ihre Töne bei { $value }.
    .b = In Vallottis Stimmung liegt { $tone } gerundet bei { $entry } Cent.
    .long = In Vallottis Stimmung liegt { $tone } gerundet bei { $entry } Cent.
    .define = Francesco Vallotti verteilte das Komma auf die Quinten zwischen den weißen Tasten und ließ die übrigen rein.
    .terms = Vallotti, Vallottis

werckmeister-cents =
    .title = Werckmeister III
    .a = In Werckmeisters Stimmung, auf ganze Cent gerundet, liegen ihre Töne bei { $value }.
    .b = In Werckmeisters Stimmung liegt { $tone } gerundet bei { $entry } Cent.
    .long = In Werckmeisters Stimmung liegt { $tone } gerundet bei { $entry } Cent.
    .define = Andreas Werckmeister machte einige der Quinten um einen Teil eines Kommas enger, sodass alle Tonarten spielbar sind und jede ihre Farbe hat.
    .terms = Werckmeister, Werckmeisters

midi-tuning-words =
    .title = Werte im MIDI-Stimmungsstandard
    .a = Im MIDI-Stimmungsstandard schreibt man den tiefsten Ton { $first }.
    .b = Einem Synthesizer, der die MIDI-Stimmung kennt, sagt man für den tiefsten Ton { $first }.
    .long = Im MIDI-Stimmungsstandard schreibt man den tiefsten Ton { $first }.
    .long-b = Einem Synthesizer, der die MIDI-Stimmung kennt, sagt man für den tiefsten Ton { $first }.
    .define = Der MIDI-Stimmungsstandard schreibt jeden Ton als Taste und als Bruchteil darüber, in Bytes. Synthesizer lesen ihn.
    .terms = MIDI-Stimmung, MIDI-Stimmungsstandard

## Farbe und Zuhause

nearest-relative =
    .title = Nächste vertraute Tonleiter
    .a = { $label ->
        [changed] Stellen wir auf demselben Grundton { $value } daneben. Dort { $many ->
            [one] steht
           *[other] stehen
        } stattdessen { $names }.
        [left-out] Lässt man in { $value } auf demselben Grundton { $names } weg, so bleibt diese Tonleiter.
       *[added] Nimmt man zu { $value } auf demselben Grundton { $names } hinzu, so entsteht diese Tonleiter.
    }
    .b = { $label ->
        [changed] Unter den vertrauten Tonleitern steht ihr { $value } am nächsten. Der Unterschied dort: { $names }.
        [left-out] Man nehme auf demselben Grundton { $value } und lasse { $names } weg.
       *[added] Man nehme auf demselben Grundton { $value } und füge { $names } hinzu.
    }
    .define = Die nächste vertraute Tonleiter ist Dur, Moll oder eine Pentatonik auf demselben Grundton: die mit den wenigsten Änderungen.
    .terms = nächste vertraute Tonleiter
    .ask = Welche vertraute Tonleiter auf demselben Grundton steht ihr am nächsten?
    .answer = Am nächsten steht { $value }.

colour-tones =
    .title = Farbtöne
    .a = { $count ->
        [one] Ihr Farbton ist { $value }. Wer ihn aushält, hört, welche Tonleiter das ist.
       *[other] Ihre Farbtöne sind { $value }. Wer sie aushält, hört, welche Tonleiter das ist.
    }
    .b = { $count ->
        [one] Ihre Farbe gibt ihr { $value }. Ohne diesen Ton könnte man sie für ihre vertraute Nachbarin halten.
       *[other] Ihre Farbe geben ihr { $value }. Ohne diese Töne könnte man sie für ihre vertraute Nachbarin halten.
    }
    .long = Fast jeder Ton gibt ihr Farbe, von { $first } bis { $last }.
    .define = Ein Farbton unterscheidet eine Tonleiter von ihrer nächsten vertrauten Nachbarin. Auf ihm verweilt man beim Spielen.
    .terms = Farbton, Farbtöne
    .ask = Welche Töne geben der Tonleiter ihre Farbe?
    .answer = { $count ->
        [one] Der Farbton ist { $value }.
       *[other] Die Farbtöne sind { $value }.
    }

brightness =
    .title = Helligkeit
    .a = Zählt man die Schritte vom Grundton zu jedem Ton zusammen, so ist ihre Helligkeit { $value }.
    .b = Ihre Helligkeit beträgt { $value }.
    .define = Steigt ein Ton, so wird eine Tonleiter heller; sinkt er, so wird sie dunkler. Die Helligkeit misst das: Sie zählt zusammen, wie viele Schritte jeder Ton über dem Grundton liegt.
    .more = Sie ist heller als { $other }: Zusammen liegen ihre Töne ‹höher› über dem Grundton.
    .fewer = Sie ist dunkler als { $other }: Zusammen liegen ihre Töne ‹niedriger› über dem Grundton.
    .same = Sie ist genauso hell wie { $other }: Zusammen liegen ihre Töne ‹gleich hoch› über dem Grundton.
    .terms = Helligkeit
    .ask = Wie hell ist sie, alle Schritte über dem Grundton zusammengezählt?
    .answer = Ihre Helligkeit ist { $value }.

tonic =
    .title = Tonika
    .a = Zu Hause ist sie in { $value }: Dort kommt eine Melodie zur Ruhe.
    .b = Ihre Tonika ist { $value }. Wer ankommen will, spielt sie.
    .define = Die Tonika ist der Akkord auf dem Grundton. Sie ist das Zuhause: Endet eine Melodie dort, so klingt sie fertig.
    .terms = Tonika
    .ask = In welchem Akkord ist sie zu Hause?
    .answer = Ihre Tonika ist { $value }.

colour-chords =
    .title = Farbakkorde
    .a = { $count ->
        [one] Ihre Farbe trägt der Akkord { $value }. Von der Tonika dorthin und zurück: So hört man die Tonleiter.
       *[other] Ihre Farbe tragen die Akkorde { $value }. Von der Tonika zu einem davon und zurück: So hört man die Tonleiter.
    }
    .b = Neben der Tonika klingt ihre Farbe in { $value }. Dazwischen kann man hin und her pendeln und darüber singen.
    .long = Viele ihrer Akkorde tragen ihre Farbe. Am besten beginnt man mit { $first } und kehrt zur Tonika zurück.
    .define = Ein Farbakkord ist ein Dur- oder Molldreiklang, der einen Farbton enthält. Die Tonika und ein solcher Akkord im Wechsel genügen, damit man eine Tonleiter im Ohr behält.
    .terms = Farbakkord, Farbakkorde
    .ask = Welche Akkorde tragen ihre Farbe?
    .answer = { $count ->
        [one] Der Farbakkord ist { $value }.
       *[other] Die Farbakkorde sind { $value }.
    }

tendency-tones =
    .title = Strebetöne
    .a = { $count ->
        [one] { $value } strebt weiter, in die Tonika hinein{ $places }.
       *[other] { $value } streben weiter, in die Tonika hinein{ $places }.
    }
    .b = Über der Tonika hört das Ohr einen Zug in { $value }{ $places }.
    .define = Ein Strebeton liegt dicht außerhalb der Tonika, einen Halbton neben einem ihrer Töne. Das Ohr erwartet, dass er seinem Nachbarn nachgibt.
    .terms = Strebeton, Strebetöne
    .ask = Welche ihrer Töne streben in die Tonika?
    .answer = { $count ->
        [one] { $value } strebt dorthin.
       *[other] { $value } streben dorthin.
    }

chord-symbols =
    .title = Akkordsymbole, zu denen sie passt
    .a = Vom Akkordblatt gelesen, passt sie zu { $value }.
    .b = Wo { $value } steht, ist diese Tonleiter richtig.
    .long = Sie passt zu mehreren Akkordsymbolen, darunter { $first } und { $second }.
    .define = Ein Akkordsymbol sagt, welcher Akkord klingt. Eine Tonleiter passt dazu, wenn alle Töne des Akkords zu ihr gehören.
    .terms = Akkordsymbol, Akkordsymbole
    .ask = Zu welchem Akkord auf ihrem Grundton passt sie?
    .answer = Sie passt zu { $value }.

tensions =
    .title = Optionstöne
    .a = { $count ->
        [one] Über ihrem Akkord ausgehalten, macht { $value } ihn reicher und fügt sich ein.
       *[other] Über ihrem Akkord ausgehalten, machen { $value } ihn reicher und fügen sich ein.
    }
    .b = Wem der bloße Akkord zu schlicht ist, der fügt { $value } hinzu. Das klingt voller.
    .define = Ein Optionston liegt einen Ganzton über einem Ton des Akkords. Man kann ihn aushalten: Er macht den Klang reicher und fügt sich ein.
    .terms = Optionston, Optionstöne
    .ask = Welche Töne darf man über ihrem Akkord aushalten?
    .answer = Aushalten darf man { $value }.

avoid-tones =
    .title = Zu meidende Töne
    .a = { $count ->
        [one] Durch { $value } geht man nur hindurch. Über dem Akkord ausgehalten, reibt sich der Ton um einen Halbton.
       *[other] Durch { $value } geht man nur hindurch. Über dem Akkord ausgehalten, reiben sie sich um einen Halbton.
    }
    .b = Durch { $value } eilt man hindurch, solange der Akkord klingt. Im Vorübergehen ist die Reibung schön, auf Dauer ist sie hart.
    .define = Ein zu meidender Ton liegt einen Halbton über einem Ton des Akkords. Im Vorübergehen ist er willkommen; wird er ausgehalten, so verliert der Akkord seinen eigenen Klang.
    .terms = zu meidender Ton, zu meidende Töne
    .ask = Durch welche Töne geht man über ihrem Akkord nur hindurch?
    .answer = Nur hindurch geht man durch { $value }.

tetrachords =
    .title = Tetrachorde
    .a = Vom Grundton aufwärts sind ihre Bausteine { $value }.
    .b = Ihre Bausteine, der untere und dann der obere, sind { $value }.
    .define = Ein Tetrachord ist ein Baustein einer Tonleiter: die Töne ihres unteren Teils oder die ihres oberen bis zur Oktave. Tonleitern mit demselben Baustein klingen dort gleich.
    .word-major = Dur-Tetrachord
    .word-minor = Moll-Tetrachord
    .word-phrygian = phrygischer Tetrachord
    .word-harmonic = harmonischer Tetrachord
    .word-whole-tone = Ganzton-Tetrachord
    .terms = Tetrachord, Tetrachorde
    .ask = Aus welchen Tetrachorden besteht sie?
    .answer = Ihre Tetrachorde sind { $value }.

same-tones =
    .title = Dieselben Töne, anderes Zuhause
    .a = Ihre Töne gehören auch zu einer anderen Tonleiter mit anderem Zuhause: Sie ist { $value }.
    .b = Die Töne bleiben, das Zuhause wechselt. So gehört, ist sie { $value }.
    .define = Wird ein anderer ihrer Töne zum Zuhause, so ergeben dieselben Töne eine andere Tonleiter. Zu Hause ist eine Melodie dort, wo sie zur Ruhe kommt.
    .ask = Von welcher anderen Tonleiter ist sie ein Modus?
    .answer = Sie ist { $value }.

mode-names =
    .title = Modi mit Namen
    .a = Beginnt man der Reihe nach auf jedem ihrer Töne, so erhält man { $value }.
    .b = Ihre Modi heißen { $value }.
    .long = Ihre Modi reichen von { $first } bis { $last }.
    .define = Jeder Ton einer Tonleiter kann Zuhause sein, und mit jedem neuen Zuhause ändert sich die Folge der Schritte. Deshalb haben die Modi eigene Namen.
    .ask = Wie heißen ihre Modi?
    .answer = Sie heißen { $value }.
