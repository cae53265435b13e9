/** The journal as the kiosk exports it, and what the verifier says of it. */
import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { checkSignature } from '../../../src/record/seal/ed25519';
import { verifyRecord, type RecordVerdict } from '../../../src/record/verify/verify-record';

export interface ExportedRecord {
  /** Where the download lies. */
  readonly file: string;
  readonly verdict: RecordVerdict;
}

/** Exports everything from the records page, which must be shown, and has it verified. */
export async function exportRecord(page: Page): Promise<ExportedRecord> {
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export everything' }).click();
  const file = await (await downloading).path();
  return { file, verdict: await verifyRecord(new Uint8Array(readFileSync(file)), { keys: [], checkSignature }) };
}
