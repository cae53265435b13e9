/**
 * A pack by sound and pictures, from the first badge to the hold on the folded bundle: a wrong label, noise and talk, the
 * packer's own badge at a hold, a return with rework; then by scanner to the record.
 */
import { test } from '@playwright/test';
import { packAloud } from './support/spoken-pack';

test('packs the demo assembly hands-free, from the first scan to the last fold', ({ baseURL }) =>
  packAloud(baseURL, { from: null, until: 'board-out', events: ['other', 'own', 'noise', 'returned'] }));
