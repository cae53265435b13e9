/** Every screen of the kiosk, one line each. A screen that the contract names and that is missing here does not compile. */
import type { ScreenName } from './contract/app-view';
import { ENROL } from './enrol/EnrolScreen';
import { REHEARSAL } from './learn/RehearsalScreen';
import { PACK } from './pack/PackScreen';
import { RECORDS } from './records/RecordsScreen';
import { TAGS } from './records/TagsScreen';
import type { ScreenOf } from './screen-of';
import { FAULT } from './start/FaultScreen';
import { LICENCES } from './start/LicencesScreen';
import { LOADING } from './start/LoadingScreen';
import { SECOND_TAB } from './start/SecondTabScreen';
import { START } from './start/StartScreen';

export const SCREENS: { readonly [S in ScreenName]: ScreenOf<S> } = {
  loading: LOADING,
  start: START,
  secondTab: SECOND_TAB,
  pack: PACK,
  rehearsal: REHEARSAL,
  enrol: ENROL,
  tags: TAGS,
  records: RECORDS,
  licences: LICENCES,
  fault: FAULT,
};
