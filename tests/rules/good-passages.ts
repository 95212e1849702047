/**
 * Passages as teachers write them, all within what is usually asked of a student: what a rule says about any of these is a
 * false alarm. Invented for this test; that they are playable is common practice, no source.
 */
export const GOOD: readonly string[] = [
  `passage: G major scale three octaves
tempo: 1/4 = 100
1/8 slur(G3 A3 B3 C4) slur(D4 E4 F#4 G4) slur(A4 B4 C5 D5) slur(E5 F#5 G5 A5) slur(B5 C6 D6 E6) slur(F#6 G6)`,
  `passage: A major arpeggio
tempo: 1/4 = 72
1/12 A3 C#4 E4 A4 C#5 E5 A5 C#6 E6 A6 E6 C#6 A5 E5 C#5 A4`,
  `passage: sixteenth étude first position
tempo: 1/4 = 92
1/16 G4 B4 D5 G5 F#5 E5 D5 C5 B4 D5 G4 B4 A4 C5 E5 A5 G5 F#5 E5 D5 C5 E5 A4 C5`,
  `passage: third position étude
tempo: 1/4 = 80
1/16 C5 [II 1] D5 E5 F5 G5 [I 1] A5 B5 C6 B5 A5 G5 F5 E5 D5 C5 B4`,
  `passage: fifth position
tempo: 1/4 = 72
1/16 B5 [I 1] C6 D6 E6 D6 C6 B5 A5 G5 F#5 E5 D5`,
  `passage: 7th position high
tempo: 1/4 = 60
1/8 D6 E6 F#6 G6 A6 B6 A6 G6 F#6 E6 D6`,
  `passage: artificial melody slow
tempo: 1/4 = 60
harmonics: all
1/4 A5 B5 C6 D6 E6 1/2 D6 1/4 C6 B5 A5 1/2 E6`,
  `passage: artificial melody moderate printed fourths
tempo: 1/4 = 80
1/8 A4<>D5 B4<>E5 C5<>F5 D5<>G5 1/4 E5<>A5 1/8 D5<>G5 C5<>F5 B4<>E5 1/4 A4<>D5`,
  `passage: eight note must show
harmonics: all
1/4 D6 E6 F#6 G6 A6 B6 C#7 D7`,
  `passage: natural harmonics
tempo: 1/4 = 90
1/4 <>A4 [III] <>G4 [III] <>D5 [II] D6o A6o E6o B6o`,
  `passage: double stops thirds
tempo: 1/4 = 60
1/8 G4+B4 A4+C5 B4+D5 C5+E5 D5+F#5 E5+G5 F#5+A5 G5+B5`,
  `passage: double stops sixths
tempo: 1/4 = 60
1/8 B3+G4 C4+A4 D4+B4 E4+C5 F#4+D5 G4+E5 A4+F#5 B4+G5`,
  `passage: octaves
tempo: 1/4 = 60
1/8 A3+A4 B3+B4 C4+C5 D4+D5 E4+E5 D4+D5`,
  `passage: double-stop harmonics
tempo: 1/4 = 50
1/4 D6o+A6o E6o+B6o D6o+A5o 1/2 G5o+D6o E6o+C7o`,
  `passage: double-stop harmonics thirds
tempo: 1/4 = 44
1/2 D6o+F#6o E6o+G6o F#6o+A6o G6o+B6o A6o+C#7o E6o+G#6o C6o+E6o`,
  `passage: cello thumb
instrument: cello
tempo: 1/4 = 66
1/8 A3 B3 C4 D4 E4 F#4 G4 A4 B4 C#5 D5 E5 D5 C#5 B4 A4`,
  `passage: cello thumb harmonics
instrument: cello
tempo: 1/4 = 56
1/4 A3<>D4 B3<>E4 C4<>F4 D4<>G4 E4<>A4 A4<>D5`,
  `passage: cello low
instrument: cello
tempo: 1/4 = 80
1/8 C2 D2 E2 F2 G2 A2 B2 C3 D3 E3 F3 G3 A3 B3 C4`,
  `passage: viola C-string study
instrument: viola
tempo: 1/4 = 72
1/8 C3 E3 G3 C4 E4 G4 C5 G4 E4 C4 G3 E3 1/4 A5o G5o D6o`,
  `passage: fast scale
tempo: 1/4 = 120
1/16 slur(A3 B3 C#4 D4 E4 F#4 G#4 A4) slur(B4 C#5 D5 E5 F#5 G#5 A5 B5) slur(C#6 D6 E6 F#6 G#6 A6 G#6 F#6) slur(E6 D6 C#6 B5 A5 G#5 F#5 E5)`,
  `passage: fast scale 144
tempo: 1/4 = 144
1/16 G3 A3 B3 C4 D4 E4 F#4 G4 A4 B4 C5 D5 E5 F#5 G5 A5 B5 C6 D6 E6 F#6 G6 F#6 E6 D6 C6 B5 A5 G5 F#5 E5 D5`,
  `passage: arpeggios
tempo: 1/4 = 100
1/12 G3 B3 D4 G4 B4 D5 G5 B5 D6 G6 D6 B5 G5 D5 B4 G4 D4 B3`,
  `passage: octaves scale
tempo: 1/4 = 72
1/8 A3+A4 B3+B4 C#4+C#5 D4+D5 E4+E5 F#4+F#5 G#4+G#5 A4+A5 B4+B5 C#5+C#6 D5+D6`,
  `passage: thirds
tempo: 1/4 = 84
1/8 G4+B4 A4+C5 B4+D5 C5+E5 D5+F#5 E5+G5 F#5+A5 G5+B5 A5+C6 B5+D6 C6+E6`,
  `passage: sixth position slurs
tempo: 1/4 = 88
1/16 D6 [I 2] C6 B5 A5 B5 C6 D6 E6 F#6 E6 D6 C6`,
  `passage: chromatic
tempo: 1/4 = 80
1/16 G4 Ab4 A4 Bb4 B4 C5 C#5 D5 Eb5 E5 F5 F#5 G5 Ab5 A5`,
  `passage: scale in artificial harmonics
tempo: 1/4 = 72
harmonics: all
1/8 A5 B5 C#6 D6 E6 F#6 G#6 A6 B6 C#7 D7 E7`,
  `passage: scale in printed fourths on one string
tempo: 1/4 = 66
1/8 E4<>A4 [III] F#4<>B4 [III] G4<>C5 [III] A4<>D5 [III] B4<>E5 [III] C5<>F5 [III] D5<>G5 [III]`,
  `passage: fifths printed
tempo: 1/4 = 60
1/4 A4<>E5 [III] B4<>F#5 [III] C5<>G5 [III] D5<>A5 [III]`,
  `passage: bowing exercise with naturals
tempo: 1/4 = 108
1/8 slur(G3 D5o) slur(D4 A5o) slur(A4 E6o) slur(E5 B6o) slur(E5 E6o) slur(A4 A5o) slur(D4 D5o) slur(G3 G4o)`,
  `passage: double-stop harmonics naturals
tempo: 1/4 = 60
1/2 D5o+A5o A5o+E6o E6o+B6o D6o+A6o A6o+E7o G5o+D6o`,
  `passage: cello scale to thumb
instrument: cello
tempo: 1/4 = 92
1/16 slur(C2 D2 E2 F2) slur(G2 A2 B2 C3) slur(D3 E3 F3 G3) slur(A3 B3 C4 D4) slur(E4 F4 G4 A4) slur(B4 C5 B4 A4)`,
  `passage: cello thumb octaves
instrument: cello
tempo: 1/4 = 60
1/4 A3+A4 B3+B4 C4+C5 D4+D5 E4+E5`,
  `passage: cello naturals
instrument: cello
tempo: 1/4 = 60
1/4 A4o E5o A5o C#6o E6o D5o A4o D4o G4o D5o C4o G4o`,
  `passage: viola harmonic melody
instrument: viola
tempo: 1/4 = 66
harmonics: all
1/4 D5 E5 F5 G5 A5 B5 C6 D6 1/2 A5`,
  `passage: small hand melody
hand: small
tempo: 1/4 = 66
harmonics: all
1/4 A5 B5 C6 D6 E6 F#6 G6 A6`,
  `passage: half-size
instrument: violin 1/2
hand: small
tempo: 1/4 = 72
1/8 G3 A3 B3 C4 D4 E4 F#4 G4 A4 B4 C5 1/4 D5o A5o E6o`,
  `passage: harmonics allowed
harmonics: allowed
tempo: 1/4 = 80
1/8 D5 F#5 A5 D6 A5 F#5 E5 G5 B5 E6 B5 G5 A5 C#6 E6 A6`,
];
