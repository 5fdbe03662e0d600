### Was eine Lektion auf Deutsch sagt. Eine Nachricht für jede Tatsache; die Attribute erklärt messages.py.
### Außerhalb von ‹ › steht nichts, was zu beweisen wäre: keine Zahlen, Ordnungszahlen oder Tonnamen.
### `.terms` nennt die Fachwörter einer Tatsache, durch Kommas getrennt.

## Vergleiche und Seltenheit

compare-more =
    .a = Sie hat ‹mehr› { $noun } als { $other }.
    .b = Hier gibt es ‹mehr› { $noun }. So viele hat { $other } nicht.
compare-fewer =
    .a = Sie hat ‹weniger› { $noun } als { $other }.
    .b = Hier gibt es ‹weniger› { $noun }. Mehr davon hat { $other }.
compare-same =
    .a = Sie hat ‹ebenso viele› { $noun } wie { $other }.
    .b = Wie { $other } hat sie ‹ebenso viele› { $noun }.
compare-alike =
    .a = So ist es auch anderswo: { $other } { $value }.
    .b = Und { $other }? Auch für sie gilt: Sie { $value }.
compare-unlike =
    .a = Und { $other }? Sie { $value }.
    .b = Anders { $other }: Sie { $value }.
share-words =
    .one = eine
rare =
    .a = Unter allen Tonleitern dieser Größe gilt das nur für { $share }.
    .b = Das ist selten. Von den Tonleitern mit ebenso vielen Tönen gilt es für { $share }.
    .c = Wenige Tonleitern können das von sich sagen: Es gilt für { $share } unter denen gleicher Größe.
common =
    .a = Unter allen Tonleitern dieser Größe gilt das für { $share }.
    .b = Sie ist in guter Gesellschaft: Von den Tonleitern mit ebenso vielen Tönen gilt es für { $share }.
    .c = So sind auch andere Tonleitern. Es gilt für { $share } unter denen gleicher Größe.
rare-classes =
    .a = Unter allen Arten von Tonleitern dieser Größe gilt das nur für { $share }.
    .b = Das ist selten. Von den Arten der Tonleitern mit ebenso vielen Tönen gilt es für { $share }.
common-classes =
    .a = Unter allen Arten von Tonleitern dieser Größe gilt das für { $share }.
    .b = Sie ist in guter Gesellschaft: Von den Arten der Tonleitern mit ebenso vielen Tönen gilt es für { $share }.
