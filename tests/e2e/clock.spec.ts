/** The computer's clock set back and forward in the middle of a pack: facts keep their order, and the jump is a fact. */
import { expect, test } from '@playwright/test';
import { demoLoft } from './support/demo-loft';
import { Hands } from './support/hands';
import { badgeOf } from './support/demo-badges';
import { readJournal } from './support/read-journal';
import { holdClock, setClock } from './support/settable-clock';
import { errorsOf, startPage } from './support/start-page';

const loft = demoLoft();
const packer = loft.people.find(({ id }) => id === 'hazel-orrin');
const HOUR = 3_600_000;

test('the clock set back, forward, and back while the kiosk was off', async ({ context, baseURL }) => {
  if (!baseURL || !packer) throw new Error('the kiosk is not served');
  await holdClock(context);
  const page = await startPage(context, baseURL, { deny: ['audio', 'video'] });
  const hands = new Hands(page);
  const identify = async (serial: string): Promise<void> => {
    await hands.scan(serial);
    await hands.press('affirm');
  };
  await hands.expectScreen('start');
  await hands.scan(badgeOf(packer));
  await hands.expectScreen('identify');
  await setClock(page, -HOUR);
  await identify('MFT-6042-908');
  await setClock(page, 2 * HOUR);
  await identify('CVN-1837-261');
  await setClock(page, 0);
  await page.reload();
  // Nobody can tell how long the break was, so the badge says who goes on.
  await hands.expectScreen('standingBy');
  await hands.scan(badgeOf(packer));
  await hands.expectScreen('identify');
  await identify('XJA-5219-674');
  await hands.expectScreen('inspection');

  const facts = await readJournal(page);
  expect(facts.map(({ seq }) => seq)).toEqual(facts.map((_, index) => index));
  const kinds = facts.map(({ body }) => body.kind);
  expect(kinds.filter((kind) => !['assemblyAgreed', 'procedureInForce', 'checkInPassed'].includes(kind))).toEqual([
    'packOpened',
    'peopleInForce',
    'clockJumped',
    'componentIdentified',
    'clockJumped',
    'componentIdentified',
    'clockJumped',
    'restarted',
    'resumed',
    'componentIdentified',
  ]);
  const jumps = facts.flatMap(({ body }) =>
    body.kind === 'clockJumped' ? [Math.round((Date.parse(body.to) - Date.parse(body.from)) / HOUR)] : [],
  );
  expect(jumps).toEqual([-1, 3, -2]);
  expect(errorsOf(page)).toEqual([]);
});
