/**
 * How far a violist's habits lean from a violinist's (see learned.ts), nats on top of what each costs there. No set of annotated
 * viola music is at hand, and the hand is alike; common practice, no source, is that violists stay in low positions, where the open
 * strings are, and keep long notes off the fourth finger, whose reach is the widest. The values are assumptions, the least round ones with which
 * nothing but the pitch asks the hand up.
 */
export const VIOLISTS: Readonly<Record<string, number>> = {
  'position: 2nd': 0.3,
  'position: 3rd': 0.3,
  'position: 4th': 0.3,
  'position: 5th': 0.3,
  'position: 6th': 0.3,
  'position: 7th': 0.3,
  'position: 8th-9th': 0.4,
  'position: 10th and up': 0.4,
  'finger: 4, middling': 0.1,
  'finger: 4, long': 0.2,
};
