/**
 * What the kiosk as a whole shows: one member for each screen. A new screen begins here: as long as it is missing in the
 * table of `screens.ts`, nothing compiles.
 */
import type { EnrolView } from './enrol-view';
import type { Licence } from './licences-view';
import type { PackView, RehearsalView } from './pack-view';
import type { PinView } from './pin-view';
import type { ProofState } from './proof-view';
import type { RecordsView } from './records-view';
import type { StartView } from './start-view';
import type { TagsView } from './tags-view';

export type AppView =
  | { readonly screen: 'loading'; readonly text: string }
  | { readonly screen: 'records'; readonly records: RecordsView; readonly pin?: PinView | null }
  | { readonly screen: 'start'; readonly start: StartView }
  | { readonly screen: 'secondTab' }
  | {
      readonly screen: 'pack';
      readonly view: PackView;
      readonly proof?: ProofState | null;
      readonly pin?: PinView | null;
      /** Why the loft's files of now do not count, in a plain sentence; the last good ones do. */
      readonly filesTrouble?: string | null;
    }
  | { readonly screen: 'rehearsal'; readonly view: RehearsalView }
  | { readonly screen: 'tags'; readonly tags: TagsView; readonly pin?: PinView | null }
  | { readonly screen: 'enrol'; readonly enrol: EnrolView }
  | { readonly screen: 'licences'; readonly licences: readonly Licence[] }
  /** Nothing can be recorded, so nothing may be packed. */
  | { readonly screen: 'fault'; readonly heading: string; readonly text: string };

export type ScreenName = AppView['screen'];

/** The member of this screen; of several, each of theirs. */
export type ViewOf<S extends ScreenName> = { readonly [K in S]: Extract<AppView, { screen: K }> }[S];
