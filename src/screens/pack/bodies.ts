/** The screen of each detail of a pack, one line each. A detail that is missing here does not compile. */
import type { ReactElement } from 'react';
import { HoldScreen } from '../hold/HoldScreen';
import { RecordScreen } from '../record/RecordScreen';
import { BlockedScreen } from './BlockedScreen';
import { CardScreen } from './CardScreen';
import { CheckInScreen } from './CheckInScreen';
import { CloseUpScreen } from './CloseUpScreen';
import { IdentifyScreen } from './IdentifyScreen';
import { InspectionScreen } from './InspectionScreen';
import { ItemsScreen } from './ItemsScreen';
import type { BodyName, BodyProps } from './pack-body';
import { SignScreen } from './SignScreen';
import { StageScreen } from './StageScreen';
import { StandingByScreen } from './StandingByScreen';
import { StoppedScreen } from './StoppedScreen';
import { StoppingScreen } from './StoppingScreen';

export const BODIES: { readonly [S in BodyName]: (props: BodyProps<S>) => ReactElement } = {
  identify: IdentifyScreen,
  checkIn: CheckInScreen,
  inspection: InspectionScreen,
  blocked: BlockedScreen,
  stage: StageScreen,
  hold: HoldScreen,
  closeUp: CloseUpScreen,
  items: ItemsScreen,
  sign: SignScreen,
  card: CardScreen,
  record: RecordScreen,
  standingBy: StandingByScreen,
  stopping: StoppingScreen,
  stopped: StoppedScreen,
};
