/**
 * A pack by sound and pictures, from the folded bundle to the signed log record: the packer's own badge at a hold, a
 * measurement out of tolerance, and the browser killed in the middle of a stage. What comes before it goes by scanner.
 */
import { test } from '@playwright/test';
import { packAloud } from './support/spoken-pack';

test('packs the demo assembly hands-free, from the bag to the signed log record', ({ baseURL }) =>
  packAloud(baseURL, { from: 'bands', until: null, events: ['own', 'outside', 'killed'] }));

test('packs the demo assembly hands-free in one piece', ({ baseURL }) => {
  test.skip(process.env['STOWCALL_ALOUD'] !== 'whole', 'STOWCALL_ALOUD=whole: 12 minutes');
  const events = ['other', 'own', 'noise', 'returned', 'outside', 'killed'] as const;
  return packAloud(baseURL, { from: null, until: null, events });
});
