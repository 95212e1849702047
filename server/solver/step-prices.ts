import type { Tell } from './choice';
import { NEVER } from './cost';
import {
  CLASSES,
  canFollow,
  DOWN,
  FINGERS,
  type FingersHeard,
  fingersHeard,
  MOVES,
  type Move,
  type Occasion,
  overTo,
  STAYS,
  STRINGS,
  tellCrossing,
  tellFingers,
  tellMove,
} from './step';

/** The classes that the states of an event have, each once. */
export interface ClassSet {
  readonly classes: Uint8Array;
}

/** What steps cost from the classes of one event to those of the next: `(move * classes before + before) * classes after + after`, each by its index in its set. */
export interface Steps {
  readonly table: Int32Array;
  /** For each class before, the least of its steps where the hand stays, and where it moves. */
  readonly leastStay: Int32Array;
  readonly leastMove: Int32Array;
}

/**
 * Prices steps. Each of the three things that a step's habits tell (see step.ts) hangs on little of the occasion, so what it costs is
 * worked out once for all occasions that are alike in it.
 */
export class StepPrices {
  /** By strings crossed, from `STRINGS - 1` down to as many up. */
  private readonly crossing = new Map<number, Int32Array>();
  /** By move: for a hand that is free, and for one that is not. */
  private readonly moves = new Map<number, Int32Array>();
  /** By move, class before and class after; `NOT_YET` where nobody has asked. */
  private readonly fingers = new Map<number, Int32Array>();
  private sum = 0;
  private readonly tell: Tell = (habit) => {
    this.sum += this.costs[habit]!;
  };
  private scratch: Steps = {
    table: new Int32Array(1024),
    leastStay: new Int32Array(CLASSES),
    leastMove: new Int32Array(CLASSES),
  };

  constructor(private readonly costs: Int32Array) {}

  /** Good until the next call. */
  steps(occasion: Occasion, { classes: before }: ClassSet, { classes: after }: ClassSet): Steps {
    const crossing = this.crossingOn(occasion);
    const moves = this.movesOn(occasion);
    const heard = fingersHeard(occasion);
    const fingers = this.fingersOn(heard);
    const { table, leastStay, leastMove } = this.room(MOVES.length * before.length * after.length);
    let at = 0;
    for (const move of MOVES) {
      const least = move === STAYS ? leastStay : leastMove;
      if (move !== DOWN) least.fill(NEVER);
      for (let row = 0; row < before.length; row++) {
        const from = before[row]!;
        const moved = moves[2 * move + (from % FINGERS === 0 ? 0 : 1)]!;
        const first = (move * CLASSES + from) * CLASSES;
        for (let column = 0; column < after.length; column++) {
          const to = after[column]!;
          let cost = NEVER;
          if (canFollow(from, to, move)) {
            if (fingers[first + to] === NOT_YET) fingers[first + to] = this.fingersPriced(heard, from, to, move);
            cost = fingers[first + to]! + moved + crossing[overTo(from, to) + STRINGS - 1]!;
          }
          table[at++] = cost;
          if (cost < least[row]!) least[row] = cost;
        }
      }
    }
    return this.scratch;
  }

  private crossingOn(occasion: Occasion): Int32Array {
    const { length, beat, pace, recurring, slurred } = occasion;
    const key = (((length * 3 + beat) * 4 + pace) * 3 + recurring) * 2 + Number(slurred);
    return kept(this.crossing, key, () =>
      Int32Array.from({ length: 2 * STRINGS - 1 }, (_, one) =>
        this.priced((tell) => tellCrossing(occasion, one + 1 - STRINGS, tell)),
      ),
    );
  }

  private movesOn(occasion: Occasion): Int32Array {
    const { time, length, rest, beat, rises, falls, returns, returning } = occasion;
    const when = ((time * 3 + length) * 3 + rest) * 3 + beat;
    const key = ((when * 3 + rises) * 3 + falls) * 4 + 2 * Number(returns) + Number(returning);
    return kept(this.moves, key, () =>
      Int32Array.from({ length: 2 * MOVES.length }, (_, one) =>
        this.priced((tell) => tellMove(occasion, one % 2, MOVES[one >> 1]!, tell)),
      ),
    );
  }

  private fingersOn({ wide, again, quick }: FingersHeard): Int32Array {
    const key = ((wide ?? -1) + 1) * 4 + 2 * Number(again) + quick;
    return kept(this.fingers, key, () => new Int32Array(MOVES.length * CLASSES * CLASSES).fill(NOT_YET));
  }

  private fingersPriced(heard: FingersHeard, from: number, to: number, move: Move): number {
    return this.priced((tell) => tellFingers(heard, from, to, move, tell));
  }

  private priced(telling: (tell: Tell) => void): number {
    this.sum = 0;
    telling(this.tell);
    return this.sum;
  }

  private room(size: number): Steps {
    if (this.scratch.table.length < size) this.scratch = { ...this.scratch, table: new Int32Array(2 * size) };
    return this.scratch;
  }
}

const NOT_YET = -1;

function kept(known: Map<number, Int32Array>, key: number, make: () => Int32Array): Int32Array {
  let made = known.get(key);
  if (!made) {
    made = make();
    known.set(key, made);
  }
  return made;
}

/** The least of every row of a table of steps: see `Steps`. */
export function leastOf(table: Int32Array, rows: number, columns: number): Omit<Steps, 'table'> {
  const leastStay = new Int32Array(rows).fill(NEVER);
  const leastMove = new Int32Array(rows).fill(NEVER);
  let at = 0;
  for (const move of MOVES) {
    const least = move === STAYS ? leastStay : leastMove;
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++, at++) if (table[at]! < least[row]!) least[row] = table[at]!;
    }
  }
  return { leastStay, leastMove };
}
