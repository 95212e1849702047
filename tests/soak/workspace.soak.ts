import { expect, it } from 'vitest';
import { hoverAt } from '../../server/features/hover';
import { Cancelled } from '../../server/workspace/pace';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { type Draft, type Snapshot, snapshot } from '../../server/workspace/snapshot';
import { createWorkspace } from '../../server/workspace/workspace';
import { random } from '../bench/mixed';
import { hurried, Typist } from './typing';

/** An hour at two keys a second, `SOAK_TIMES` hours on demand. */
const CHANGES = 7200 * Number(process.env.SOAK_TIMES ?? 1);
const DOCUMENTS = 4;
const START = 'instrument: violin\n\npassage: Lighthouse study\ntempo: 1/4 = 96\n1/8 D5 F#5 A5 D6o E6o A4+E5 G5 B4 |\n'.repeat(2);

/** What the editor shows of a document: the last that it was told. */
interface Shown {
  typist: Typist;
  version: number;
  settings: typeof DEFAULT_SETTINGS;
  drafted?: Draft;
  solved?: Snapshot;
}

it('an hour of typing: nothing lost, nothing stale, memory flat', { timeout: 1_200_000 }, async () => {
  const shown = new Map<string, Shown>();
  const faults: unknown[] = [];
  const stale: string[] = [];
  const told = (uri: string, { version }: Draft) => {
    // A result of an older version, or of a document that is closed, would be shown at the wrong place.
    if (shown.get(uri)?.version !== version) stale.push(`${uri} ${version}`);
  };
  const workspace = createWorkspace(hurried(), async (uri) => shown.get(uri)?.settings ?? DEFAULT_SETTINGS, {
    drafted(uri, draft) {
      told(uri, draft);
      const now = shown.get(uri);
      if (now) now.drafted = draft;
    },
    solved(uri, made) {
      told(uri, made);
      const now = shown.get(uri);
      if (now) now.solved = made;
    },
    failed: (_, error) => faults.push(error),
  });
  const next = random(5);
  const uris = Array.from({ length: DOCUMENTS }, (_, index) => `untitled:${index}.passage`);
  const heap: number[] = [];
  let version = 0;
  let cancelled = 0;
  let looked = 0;
  const settled = (uri: string) =>
    workspace.solved(uri).catch((error: unknown) => {
      if (!(error instanceof Cancelled)) faults.push(error);
      cancelled++;
    });

  for (let change = 0; change < CHANGES; change++) {
    const uri = uris[Math.floor(next() * (change % 50 === 0 ? DOCUMENTS : 2))] ?? '';
    let now = shown.get(uri);
    if (!now) {
      now = { typist: new Typist(change, START), version: 0, settings: DEFAULT_SETTINGS };
      shown.set(uri, now);
    }
    now.version = ++version;
    workspace.write(uri, now.typist.change(), version);
    const answer = settled(uri);
    const luck = next();
    // Most keys are let be until all is worked out; after some the next comes at once, or while it is being worked out.
    if (luck < 0.6) await answer;
    else if (luck < 0.8) await new Promise((go) => setImmediate(go));
    if (luck > 0.995) {
      workspace.close(uri);
      shown.delete(uri);
    } else if (luck > 0.99) {
      now.settings = { ...DEFAULT_SETTINGS, hand: ['small', 'large'][change % 2] ?? '' };
      workspace.reconfigure(uri);
    }
    if (change % 100 === 99) {
      await Promise.all(uris.map(settled));
      looked += look(shown);
    }
    if (change % (CHANGES / 20) === CHANGES / 20 - 1) heap.push(await heapNow());
  }

  expect(faults).toEqual([]);
  expect(stale).toEqual([]);
  expect(cancelled).toBeGreaterThan(CHANGES / 20);
  const early = Math.max(...heap.slice(2, 6));
  const late = Math.min(...heap.slice(-4));
  console.log(
    `${CHANGES} changes, ${cancelled} overtaken, ${looked} documents compared with reading them for the first time; ` +
      `heap ${heap.map((bytes) => (bytes / 2 ** 20).toFixed(1)).join(' ')} MiB`,
  );
  expect(late / early).toBeLessThan(1.25);
});

/** Every document as it is shown, against its text read for the first time; how many there were. */
function look(shown: ReadonlyMap<string, Shown>): number {
  for (const { typist, version, settings, drafted, solved } of shown.values()) {
    const fresh = snapshot(typist.text, version, settings);
    expect(drafted?.version).toBe(version);
    expect(solved?.version).toBe(version);
    expect(told(solved)).toEqual(told(fresh));
    if (solved) hoverAt(solved, Math.floor(typist.text.length / 2), solved.settings);
  }
  return shown.size;
}

function told(made: Snapshot | undefined): unknown {
  return made?.problems.map(({ code, severity, message, span }) => ({ code, severity, message, span }));
}

/** Bytes in use once all that nobody holds has been taken away. */
async function heapNow(): Promise<number> {
  for (let round = 0; round < 3; round++) {
    await new Promise((go) => setImmediate(go));
    globalThis.gc?.();
  }
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return heapUsed + arrayBuffers;
}
