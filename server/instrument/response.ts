import type { Dynamic } from '../../grammar/tree';
import { CONSTANTS, LIGHT_BOW } from './constants';

/**
 * Seconds that a string needs to settle on partial `n` once it is touched and bowed, its sounding length giving `hz` when
 * whole. The touching finger drains every rival mode m by sin²(m k pi / n) of itself a period (see `damping`), and the rival
 * it drains least keeps sin²(pi / n) whatever the node: so many more periods does a high partial take. A light bow takes longer.
 */
export function settlingSeconds(n: number, hz: number, dynamic: Dynamic): number {
  const periods = CONSTANTS.settlingPeriods.value / Math.sin(Math.PI / n) ** 2;
  return (periods / hz) * LIGHT_BOW[dynamic];
}
