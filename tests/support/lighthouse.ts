/** The example file of the language's description: every construct of a plain passage once. */
export const LIGHTHOUSE = `// Comments run to the end of the line.
instrument: violin
hand: medium

passage: Lighthouse study, bars 1-4
tempo: 1/4 = 96
meter: 4/4
> Full bows. Lift the touching finger as soon as the note has spoken.

1/8 D5 F#5 A5 D6o slur(1/16 E6o F#6o G6o A6o) 1/4 D7o |
1/4 E5<>A5 [II 1-4] G5<>D6 [I fifth] 1/2 D6o+A6o ||
`;
