/** A function with its gradient, written into `gradient`. */
export type Objective = (at: Float64Array, gradient: Float64Array) => number;

const MEMORY = 8;
const TRIES = 12;

/** Least of a smooth convex function by L-BFGS with backtracking (Nocedal and Wright, Numerical Optimization, 2006, 7.2 and 3.1). */
export function least(objective: Objective, start: Float64Array, iterations: number, enough = 1e-5): Float64Array {
  const size = start.length;
  let at: Float64Array = start;
  let gradient: Float64Array = new Float64Array(size);
  let value = objective(at, gradient);
  const past: { s: Float64Array; y: Float64Array; rho: number }[] = [];
  for (let iteration = 0; iteration < iterations; iteration++) {
    const direction = descent(gradient, past);
    const slope = dot(direction, gradient);
    let step = past.length ? 1 : 1 / Math.sqrt(dot(gradient, gradient));
    let next: Float64Array = at;
    let nextValue = value;
    const nextGradient = new Float64Array(size);
    for (let tries = 0; ; tries++) {
      next = at.map((one, i) => one + step * direction[i]!);
      nextValue = objective(next, nextGradient);
      if (nextValue <= value + 1e-4 * step * slope || tries === TRIES) break;
      step *= 0.4;
    }
    const s = next.map((one, i) => one - at[i]!);
    const y = nextGradient.map((one, i) => one - gradient[i]!);
    const curve = dot(s, y);
    if (curve > 1e-10) {
      past.push({ s, y, rho: 1 / curve });
      if (past.length > MEMORY) past.shift();
    }
    const gain = (value - nextValue) / Math.abs(value);
    [at, gradient, value] = [next, nextGradient, nextValue];
    if (gain < enough && iteration > 8) break;
  }
  return at;
}

function descent(gradient: Float64Array, past: readonly { s: Float64Array; y: Float64Array; rho: number }[]): Float64Array {
  const q = gradient.map((one) => -one);
  const alphas: number[] = [];
  for (const { s, y, rho } of [...past].reverse()) {
    const alpha = rho * dot(s, q);
    alphas.push(alpha);
    for (let i = 0; i < q.length; i++) q[i]! -= alpha * y[i]!;
  }
  const last = past.at(-1);
  if (last) {
    const scale = dot(last.s, last.y) / dot(last.y, last.y);
    for (let i = 0; i < q.length; i++) q[i]! *= scale;
  }
  for (const { s, y, rho } of past) {
    const beta = rho * dot(y, q);
    const alpha = alphas.pop()!;
    for (let i = 0; i < q.length; i++) q[i]! += (alpha - beta) * s[i]!;
  }
  return q;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
