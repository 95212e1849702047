/** A frame that says what no frame may, or whose sums don't agree. */
export class DamagedFrame extends Error {
  override readonly name = 'DamagedFrame';
}
