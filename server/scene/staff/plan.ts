import type { ScenePassage } from '../../protocol/scene';
import type { EngravedBar } from './engrave';
import type { Hairpin } from './hairpins';
import type { Marking } from './marks';
import type { Signature } from './signature';

/** One line of music before it is drawn. */
export interface SystemPlan {
  readonly bars: readonly EngravedBar[];
  readonly widths: readonly number[];
  readonly left: number;
  /** What a full line takes, px; a short one leaves its words the rest. */
  readonly wide: number;
  readonly signature: Signature;
  /** Of the passage as a whole. */
  readonly usual: Signature;
  readonly board: ScenePassage['board'];
  readonly marking: Marking;
  /** Open at its start. */
  readonly hairpin: Hairpin | undefined;
  /** True for the passage's last system. */
  readonly last: boolean;
}
