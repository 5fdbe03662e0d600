# Namen von Tonleitern, wie sie im Satz stehen; Nominativ und Akkusativ sind gleich.

scale-unnamed =
    .a = diese Tonleiter
familiar-ionian =
    .a = die Durtonleiter
familiar-aeolian =
    .a = die natürliche Molltonleiter
familiar-dorian =
    .a = die dorische Tonleiter
familiar-phrygian =
    .a = die phrygische Tonleiter
familiar-lydian =
    .a = die lydische Tonleiter
familiar-mixolydian =
    .a = die mixolydische Tonleiter
familiar-locrian =
    .a = die lokrische Tonleiter
familiar-harmonic-minor =
    .a = die harmonische Molltonleiter
familiar-melodic-minor =
    .a = die melodische Molltonleiter
familiar-harmonic-major =
    .a = die harmonische Durtonleiter
familiar-major-pentatonic =
    .a = die Durpentatonik
familiar-minor-pentatonic =
    .a = die Mollpentatonik
