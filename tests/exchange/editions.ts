import { note, rest, score } from './score';

/**
 * Scores as an edition prints them, written for these tests in MusicXML 4.0: one for each corner of what a line of études says.
 * Durations are in eighths.
 */

const START =
  '<attributes><divisions>2</divisions><key><fifths>1</fifths><mode>major</mode></key><time><beats>2</beats><beat-type>4</beat-type></time><clef><sign>G</sign><line>2</line></clef></attributes>';
const TEMPO =
  '<direction><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>72</per-minute></metronome></direction-type><sound tempo="72"/></direction>';
const END = '<barline location="right"><bar-style>light-heavy</bar-style></barline>';

function edition(...bars: string[]): string {
  const last = bars.length - 1;
  return score(
    bars.map(
      (bar, i) =>
        `<measure number="${i + 1}">${i === 0 ? START + TEMPO : ''}${bar}${i === last && !bar.includes('"right"') ? END : ''}</measure>`,
    ),
  );
}

function direction(content: string, sound = ''): string {
  return `<direction><direction-type>${content}</direction-type>${sound}</direction>`;
}

const dynamic = (level: string) => direction(`<dynamics><${level}/></dynamics>`);
const wedge = (type: string) => direction(`<wedge type="${type}"/>`);
const articulated = (...names: string[]) => ({
  notations: `<articulations>${names.map((name) => `<${name}/>`).join('')}</articulations>`,
});
const ornamented = (name: string) => ({ notations: `<ornaments><${name}/></ornaments>` });
/** Half of a tremolo between two notes: written as long as both. */
const byTurns = (end: string, pitch: string, length: number, type: string, strokes: number, notations = '') =>
  note(pitch, length, {
    after: `<type>${type}</type><time-modification><actual-notes>2</actual-notes><normal-notes>1</normal-notes></time-modification>`,
    notations: `${notations}<ornaments><tremolo type="${end}">${strokes}</tremolo></ornaments>`,
  });
const slur = (type: string, number = 1) => `<slur type="${type}" number="${number}"/>`;
const grace = (pitch: string, type: string, slash = '') =>
  note(pitch, 0, { before: slash ? '<grace slash="yes"/>' : '<grace/>', after: `<type>${type}</type>` });

const chord = (pitch: string, length = 2, notations = '') => note(pitch, length, { before: '<chord/>', notations });
const bracket = (type: string, number = 1) => `<non-arpeggiate type="${type}" number="${number}"/>`;

/** A name, and the score. */
export const EDITIONS: readonly (readonly [string, string])[] = [
  [
    'chords of three and four notes',
    edition(
      note('G3', 2, { notations: '<arpeggiate/>' }) +
        chord('D4') +
        chord('B4') +
        chord('G5') +
        note('D4', 2, { technical: '<open-string/>' }) +
        note('A4', 2, { before: '<chord/>', technical: '<open-string/>' }) +
        note('F#5', 2, { before: '<chord/>', technical: '<fingering>1</fingering><string>1</string>' }),
      note('A3', 4) +
        note('E4', 4, { before: '<chord/>' }) +
        note('C#5', 4, { before: '<chord/>' }) +
        note('A5', 4, { before: '<chord/>' }),
    ),
  ],
  [
    'chords as the bow breaks them',
    edition(
      note('G3', 4, { notations: bracket('bottom') }) +
        chord('D4', 4, bracket('top')) +
        chord('B4', 4, bracket('bottom', 2)) +
        chord('G5', 4, bracket('top', 2)),
      note('D4', 2) +
        chord('A4', 2, bracket('bottom')) +
        chord('F#5', 2, bracket('top')) +
        note('G3', 2, { notations: bracket('bottom') }) +
        chord('D4', 2, bracket('top')) +
        chord('B4'),
      note('A3', 4, { notations: bracket('bottom') }) + chord('E4', 4) + chord('C#5', 4, bracket('top')),
    ),
  ],
  [
    'articulations',
    edition(
      note('D5', 1, articulated('staccato')) +
        note('E5', 1, articulated('tenuto')) +
        note('F#5', 1, articulated('accent')) +
        note('G5', 1, articulated('strong-accent')),
      note('D5', 1, articulated('staccatissimo')) +
        note('E5', 1, articulated('spiccato')) +
        note('F#5', 2, articulated('staccato', 'tenuto', 'accent')),
      note('D5', 2, articulated('breath-mark')) + note('E5', 2, { notations: '<fermata/>' }),
    ),
  ],
  [
    'ornaments and tremolo',
    edition(
      note('D5', 1, ornamented('trill-mark')) +
        note('E5', 1, ornamented('mordent')) +
        note('F#5', 1, ornamented('inverted-mordent')) +
        note('G5', 1, ornamented('turn')),
      note('D5', 1, ornamented('inverted-turn')) +
        note('E5', 1, { notations: '<ornaments><tremolo type="single">1</tremolo></ornaments>' }) +
        note('F#5', 2, { notations: '<ornaments><tremolo type="single">2</tremolo></ornaments>' }),
      note('D5', 4, { notations: '<ornaments><tremolo type="single">3</tremolo></ornaments>' }),
    ),
  ],
  [
    'trills with an accidental over them',
    edition(
      ...['flat', 'sharp', 'natural'].map((accidental) =>
        note('A4', 4, { notations: `<ornaments><trill-mark/><accidental-mark>${accidental}</accidental-mark></ornaments>` }),
      ),
    ),
  ],
  [
    'a rest of several bars',
    edition(
      note('D5', 4),
      `<attributes><measure-style><multiple-rest>3</multiple-rest></measure-style></attributes>${rest(4)}`,
      rest(4),
      rest(4),
      note('E5', 4),
      `<attributes><key><fifths>2</fifths><mode>major</mode></key><measure-style><multiple-rest>2</multiple-rest></measure-style></attributes>${rest(4)}`,
      rest(4),
      note('E5', 4),
    ),
  ],
  [
    'tremolo between two notes',
    edition(
      byTurns('start', 'D5', 2, 'half', 3) + byTurns('stop', 'F#5', 2, 'half', 3),
      byTurns('start', 'A4', 1, 'quarter', 2, slur('start')) +
        byTurns('stop', 'C5', 1, 'quarter', 2, slur('stop')) +
        byTurns('start', 'G4', 1, 'quarter', 1) +
        byTurns('stop', 'B4', 1, 'quarter', 1),
    ),
  ],
  [
    'dynamics, stresses and hairpins',
    edition(
      dynamic('ppp') + wedge('crescendo') + note('D5', 2) + note('E5', 1) + wedge('stop') + dynamic('fff') + note('F#5', 1),
      dynamic('sf') +
        note('D5', 1) +
        dynamic('sfz') +
        note('E5', 1) +
        dynamic('fp') +
        note('F#5', 1) +
        dynamic('rfz') +
        note('G5', 1),
      wedge('diminuendo') + note('D5', 2) + wedge('stop') + note('E5', 2),
    ),
  ],
  [
    'dynamics said again and over rests, hairpins that end at bar lines and rests',
    edition(
      dynamic('f') + note('D5', 2) + dynamic('f') + note('E5', 2),
      wedge('crescendo') + note('F#5', 2) + note('G5', 2) + wedge('stop'),
      dynamic('p') + rest(2) + wedge('diminuendo') + note('A5', 2),
      note('G5', 2) + wedge('stop') + rest(1) + rest(1),
      dynamic('mf') + wedge('crescendo') + rest(2) + note('D5', 1) + wedge('stop') + note('E5', 1),
    ),
  ],
  [
    'marks and words over rests',
    edition(
      note('D5', 2) + note('', 2, { notations: '<fermata/>' }),
      direction('<words>pizz.</words>', '<sound pizzicato="yes"/>') +
        note('', 1, articulated('breath-mark')) +
        rest(1) +
        note('D5', 2),
    ),
  ],
  [
    'bows, slurs, ties and a phrase over them',
    edition(
      note('D5', 1, { notations: slur('start') + slur('start', 2), technical: '<down-bow/>' }) +
        note('E5', 1, { notations: slur('stop') }) +
        note('F#5', 1, { notations: slur('start') }) +
        note('G5', 1, { notations: slur('stop') + slur('stop', 2) }),
      note('D5', 2, { technical: '<up-bow/>' }) +
        note('E5', 2, { after: '<tie type="start"/>', notations: '<tied type="start"/>' }),
      note('E5', 2, { after: '<tie type="stop"/>', notations: '<tied type="stop"/>' }) + rest(2),
    ),
  ],
  [
    'ways of playing',
    edition(
      direction('<words>pizz.</words>', '<sound pizzicato="yes"/>') +
        note('D5', 2) +
        note('E5', 2, { technical: '<snap-pizzicato/>' }),
      direction('<words>arco</words>', '<sound pizzicato="no"/>') +
        note('D5', 1) +
        direction('<words>sul tasto</words>') +
        note('E5', 1) +
        direction('<words>sul pont.</words>') +
        note('F#5', 1) +
        direction('<words>ord.</words>') +
        note('G5', 1, { technical: '<stopped/>' }),
      direction('<words>con sord.</words>') + note('D5', 2) + direction('<words>senza sord.</words>') + note('E5', 2),
    ),
  ],
  [
    'grace notes',
    edition(
      grace('E5', 'eighth', 'slash') + note('D5', 2) + grace('F#5', '16th') + grace('G5', '16th') + note('E5', 2),
      note('D5', 2) + note('E5', 2) + grace('D5', '16th') + grace('C#5', '16th'),
    ),
  ],
  [
    'keys, meters, marks and texts',
    edition(
      direction('<rehearsal>A</rehearsal>') + direction('<words>Broad bows</words>') + note('D5', 4),
      `<attributes><key><fifths>-2</fifths><mode>minor</mode></key></attributes>${note('Bb4', 4)}`,
      `<attributes><key><fifths>0</fifths><mode>major</mode></key><time><beats>3</beats><beat-type>8</beat-type></time></attributes>${direction('<rehearsal>B</rehearsal>')}${note('B4', 3)}`,
    ),
  ],
  [
    'texts inside bars and slurs',
    edition(
      note('D5', 1) + direction('<words>dolce</words>') + note('E5', 1) + note('F#5', 2, { notations: slur('start') }),
      direction('<words>cantabile</words>') +
        note('G5', 2) +
        direction('<words>poco rit.</words>') +
        note('A5', 2, { notations: slur('stop') }),
      note('D5', 2) + direction('<words>a “second” look</words>') + rest(2),
    ).replace(/“|”/g, '’'),
  ],
  [
    'changes of clef',
    edition(
      note('D5', 4),
      `<attributes><clef><sign>C</sign><line>3</line></clef></attributes>${note('D4', 4)}`,
      `<attributes><clef><sign>G</sign><line>2</line></clef></attributes>${note('D5', 4)}`,
    ),
  ],
  [
    'repeats, endings and jumps',
    edition(
      `<barline location="left"><bar-style>heavy-light</bar-style><repeat direction="forward"/></barline>${note('D5', 4)}`,
      `<barline location="left"><ending number="1" type="start"/></barline>${note('E5', 4)}<barline location="right"><bar-style>light-heavy</bar-style><ending number="1" type="stop"/><repeat direction="backward"/></barline>`,
      `<barline location="left"><ending number="2" type="start"/></barline>${note('F#5', 4)}<barline location="right"><bar-style>light-light</bar-style><ending number="2" type="discontinue"/></barline>`,
      direction('<segno/>', '<sound segno="1"/>') + note('G5', 4),
      note('A5', 4) + direction('<words>To Coda</words>', '<sound tocoda="1"/>'),
      note('B5', 4) +
        direction('<words>D.S. al Coda</words>', '<sound dalsegno="1"/>') +
        '<barline location="right"><bar-style>light-light</bar-style></barline>',
      direction('<coda/>', '<sound coda="1"/>') + note('G5', 4),
    ),
  ],
  [
    'an upbeat, an ending of two times, an inner tuplet, graces under slurs, double stops held over with their fingers',
    score([
      `<measure number="0" implicit="yes">${START}${TEMPO}${note('A4', 2)}</measure>`,
      `<measure number="1"><barline location="left"><bar-style>heavy-light</bar-style><repeat direction="forward"/></barline>${grace(
        'G5',
        'eighth',
        'slash',
      ).replace('</note>', `<notations>${slur('start')}</notations></note>`)}${note('A5', 2, { notations: slur('stop') })}${note(
        'D5',
        1,
        { after: '<tie type="start"/>', notations: '<tied type="start"/>', technical: '<fingering>1</fingering>' },
      )}${note('B5', 1, {
        before: '<chord/>',
        after: '<tie type="start"/>',
        notations: '<tied type="start"/>',
        technical: '<fingering>4</fingering>',
      })}${note('D5', 1, { after: '<tie type="stop"/>', notations: '<tied type="stop"/>' })}${note('B5', 1, {
        before: '<chord/>',
        after: '<tie type="stop"/>',
        notations: '<tied type="stop"/>',
      })}</measure>`,
      `<measure number="2"><barline location="left"><ending number="1, 2" type="start"/></barline>${note('E5', 4, ornamented('trill-mark'))}<barline location="right"><bar-style>light-heavy</bar-style><ending number="1, 2" type="stop"/><repeat direction="backward" times="3"/></barline></measure>`,
      `<measure number="3"><barline location="left"><ending number="3" type="start"/></barline>${note('D5', 4)}<barline location="right"><bar-style>light-heavy</bar-style><ending number="3" type="discontinue"/></barline></measure>`,
    ]),
  ],
  [
    'fingers, strings, harmonics and double stops',
    edition(
      note('D5', 1, { technical: '<fingering>3</fingering><string>2</string>' }) +
        note('E5', 1, { technical: '<open-string/>' }) +
        note('D6', 2, { technical: '<harmonic><natural/><sounding-pitch/></harmonic>' }),
      note('E5', 2, { technical: '<harmonic print-object="no"><artificial/><base-pitch/></harmonic><fingering>1</fingering>' }) +
        note('A5', 2, {
          before: '<chord/>',
          after: '<notehead filled="no">diamond</notehead>',
          technical: '<harmonic print-object="no"><artificial/><touching-pitch/></harmonic><fingering>4</fingering>',
        }) +
        note('E7', 2, {
          before: '<chord/>',
          after: '<notehead parentheses="yes">normal</notehead>',
          technical: '<harmonic print-object="no"><artificial/><sounding-pitch/></harmonic>',
        }) +
        note('G4', 2) +
        note('B4', 2, { before: '<chord/>' }),
    ),
  ],
];
