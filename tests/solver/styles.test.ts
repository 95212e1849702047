import { describe, expect, it } from 'vitest';
import { setupOf } from '../../server/passage/setup';
import { HABITS, habitCosts } from '../../server/solver/habits';
import { STYLES } from '../../server/solver/styles';
import { reading } from '../support/reading';
import { setup } from './build';

const MELODY = 'tempo: 1/4 = 60\nkey: D major\n1/4 A4 B4 C#5 D5 E5 F#5 E5 D5 1/2 A5 E5 1/4 D5 B4 1/2 A4\n';
const SCALE = 'tempo: 1/4 = 84\nkey: G major\n1/8 G4 A4 B4 C5 D5 E5 F#5 G5 A5 B5 C6 D6 C6 B5 A5 G5 F#5 E5 D5 C5 B4 A4 G4 B4\n';

function played(text: string, style?: string) {
  const { solutions } = reading(style ? `style: ${style}\n${text}` : text);
  const events = solutions[0]!.events.map((event) => event!);
  const strings = events.map(({ fingering }) => fingering.ways[0]!.string);
  return {
    open: events.filter(({ fingering }) => fingering.ways[0]!.kind === 'open').length,
    crossings: strings.filter((string, i) => i > 0 && string !== strings[i - 1]).length,
    height: events.reduce((sum, { fingering }) => sum + fingering.hand.position, 0),
    strings: strings.reduce((sum, string) => sum + string, 0),
    costs: events.flatMap(({ terms }) => Object.values(terms)),
  };
}

describe('common practice, no source — what a style leans to', () => {
  it.each([MELODY, SCALE])('safe is no higher than singing and brilliant, %#', (text) => {
    const safe = played(text, 'safe');
    expect(safe.height).toBeLessThanOrEqual(played(text).height);
    expect(safe.height).toBeLessThanOrEqual(played(text, 'singing').height);
    expect(safe.height).toBeLessThanOrEqual(played(text, 'brilliant').height);
  });

  it.each([MELODY, SCALE])('singing crosses strings no oftener, and leaves long notes off open strings, %#', (text) => {
    const singing = played(text, 'singing');
    expect(singing.crossings).toBeLessThanOrEqual(played(text).crossings);
    expect(singing.open).toBeLessThanOrEqual(played(text).open);
  });

  it.each([MELODY, SCALE])('brilliant is on higher strings, %#', (text) => {
    expect(played(text, 'brilliant').strings).toBeLessThanOrEqual(played(text).strings);
  });

  it('each says something of its own about a melody or a scale', () => {
    const all = ['safe', 'singing', 'brilliant'].map((style) => JSON.stringify([played(MELODY, style), played(SCALE, style)]));
    expect(new Set(all).size).toBe(3);
  });
});

describe('styles', () => {
  it('name only choices that there are, and lower no cost', () => {
    for (const [style, leanings] of Object.entries(STYLES)) {
      for (const [words, nats] of Object.entries(leanings)) {
        expect(
          HABITS.some((habit) => habit.startsWith(words)),
          `${style}: ${words}`,
        ).toBe(true);
        expect(nats).toBeGreaterThan(0);
      }
      const leant = habitCosts({ ...setup(), style: style as keyof typeof STYLES });
      const usual = habitCosts(setup());
      expect([...leant].every((cost, habit) => cost >= usual[habit]!)).toBe(true);
      expect([...leant].some((cost, habit) => cost > usual[habit]!)).toBe(true);
    }
  });

  it('of a player hold unless the passage says otherwise', () => {
    const players = () => ({ choice: { name: 'Ines', style: 'brilliant' as const }, faults: 0 });
    expect(setupOf({ player: 'ines.player' }, { players }).style).toBe('brilliant');
    expect(setupOf({ player: 'ines.player', style: 'safe' }, { players }).style).toBe('safe');
    expect(reading(`style: brilliant\n${MELODY}`).resolved.passages[0]!.setup.style).toBe('brilliant');
    expect(reading(MELODY).resolved.passages[0]!.setup.style).toBeUndefined();
  });

  it('that nobody knows are told with what there is', () => {
    const [problem] = reading(`style: brilliance\n${MELODY}`).problems;
    expect(problem!.message).toContain('safe, singing or brilliant');
    expect(problem!.fixes.map(({ title }) => title).join()).toContain('brilliant');
  });
});
