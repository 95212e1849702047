import { APART, IMPURE, NODE, NODE_GLOBALS, ORDER, PACKAGES, PROTOCOL_READERS, PURE, TYPE_PACKAGES, TYPES_ONLY } from './layers';
import { type Import, type Source, target } from './sources';

/** Every breach of the layers in one file, as sentences that say what is wrong, why, and what to do. */
export function breaches(source: Source): readonly string[] {
  const room = roomOf(source.path);
  if (!room)
    return [
      `${source.path} is in no room of the project: move it into one, or add the room to tests/architecture/layers.ts with its reason.`,
    ];
  const found: string[] = [];
  for (const entry of source.imports) {
    const reason = importBreach(source.path, room, entry);
    if (reason) found.push(`${source.path}:${entry.line} imports ${entry.specifier}: ${reason}`);
  }
  for (const { name, line } of source.names) {
    if (NODE_GLOBALS.has(name) && !underNode(source.path)) {
      found.push(
        `${source.path}:${line} uses ${name}: it does not exist in a web worker, where this file must run too. Hand it in from a Node adapter.`,
      );
    }
    if (IMPURE.has(name) && PURE.includes(room)) {
      found.push(
        `${source.path}:${line} uses ${name}: ${room} answers from its arguments alone, so one text gives one answer. Hand the value in.`,
      );
    }
  }
  return found;
}

function importBreach(path: string, room: string, { specifier, typeOnly }: Import): string | undefined {
  const to = target(path, specifier);
  if (to.kind === 'node') {
    return underNode(path)
      ? undefined
      : 'Node built-ins are absent in a web worker, where this file must run too. Keep them in a Node adapter.';
  }
  if (to.kind === 'package') {
    const rooms = PACKAGES[to.name];
    if (!rooms)
      return `${to.name} is not among the packages that may ship. Add it to tests/architecture/layers.ts with the rooms that need it.`;
    if (!rooms.includes('*') && !rooms.includes(room)) return `${to.name} belongs to ${rooms.join(', ')} only.`;
    if (typeOnly || !TYPE_PACKAGES.includes(to.name)) return undefined;
    return `${to.name} is taken for its types alone, so none of it ships. Write \`import type\`.`;
  }
  if (to.name === 'package.json') return undefined;
  const other = roomOf(to.name);
  if (!other) return `${to.name} is in no room of the project.`;
  const types = TYPES_ONLY.find((layer) => layer.from === room && layer.to === other);
  if (types && !typeOnly) return `only types may come from ${other}, since ${types.because}. Write \`import type\`.`;
  return sees(room, other)
    ? undefined
    : `${room} may not see ${other}. Imports run one way: ${ORDER.map((line) => line.join(', ')).join(' -> ')}.`;
}

function sees(room: string, other: string): boolean {
  if (room === other) return true;
  const apart = APART[room];
  if (apart) return apart.includes(other);
  if (other === 'server/protocol') return PROTOCOL_READERS.includes(room);
  const here = ORDER.findIndex((line) => line.includes(room));
  const there = ORDER.findIndex((line) => line.includes(other));
  return there !== -1 && there < here;
}

/** The deepest room that a path lies in. */
export function roomOf(path: string): string | undefined {
  return [...ORDER.flat(), ...Object.keys(APART)]
    .filter((room) => path.startsWith(`${room}/`))
    .sort((a, b) => b.length - a.length)[0];
}

function underNode(path: string): boolean {
  return NODE.some((prefix) => path.startsWith(prefix));
}
