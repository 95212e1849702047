/**
 * A stand-in for `Object.groupBy` (ECMAScript 2024), which chevrotain 13 calls and Node 20 lacks.
 * Import it before chevrotain. Engines that have the real one keep it.
 */
function groupBy<T, K extends PropertyKey>(items: Iterable<T>, keyOf: (item: T, index: number) => K): Partial<Record<K, T[]>> {
  const groups = Object.create(null) as Partial<Record<K, T[]>>;
  let index = 0;
  for (const item of items) {
    const key = keyOf(item, index++);
    const group = groups[key];
    if (group) group.push(item);
    else groups[key] = [item];
  }
  return groups;
}

if (!('groupBy' in Object)) {
  Object.defineProperty(Object, 'groupBy', { value: groupBy, writable: true, configurable: true });
}
