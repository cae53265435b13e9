/** Restoring for tests: a page on which nothing waits, and what a badge of the demo's lead stands for. */
import { peopleInForce } from '../../src/kiosk/record/in-force';
import type { Archive, ArchiveFailure } from '../../src/kiosk/record/archive';
import type { RestoredBy } from '../../src/kiosk/record/restore';
import { Restoring } from '../../src/kiosk/record/restoring';
import type { Head } from '../../src/record/ledger';
import type { Result } from '../../src/domain/result';
import { demoLoft } from '../e2e/support/demo-loft';

export function nothingToRestore(): Restoring {
  const nothing = (): void => undefined;
  return new Restoring({
    now: () => '2026-11-25T09:00:00Z',
    pinFits: () => Promise.resolve(false),
    onChange: nothing,
    onRestore: nothing,
    onRefused: nothing,
  });
}

/** The lead of the demo's loft. */
export function byLead(): RestoredBy {
  const lead = demoLoft().people.find(({ roles }) => roles.includes('lead'));
  if (lead === undefined) throw new Error('the demo has a lead');
  const at = '2026-11-26T09:00:00.000Z';
  return { by: lead.id, sighting: 'restoring-1', at, pin: false, people: peopleInForce(demoLoft()) };
}

/** Checked and restored at once, by the lead. */
export async function restoreAt(archive: Archive, bytes: Uint8Array): Promise<Result<Head, ArchiveFailure>> {
  const what = await archive.check(bytes);
  return what.ok ? archive.restore(what.value, byLead()) : what;
}
