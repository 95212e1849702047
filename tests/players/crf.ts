import { type Bare, type Lists, SHARPNESS } from './lattice';

/**
 * A linear-chain conditional random field (Lafferty, McCallum and Pereira, ICML 2001) over the solver's lattice: the chance of a
 * fingering is proportional to exp(-SHARPNESS * cost). Physical costs stand; what habits cost is what makes the
 * players' choices likeliest, each player of a piece counting alike and a piece by its notes. A player's hand place is not always
 * written down: what is not is expected under the weights so far (EM: Dempster, Laird and Rubin 1977).
 */

/** A piece ready to be fitted: its runs of notes. */
export interface Sample {
  readonly runs: readonly Bare[];
  readonly players: number;
}

/** Scores of lists from the weights of their habits; a score is minus a cost times `SHARPNESS`. */
export function scoresOf(lists: Lists, weights: Float64Array): Float64Array {
  return Float64Array.from(lists.all, (list) => {
    let sum = 0;
    for (const habit of list) sum += weights[habit]!;
    return sum;
  });
}

/** How often the players took every list, the mean of the players of each piece, where their hand was not written down as it is expected to be. */
export function taken(samples: readonly Sample[], scores: Float64Array): Float64Array {
  const counts = new Float64Array(scores.length);
  for (const { runs, players } of samples) {
    for (const run of runs) for (let player = 0; player < players; player++) held(run, player, scores, counts, 1 / players);
  }
  return counts;
}

/**
 * By how much a choice that nobody made must be dearer than one that everybody made, in units of the score, so that the best path and
 * not only the sum over all paths is the players' (softmax margin: Gimpel and Smith, NAACL 2010). Chosen on whole works left out.
 */
const MARGIN = 1;

/** Log of the sum over all fingerings of all pieces; adds the expected counts of every list to `into`. */
export function partition(samples: readonly Sample[], scores: Float64Array, into: Float64Array): number {
  const exps = scores.map(Math.exp);
  let total = 0;
  for (const { runs } of samples) for (const run of runs) total += free(run, scores, exps, into);
  return total;
}

function free({ columns }: Bare, scores: Float64Array, exps: Float64Array, into: Float64Array): number {
  const alphas: Float64Array[] = [];
  const nodes: Float64Array[] = [];
  const moves: Float64Array[] = [];
  let log = 0;
  for (let event = 0; event < columns.length; event++) {
    const { lists, physical, steps, landing, apart } = columns[event]!;
    const size = lists.length;
    const alpha = new Float64Array(size);
    const node = new Float64Array(size);
    let most = Number.NEGATIVE_INFINITY;
    for (let j = 0; j < size; j++) {
      node[j] = scores[lists[j]!]! - SHARPNESS * physical[j]! + MARGIN * apart[j]!;
      if (node[j]! > most) most = node[j]!;
    }
    for (let j = 0; j < size; j++) node[j] = Math.exp(node[j]! - most);
    const move = new Float64Array(steps.length);
    if (event > 0) {
      const before = alphas[event - 1]!;
      let at = 0;
      for (let i = 0; i < before.length; i++) {
        const reached = before[i]!;
        for (let j = 0; j < size; j++, at++) {
          const list = steps[at]!;
          if (list < 0) continue;
          const chance = exps[list]! * landing[at]!;
          move[at] = chance;
          alpha[j]! += reached * chance;
        }
      }
    } else alpha.fill(1);
    let sum = 0;
    for (let j = 0; j < size; j++) {
      alpha[j]! *= node[j]!;
      sum += alpha[j]!;
    }
    for (let j = 0; j < size; j++) {
      alpha[j]! /= sum;
      node[j]! /= sum;
    }
    log += Math.log(sum) + most;
    alphas.push(alpha);
    nodes.push(node);
    moves.push(move);
  }
  let beta = new Float64Array(columns.at(-1)!.lists.length).fill(1);
  for (let event = columns.length - 1; event >= 0; event--) {
    const { lists, steps } = columns[event]!;
    const alpha = alphas[event]!;
    const size = alpha.length;
    for (let j = 0; j < size; j++) into[lists[j]!]! += alpha[j]! * beta[j]!;
    if (event === 0) break;
    const before = alphas[event - 1]!;
    const move = moves[event]!;
    const node = nodes[event]!;
    for (let j = 0; j < size; j++) node[j]! *= beta[j]!;
    const next = new Float64Array(before.length);
    let at = 0;
    for (let i = 0; i < before.length; i++) {
      const reached = before[i]!;
      let sum = 0;
      for (let j = 0; j < size; j++, at++) {
        const on = move[at]! * node[j]!;
        sum += on;
        const share = reached * on;
        if (share > LEAST) into[steps[at]!]! += share;
      }
      next[i] = sum;
    }
    beta = next;
  }
  return log;
}

/** Steps less likely than this are not counted. */
const LEAST = 1e-7;

/** The expected counts over the paths that agree with one player, times `share`. A player whose choices no path can join is left out. */
function held({ columns }: Bare, player: number, scores: Float64Array, into: Float64Array, share: number): void {
  const allowed = columns.map(({ chosen, lists }) => chosen[player] ?? Array.from(lists, (_, state) => state));
  const alphas: Float64Array[] = [];
  const nodes: Float64Array[] = [];
  const step = (event: number, from: number, to: number) => {
    const { lists, steps, landing } = columns[event]!;
    const list = steps[from * lists.length + to]!;
    return list < 0 ? 0 : Math.exp(scores[list]!) * landing[from * lists.length + to]!;
  };
  for (const [event, { lists, physical }] of columns.entries()) {
    const states = allowed[event]!;
    const raw = states.map((state) => scores[lists[state]!]! - SHARPNESS * physical[state]!);
    const most = Math.max(...raw);
    const node = Float64Array.from(raw, (one) => Math.exp(one - most));
    const alpha = Float64Array.from(states, (state, n) => {
      if (event === 0) return node[n]!;
      let sum = 0;
      for (const [m, from] of allowed[event - 1]!.entries()) sum += alphas[event - 1]![m]! * step(event, from, state);
      return sum * node[n]!;
    });
    const sum = alpha.reduce((all, one) => all + one, 0);
    if (!(sum > 0)) return;
    alphas.push(alpha.map((one) => one / sum));
    nodes.push(node.map((one) => one / sum));
  }
  let beta = new Float64Array(allowed.at(-1)!.length).fill(1);
  for (let event = columns.length - 1; event >= 0; event--) {
    const { lists, steps } = columns[event]!;
    const states = allowed[event]!;
    for (const [n, state] of states.entries()) into[lists[state]!]! += share * alphas[event]![n]! * beta[n]!;
    if (event === 0) break;
    beta = Float64Array.from(allowed[event - 1]!, (from, m) => {
      let sum = 0;
      for (const [n, state] of states.entries()) {
        const on = step(event, from, state) * nodes[event]![n]! * beta[n]!;
        sum += on;
        if (on > 0) into[steps[from * lists.length + state]!]! += share * alphas[event - 1]![m]! * on;
      }
      return sum;
    });
  }
}
