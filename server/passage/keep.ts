import type { StringNumber, Word } from '../../grammar/tree';
import { fault, type Reading } from '../../grammar/values/read-value';
import type { KeepNode, ValueNodes } from '../../grammar/values/value-tree';
import { t } from '../l10n/translate';

/** What every note keeps to from a place of the passage on, unless its own hints or its group's say otherwise. */
export interface Keep {
  /** Of single notes; a double stop has two. */
  readonly string?: StringNumber;
  readonly position?: number;
  readonly open?: false;
}

/** `free` keeps to nothing. */
export function chooseKeep(nodes: ValueNodes['keep'], _: Word): Reading<Keep> {
  let keep: Keep = {};
  for (const node of nodes) {
    const { start, end, ...one } = node;
    const again = Object.keys(one).some((key) => key in keep);
    if (again) return fault(node, givenTwice(node));
    keep = { ...keep, ...one };
  }
  return { value: keep };
}

function givenTwice(node: KeepNode): string {
  if ('string' in node) return t('a string has been given already, and there can be only one');
  return 'position' in node
    ? t('a position has been given already, and there can be only one')
    : t('no open strings has been given already, and there can be only one');
}

export function sameKeep(one: Keep, other: Keep): boolean {
  return one.string === other.string && one.position === other.position && one.open === other.open;
}
