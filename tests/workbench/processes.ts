import { readdirSync, readFileSync } from 'node:fs';

/** Processes below `root`, at any depth, whose command line has `part` in it. Linux, as the workbench is. */
export function processesBelow(root: number, part: string): readonly number[] {
  const parents = new Map<number, number>();
  for (const name of readdirSync('/proc')) {
    // Of `pid (name) state parent …` the name may hold anything, brackets too.
    const stat = /^\d+$/.test(name) ? read(`/proc/${name}/stat`) : '';
    const parent = /.*\) \S (\d+) /s.exec(stat)?.[1];
    if (parent) parents.set(Number(name), Number(parent));
  }
  const below = (pid: number | undefined): boolean => pid !== undefined && (pid === root || below(parents.get(pid)));
  return [...parents].filter(([pid, parent]) => below(parent) && read(`/proc/${pid}/cmdline`).includes(part)).map(([pid]) => pid);
}

/** Empty where the process has ended meanwhile. */
function read(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return '';
  }
}
