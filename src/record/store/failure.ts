/** What the browser throws, as the port's reasons and in words for the rigger. */
import { refused, type Refused } from '../../domain/result';
import type { LedgerFailure } from '../ledger';

const BY_NAME = new Map<string, LedgerFailure>(
  Object.entries({
    QuotaExceededError: 'full',
    VersionError: 'newer',
    SecurityError: 'denied',
    NotAllowedError: 'denied',
    // A record already stands where the next one belongs, or cannot be read back: the store is not what it was.
    ConstraintError: 'corrupt',
    DataError: 'corrupt',
    NotFoundError: 'corrupt',
    NotReadableError: 'corrupt',
  }),
);

const SENTENCES: Readonly<Record<LedgerFailure, string>> = {
  headMoved: 'Another page has written to the journal; close it, then start this one again.',
  full: 'The storage is full; free some room on this computer and try again.',
  denied: 'This browser gives no storage to this page; allow it and try again.',
  corrupt: 'The storage is damaged; nothing more is written to it. Export the journal and call the lead.',
  newer: 'A newer version of the kiosk wrote the journal; reload the page.',
  unavailable: 'The storage does not answer; start the kiosk again.',
};

/** The refusal for a failure without further circumstances. */
export function failed(reason: LedgerFailure): Refused<LedgerFailure> {
  return refused(reason, SENTENCES[reason]);
}

/** Anything that IndexedDB throws. What is not a DOMException is a defect of ours and goes on up. */
export function failureOf(error: unknown): Refused<LedgerFailure> {
  if (!(error instanceof DOMException)) throw error;
  const { reason, detail } = failed(BY_NAME.get(error.name) ?? 'unavailable');
  return refused(reason, `${detail} (${error.name}: ${error.message})`);
}
