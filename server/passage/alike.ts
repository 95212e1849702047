/** True when two pieces of data say the same; pieces that are one object are not gone through. */
export function alike(a: unknown, b: unknown): boolean {
  if (a === b || typeof a !== 'object' || typeof b !== 'object' || !a || !b) return a === b;
  const [one, other] = [a as Record<string, unknown>, b as Record<string, unknown>];
  const keys = Object.keys(one);
  return keys.length === Object.keys(other).length && keys.every((key) => alike(one[key], other[key]));
}
