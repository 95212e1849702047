import type { PanelMessage } from './messages';
import type { TransportSettings } from './transport-view';

/** What outlives a reload of the panel. */
export interface Remembered {
  readonly uri?: string;
  readonly settings?: Partial<TransportSettings>;
}

/** Who shows the panel. */
export interface Host {
  send(message: PanelMessage): void;
  remember(state: Remembered): void;
}
