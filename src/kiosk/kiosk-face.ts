/** What the page sees of the kiosk. */
import type { Acts } from '../screens/contract/acts';
import type { AppView } from '../screens/contract/app-view';
import type { StatusBarView } from '../screens/contract/status-bar-view';
import type { Watchable } from './watchable';

export interface Kiosk {
  readonly view: Watchable<AppView>;
  readonly statusBar: Watchable<StatusBarView>;
  readonly level: Watchable<number>;
  readonly acts: Acts;
  /** Loads the loft and the journal, starts the devices, and takes up an open pack where it was left. */
  start(): Promise<void>;
  /** Devices may have come or gone, or sound may now be allowed: starts what does not work yet. */
  recheck(): Promise<void>;
  /** A device was connected or taken away: the loudspeaker may be another one. */
  devicesChanged(): Promise<void>;
}
