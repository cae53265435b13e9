/** Whose act each kind of fact is, and what may follow while a pack stands by, has failed its checks, or is to be corrected. */
import type { Fact } from '../../../domain/fact';
import type { BodyOf } from './account';

/** A fact of one kind. */
export type FactOf<K extends Fact['body']['kind']> = Omit<Fact, 'body'> & { readonly body: BodyOf<K> };

/** Acts of the kiosk itself, which nobody is named for. */
export const KIOSK_ACTS: readonly string[] = [
  'assemblyAgreed',
  'checkInPassed',
  'checkInFailed',
  'recheckPassed',
  'recheckFailed',
  'restarted',
  'verdictLapsed',
  'peopleInForce',
  'procedureInForce',
  'clockJumped',
  'packClosed',
];

/** What can be taken back. */
export const CORRECTABLE: readonly string[] = [
  'componentIdentified',
  'toolIssued',
  'toolAccounted',
  'itemsAccounted',
  'toolReturned',
  'cardPlaced',
  'stageConfirmed',
  'counted',
  'stowed',
  'measured',
  'itemPlaced',
  'itemRemoved',
];

/** Nothing ahead of one of these can be taken back any more. */
export const BARRIERS: readonly string[] = [
  'assemblyAgreed',
  'checkInPassed',
  'checkInFailed',
  'inspected',
  'holdReleased',
  'holdReturned',
  'reopened',
  'signed',
];

/** Acts that only the packer of the moment can do. */
export const PACKER_ACTS: readonly string[] = [
  ...CORRECTABLE,
  'packOpened',
  'inspected',
  'inspectorCalled',
  'corrected',
  'stoodBy',
  'resumed',
  'reopened',
  'signed',
];

export const INSPECTOR_ACTS: readonly string[] = ['inspectorPresent', 'holdReleased', 'holdReturned'];

/** Beside these, nothing is done in a pack whose checks failed when they were made again. */
export const WHILE_FAILED: readonly string[] = [
  ...KIOSK_ACTS,
  'stoodBy',
  'resumed',
  'handedOver',
  'scanRefused',
  'reopened',
  'stopped',
];

/** Beside these, nothing is done while a pack stands by. */
export const WHILE_STANDING_BY: readonly string[] = [...KIOSK_ACTS, 'resumed', 'handedOver', 'scanRefused'];
