/** Zero-based, UTF-16, as the protocol counts. */
export interface Place {
  readonly line: number;
  readonly character: number;
}
