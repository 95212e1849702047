import { beforeEach, describe, expect, it } from 'vitest';
import { Cancelled, createPace, type Runtime } from '../../server/workspace/pace';
import { DEFAULT_SETTINGS, readSettings } from '../../server/workspace/settings';
import { createWorkspace, type Workspace } from '../../server/workspace/workspace';

const URI = 'untitled:mole.passage';
const PASSAGES = ['One', 'Two', 'Three'].map((name) => `passage: ${name}\n1/4 D6o E6o H5`).join('\n');

/** A machine whose time stands still but for what a test says, and which counts how often work gives way. */
class Machine implements Runtime {
  time = 0;
  pauses = 0;
  onPause: () => void = () => undefined;
  now = () => this.time;
  pause = async () => {
    this.pauses++;
    this.onPause();
    await new Promise((go) => setImmediate(go));
  };
}

let machine: Machine;
let events: string[];
let settings: typeof DEFAULT_SETTINGS;
let workspace: Workspace;

beforeEach(() => {
  machine = new Machine();
  events = [];
  settings = DEFAULT_SETTINGS;
  workspace = createWorkspace(machine, async () => settings, {
    drafted: (_, { version }) => events.push(`drafted ${version}`),
    solved: (_, { version }) => events.push(`solved ${version}`),
    failed: (_, error) => events.push(`failed ${String(error)}`),
  });
});

describe('workspace', () => {
  it('reads first and fingers after', async () => {
    workspace.write(URI, PASSAGES, 1);
    const draft = await workspace.draft(URI);
    expect(draft?.problems.map(({ code }) => code)).toEqual(['pitch-letter', 'pitch-letter', 'pitch-letter']);
    const solved = await workspace.solved(URI);
    expect(solved?.solutions).toHaveLength(3);
    expect(solved?.tree).toBe(draft?.tree);
    expect(events).toEqual(['drafted 1', 'solved 1']);
  });

  it('gives at once what is there of a long text, and all of a short one', async () => {
    machine.onPause = () => machine.time++;
    workspace.write(URI, `1/8 ${Array(2100).fill('D6o').join(' ')}`, 1);
    expect(await workspace.soonest(URI)).not.toHaveProperty('solutions');
    const solved = await workspace.prepared(URI);
    expect(solved?.solutions.every(({ work }) => work.prepared)).toBe(true);
    expect(await workspace.soonest(URI)).toBe(solved);
    workspace.write('untitled:short', PASSAGES, 1);
    expect(await workspace.soonest('untitled:short')).toHaveProperty('solutions.length', 3);
    expect(await workspace.soonest('untitled:other')).toBeUndefined();
  });

  it('makes what hovers ask for while nobody waits', async () => {
    workspace.write(URI, PASSAGES, 1);
    const solved = await workspace.solved(URI);
    const ready = () => solved?.solutions.every(({ work }) => work.prepare().next().done);
    await expect.poll(ready).toBe(true);
    expect(events).toEqual(['drafted 1', 'solved 1']);
  });

  it('drops the work on a version that an edit overtakes', async () => {
    workspace.write(URI, 'D6o', 1);
    const first = workspace.solved(URI);
    workspace.write(URI, 'D6o E6o', 2);
    await expect(first).rejects.toBeInstanceOf(Cancelled);
    expect((await workspace.solved(URI))?.version).toBe(2);
    expect(events).toEqual(['drafted 2', 'solved 2']);
  });

  it('gives way between passages, and stops there when an edit has come', async () => {
    workspace.write(URI, PASSAGES, 1);
    await workspace.draft(URI);
    const overtaken = workspace.solved(URI);
    // Every look at the clock finds that much time gone, so every passage is followed by a pause.
    machine.now = () => {
      machine.time += 50;
      return machine.time;
    };
    machine.onPause = () => {
      machine.onPause = () => undefined;
      workspace.write(URI, `${PASSAGES} D5`, 2);
    };
    await expect(overtaken).rejects.toBeInstanceOf(Cancelled);
    await workspace.solved(URI);
    expect(events).toEqual(['drafted 1', 'drafted 2', 'solved 2']);
    expect(machine.pauses).toBeGreaterThan(3);
  });

  it('forgets a closed document and drops its work', async () => {
    workspace.write(URI, 'D6o', 1);
    const dropped = workspace.solved(URI);
    workspace.close(URI);
    await expect(dropped).rejects.toBeInstanceOf(Cancelled);
    expect(await workspace.solved(URI)).toBeUndefined();
    expect(await workspace.draft(URI)).toBeUndefined();
    expect(events).toEqual([]);
  });

  it('starts afresh when a document of the same name is opened again', async () => {
    workspace.write(URI, 'D6o', 5);
    await workspace.solved(URI);
    workspace.close(URI);
    workspace.write(URI, 'E6o', 1);
    expect((await workspace.solved(URI))?.tree.text).toBe('E6o');
    expect(events).toEqual(['drafted 5', 'solved 5', 'drafted 1', 'solved 1']);
  });

  it('works a document out again under new settings', async () => {
    workspace.write(URI, 'D5', 1);
    expect((await workspace.solved(URI))?.resolved.passages[0]?.setup.instrument.family).toBe('violin');
    settings = { ...DEFAULT_SETTINGS, instrument: 'cello' };
    workspace.reconfigure();
    expect((await workspace.solved(URI))?.resolved.passages[0]?.setup.instrument.family).toBe('cello');
  });

  it('reports a fault of ours, keeps the document, and tries again with the next edit', async () => {
    let broken = true;
    workspace = createWorkspace(machine, async () => (broken ? (undefined as unknown as typeof settings) : settings), {
      drafted: () => undefined,
      solved: (_, { version }) => events.push(`solved ${version}`),
      failed: () => events.push('failed'),
    });
    workspace.write(URI, 'D6o', 1);
    await expect(workspace.solved(URI)).rejects.toThrow();
    broken = false;
    workspace.reconfigure(URI);
    expect((await workspace.solved(URI))?.version).toBe(1);
    expect(events).toEqual(['failed', 'solved 1']);
  });

  it('calls a document slow until it has been fingered quickly', async () => {
    workspace.write(URI, 'D6o', 1);
    expect(workspace.slow(URI)).toBe(true);
    await workspace.solved(URI);
    expect(workspace.slow(URI)).toBe(false);
    expect(workspace.slow('untitled:other')).toBe(false);
  });
});

describe('pace', () => {
  it('gives way only when work has run for long, and stops when it is not wanted', async () => {
    let wanted = true;
    const pace = createPace(machine, () => wanted);
    await pace();
    machine.time = 1;
    await pace();
    expect(machine.pauses).toBe(0);
    machine.time = 2;
    await pace();
    // Turns enough for a message to be read, handled and answered.
    const turns = machine.pauses;
    expect(turns).toBeGreaterThan(2);
    machine.time = 3;
    await pace();
    expect(machine.pauses).toBe(turns);
    wanted = false;
    await expect(pace()).rejects.toBeInstanceOf(Cancelled);
  });
});

describe('settings', () => {
  it('keeps what it can read and its defaults for the rest', () => {
    expect(
      readSettings({ hand: ' small ', safeChance: 0.6, rules: { 'lone-third': 'off', x: 'loud' }, passageLens: 'no' }),
    ).toEqual({
      ...DEFAULT_SETTINGS,
      hand: 'small',
      safeChance: 0.6,
      rules: { 'lone-third': 'off' },
    });
    for (const raw of [undefined, null, 5, 'x', [], { safeChance: 1 }, { safeChance: Number.NaN }, { rules: [] }])
      expect(readSettings(raw)).toEqual(DEFAULT_SETTINGS);
  });
});
