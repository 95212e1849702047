import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { HostMessage, NoteAddress, PanelMessage } from '../../client/webview/messages';
import { NoteSync } from '../../client/webview/note-sync';
import type { Scene } from '../../server/protocol/scene';
import { lighthouse } from '../scene/lighthouse';

const passage = lighthouse();
const scene = (version: number, events = passage.events.length): Scene => ({
  uri: 'file:///harbour.passage',
  version,
  passages: [{ ...passage, events: passage.events.slice(0, events) }, passage],
});
const at = (event: number, of = 0): NoteAddress => ({ passage: of, event });
const cursor = (event: number, turn: number, version = 1): Extract<HostMessage, { type: 'cursor' }> => ({
  type: 'cursor',
  version,
  at: at(event),
  turn,
});

describe('which note panel and editor agree on', () => {
  test('a new scene shows the editor’s note, else keeps the old one, else the last there is', () => {
    const sync = new NoteSync();
    expect(sync.show(scene(1), at(3))).toEqual(at(3));
    expect(sync.show(scene(2), undefined)).toEqual(at(3));
    expect(sync.show(scene(3, 2), undefined)).toEqual(at(1));
    expect(sync.show({ ...scene(1), uri: 'file:///other.passage' }, undefined)).toEqual(at(0));
  });

  test('a scene without notes shows none', () => {
    expect(new NoteSync().show({ uri: '', version: 1, passages: [] }, at(0))).toBeUndefined();
  });

  test('choosing tells the host once, with a turn of its own', () => {
    const sync = new NoteSync();
    sync.show(scene(4), at(0));
    expect(sync.choose(at(2))).toEqual({
      type: 'reveal',
      uri: 'file:///harbour.passage',
      version: 4,
      at: at(2),
      turn: 1,
      focus: false,
    });
    expect(sync.choose(at(3), { focus: true })).toMatchObject({ turn: 2, focus: true });
    expect(sync.choose(at(99))).toBeUndefined();
  });

  test('several notes are chosen from where the person was; any plain choice, cursor or scene lets them go', () => {
    const sync = new NoteSync();
    sync.show(scene(1), at(4));
    sync.choose(at(6), { extend: true });
    sync.choose(at(2), { extend: true });
    expect(sync.range).toEqual([2, 4]);
    sync.choose(at(4), { extend: true });
    expect(sync.range).toBeUndefined();
    for (const letGo of [() => sync.choose(at(1)), () => sync.follow(cursor(1, 9)), () => sync.show(scene(1), at(1))]) {
      sync.choose(at(5), { extend: true });
      expect(sync.range).toBeDefined();
      letGo();
      expect(sync.range).toBeUndefined();
    }
  });

  test('an echo of an earlier choice does not pull the person back', () => {
    const sync = new NoteSync();
    sync.show(scene(1), at(0));
    sync.choose(at(1));
    sync.choose(at(2));
    expect(sync.follow(cursor(1, 1))).toBeUndefined();
    expect(sync.at).toEqual(at(2));
    expect(sync.follow(cursor(2, 2))).toEqual(at(2));
    expect(sync.follow(cursor(5, 2))).toEqual(at(5));
  });

  test('a cursor that counts in another version is dropped', () => {
    const sync = new NoteSync();
    sync.show(scene(2), at(0));
    expect(sync.follow(cursor(3, 0, 1))).toBeUndefined();
    expect(sync.follow(cursor(99, 0, 2))).toBeUndefined();
  });
});

/**
 * Panel and host over two slow wires. The host does what messages.ts asks of it: it moves the cursor on `reveal` and
 * reports every move of it, its own included.
 */
class Wires {
  readonly sync = new NoteSync();
  toHost: PanelMessage[] = [];
  toPanel: Extract<HostMessage, { type: 'cursor' }>[] = [];
  cursor = 0;
  turn = 0;
  sent = 0;

  constructor() {
    this.sync.show(scene(1), at(0));
  }

  press(event: number): void {
    const message = this.sync.choose(at(event));
    if (message) this.toHost.push(message);
  }

  move(event: number): void {
    this.cursor = event;
    this.toPanel.push(cursor(event, this.turn));
  }

  /** One message arrives at one end. */
  deliver(end: 'host' | 'panel'): void {
    if (end === 'panel') {
      const message = this.toPanel.shift();
      if (message) this.sync.follow(message);
      return;
    }
    const message = this.toHost.shift();
    if (message?.type !== 'reveal') return;
    this.sent += 1;
    this.turn = Math.max(this.turn, message.turn);
    this.move(message.at.event);
  }
}

test('whatever the delays, both ends come to rest on one note and no message answers a message', () => {
  const act = fc.oneof(
    fc.record({ act: fc.constant('press' as const), event: fc.nat(11) }),
    fc.record({ act: fc.constant('move' as const), event: fc.nat(11) }),
    fc.record({ act: fc.constant('host' as const), event: fc.constant(0) }),
    fc.record({ act: fc.constant('panel' as const), event: fc.constant(0) }),
  );
  fc.assert(
    fc.property(fc.array(act, { maxLength: 60 }), (acts) => {
      const wires = new Wires();
      let presses = 0;
      for (const { act: what, event } of acts) {
        if (what === 'press') {
          presses += 1;
          wires.press(event);
        } else if (what === 'move') wires.move(event);
        else wires.deliver(what);
      }
      for (let step = 0; wires.toHost.length + wires.toPanel.length > 0; step++) {
        if (step > 400) throw new Error('the two never come to rest');
        wires.deliver(wires.toHost.length > 0 ? 'host' : 'panel');
      }
      expect(wires.sync.at?.event).toBe(wires.cursor);
      expect(wires.sent).toBe(presses);
    }),
    { numRuns: 500 },
  );
});
