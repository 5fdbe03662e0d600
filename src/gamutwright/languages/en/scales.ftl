# Names of scales as they stand inside a sentence.

scale-unnamed =
    .a = this scale
familiar-ionian =
    .a = the major scale
familiar-aeolian =
    .a = the natural minor scale
familiar-dorian =
    .a = the dorian scale
familiar-phrygian =
    .a = the phrygian scale
familiar-lydian =
    .a = the lydian scale
familiar-mixolydian =
    .a = the mixolydian scale
familiar-locrian =
    .a = the locrian scale
familiar-harmonic-minor =
    .a = the harmonic minor scale
familiar-melodic-minor =
    .a = the melodic minor scale
familiar-harmonic-major =
    .a = the harmonic major scale
familiar-major-pentatonic =
    .a = the major pentatonic scale
familiar-minor-pentatonic =
    .a = the minor pentatonic scale
