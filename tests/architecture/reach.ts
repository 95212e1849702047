import { type Import, readSource, sourcePaths, target } from './sources';

/** Every source file of the rooms, by its path. */
export const SOURCES = new Map(['grammar', 'server', 'client'].flatMap(sourcePaths).map((path) => [path, readSource(path)]));

export interface Reach {
  readonly files: ReadonlySet<string>;
  readonly packages: ReadonlySet<string>;
}

/** The files and packages that imports lead to, at once or when asked for, from the first files of some programs. */
export function reached(entries: readonly string[], follows: (one: Import) => boolean = () => true): Reach {
  const files = new Set<string>();
  const packages = new Set<string>();
  const open = [...entries];
  for (let path = open.pop(); path !== undefined; path = open.pop()) {
    const source = SOURCES.get(path);
    if (!source || files.has(path)) continue;
    files.add(path);
    for (const { specifier } of source.imports.filter(follows)) {
      const to = target(path, specifier);
      if (to.kind === 'file') open.push(`${to.name}.ts`, `${to.name}/index.ts`);
      if (to.kind === 'package') packages.add(to.name);
    }
  }
  return { files, packages };
}
