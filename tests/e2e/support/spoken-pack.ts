/**
 * A pack of the long demo procedure: where it is spoken every kind of command is sound that goes through the page's
 * microphone path into the real recogniser (what only repeats it, line for line, is a command card), every identity is
 * a picture that goes through its camera path, every fact lies in IndexedDB. The stages outside the spoken part are
 * worked by scanner, so that two packs, each spoken for one half, take half the time of one.
 */
import { expect, test, type Page } from '@playwright/test';
import { firstClosingStage, type Stage } from '../../../src/domain/procedure';
import { makeQuantity } from '../../../src/domain/quantity';
import { lastGoodDay } from '../../../src/domain/component/repack-rule';
import { sayQuantity } from '../../../src/domain/spoken';
import { newProfile, startChromium, type RunningChromium } from './chromium-process';
import { nextScan, placeAfter, scanOn, shownBy } from './by-card';
import { demoLoft } from './demo-loft';
import { badgeOf } from './demo-badges';
import { account, countTools, expectedLength, lookOver, releaseHold, stowMore, stowSome, workStage } from './packing';
import { readJournal } from './read-journal';
import { Rigger } from './rigger';
import { startPage } from './start-page';

const loft = demoLoft();
const find = <T extends { readonly id: string }>(list: readonly T[], id: string): T => {
  const found = list.find((one) => one.id === id);
  if (found === undefined) throw new Error(`the demo loft has no ${id}`);
  return found;
};
const assembly = find(loft.assemblies, 'wendle-main-4');
const other = find(loft.assemblies, 'corrow-cargo-9');
const procedure = find(loft.procedures, assembly.procedure);
const packer = find(loft.people, 'hazel-orrin');
const inspector = find(loft.people, 'tomas-veller');
const unqualified = find(loft.people, 'kester-lund');
/** A brisk loft: the same voice and words, in less of a test machine's time. */
const SPEAKING_RATE = 2;
const serialOf = (kind: string, of = assembly): string => {
  const component = of.components.find((one) => one.kind === kind);
  if (component === undefined) throw new Error(`no ${kind}`);
  return component.serial;
};

/** What has to happen on the way through a spoken part: another assembly's label, the packer's own badge, and so on. */
type Event = 'other' | 'own' | 'noise' | 'returned' | 'outside' | 'killed';

export interface SpokenPart {
  /** First stage that is spoken; null where everything from the badge on is. */
  readonly from: string | null;
  /** Last stage that is spoken, with its hold; null where everything up to the signed record is. */
  readonly until: string | null;
  readonly events: readonly Event[];
}

/** Packs the demo assembly from the first scan to the signed log record, hands-free in the spoken part. */
export async function packAloud(baseURL: string | undefined, { from, until, events }: SpokenPart): Promise<void> {
  test.setTimeout(25 * 60_000);
  if (baseURL === undefined) throw new Error('the kiosk is not served');
  const profile = await newProfile();
  let chromium: RunningChromium = await startChromium(profile);
  let page: Page = await startPage(chromium.context, baseURL, { speakingRate: SPEAKING_RATE });
  const rigger = new Rigger(page);

  await test.step('start: self-check', async () => {
    await rigger.expectScreen('start');
    await expect(page.locator('html[data-checks="works works works works works"]')).toBeAttached({ timeout: 60_000 });
    await rigger.expectText('must not be used to pack a parachute');
  });
  const seen = { other: false, own: false, noise: false, returned: false, outside: false, killed: false };
  seen.other = from === null;
  if (from !== null) await test.step(`by scanner to stage "${from}"`, () => scanThrough(page, from));
  else await test.step('from the badge to the first stage', () => beginAloud(rigger));

  const hold = async (stage: Stage): Promise<void> => {
    if (stage.hold === null) return;
    await rigger.expectScreen('hold');
    if (!seen.own) {
      seen.own = true;
      await rigger.show(badgeOf(packer), 'qr');
      await rigger.expectText(/packer/i);
      await rigger.expectScreen('hold');
      await rigger.show(badgeOf(unqualified), 'qr');
      await rigger.expectText(/not qualified|qualified for/i);
      await rigger.expectScreen('hold');
    }
    await releaseHold(rigger, inspector);
  };

  const indexOf = (id: string): number => procedure.stages.findIndex((stage) => stage.id === id);
  const last = until === null ? procedure.stages.length - 1 : indexOf(until);
  for (let index = from === null ? 0 : indexOf(from); index <= last; index += 1) {
    const stage = procedure.stages[index];
    if (stage === undefined) throw new Error('no stage');
    if (stage.id === firstClosingStage(procedure)?.id) {
      await test.step('before closing: everything counted', () => account(rigger, procedure));
    }
    await test.step(`stage ${stage.number}: ${stage.title}`, async () => {
      await rigger.expectScreen('stage');
      await rigger.expectText(stage.title);
      if (stage.kind === 'confirm' && events.includes('noise') && !seen.noise) {
        seen.noise = true;
        const before = await rigger.prompt();
        await rigger.untilListening();
        await rigger.sound(noise(1.5));
        await rigger.sayOnce('has anybody seen my coffee cup this morning');
        await page.waitForTimeout(1_500);
        expect(await rigger.prompt()).toBe(before);
        await rigger.expectText(/not heard/i);
      }
      if (stage.kind === 'stow' && stage.plan.stows > 6 && events.includes('killed') && !seen.killed) {
        seen.killed = true;
        await stowSome(rigger, 5);
        await chromium.kill();
        chromium = await startChromium(profile);
        page = await startPage(chromium.context, baseURL, { speakingRate: SPEAKING_RATE });
        rigger.moveTo(page);
        await rigger.expectScreen('stage');
        await rigger.expectText(/after a break/i);
        await rigger.expectText(stage.title);
        await rigger.expectText(`5 of ${stage.plan.stows}`);
        await stowMore(rigger, stage.plan.stows - 5);
        await rigger.say('stage complete');
      } else if (
        stage.kind === 'measure' &&
        stage.target.from === 'remainder' &&
        events.includes('outside') &&
        !seen.outside
      ) {
        seen.outside = true;
        const length = expectedLength(procedure, stage);
        const tooLong = { ...length, value: length.value + 20 };
        await rigger.value(`measured ${sayQuantity(tooLong)}`, `: ${makeQuantity(tooLong)}.`);
        await rigger.expectText(/too long/i);
        await rigger.expectScreen('stage');
        await workStage(rigger, procedure, stage);
      } else {
        await workStage(rigger, procedure, stage);
      }
    });
    const finding = stage.hold?.findings[0];
    const mayReturn = events.includes('returned') && !seen.returned;
    if (mayReturn && stage.hold !== null && finding !== undefined && isPlainRework(stage, finding.backTo)) {
      await test.step(`hold ${stage.hold.title}: sent back`, async () => {
        seen.returned = true;
        await rigger.expectScreen('hold');
        await rigger.show(badgeOf(inspector), 'qr');
        await rigger.say('send back for rework');
        await rigger.say('finding one');
        await rigger.say('affirm');
        await rigger.affirm();
        await rigger.expectScreen('stage');
        await rigger.expectText(find(procedure.stages, finding.backTo).title);
      });
      index = indexOf(finding.backTo) - 1;
      continue;
    }
    if (stage.hold !== null) await test.step(`hold: ${stage.hold.title}`, () => hold(stage));
  }
  expect(
    Object.entries(seen)
      .flatMap(([event, was]) => (was ? [event] : []))
      .sort(),
  ).toEqual([...events].sort());

  if (until !== null) await test.step('by scanner to the record', () => scanThrough(page, null));
  else await test.step('close up, the signature, the card, the final inspection', () => closeAloud(rigger));

  await test.step('the log record says what happened', () => expectRecord(page, rigger, seen));

  test.info().annotations.push({ type: 'tally', description: JSON.stringify(rigger.tally) });
  console.log(`whole pack: ${JSON.stringify(rigger.tally)}`);
  await chromium.kill();
}

/** The rest of the pack, or as far as this stage, by scanner alone. */
async function scanThrough(page: Page, until: string | null): Promise<void> {
  const plan = { assembly, procedure, packer, inspector };
  const title = until === null ? null : find(procedure.stages, until).title;
  for (;;) {
    const facts = await readJournal(page);
    const shown = await shownBy(page);
    const place = placeAfter(plan, facts);
    if (title !== null && place.screen === 'stage' && place.title === title && shown.readBack === '') return;
    const payload = nextScan(plan, facts, shown);
    if (payload === null) return;
    await scanOn(page, payload);
  }
}

/** Identify, the look before packing, tools out. */
async function beginAloud(rigger: Rigger): Promise<void> {
  await rigger.show(badgeOf(packer), 'qr');
  await rigger.expectScreen('identify');
  // A label of another assembly is refused, the right three are affirmed.
  await rigger.show(serialOf('bag'), 'code128');
  await rigger.affirm();
  await rigger.show(serialOf('canopy', other), 'dataMatrix');
  await rigger.expectText(/another assembly|belongs to/i);
  await rigger.show(serialOf('container'), 'dataMatrix');
  await rigger.affirm();
  await rigger.show(serialOf('canopy'), 'code128');
  await rigger.affirm();
  await rigger.expectScreen('inspection');
  await rigger.expectText(procedure.title);
  // Every part is looked over before anything is packed.
  await lookOver(rigger, assembly);
  await countTools(rigger, procedure, 'checkIn');
  await rigger.expectScreen('stage');
}

/** Everything counted again, the signature, the card, the final inspection. */
async function closeAloud(rigger: Rigger): Promise<void> {
  await account(rigger, procedure);
  await rigger.expectScreen('sign');
  await rigger.show(badgeOf(packer), 'qr');
  await rigger.expectScreen('card');
  await rigger.say('card in pocket');
  await releaseHold(rigger, inspector);
  await rigger.expectScreen('record');
}

async function expectRecord(page: Page, rigger: Rigger, seen: Readonly<Record<Event, boolean>>): Promise<void> {
  const rule = loft.settings.repackRules.find(({ id }) => id === assembly.repackRule);
  if (rule === undefined) throw new Error('no repack rule');
  const today = await page.evaluate(() => {
    const now = new Date();
    return `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, '0')}-${String(now.getDate()).padStart(2, '0')}`;
  });
  const card = page.locator('main');
  for (const text of [
    assembly.typeAndMake,
    ...assembly.components.map(({ serial }) => serial),
    packer.name,
    packer.certificate ?? '',
    inspector.name,
    procedure.title,
    'must not be used to pack a parachute',
  ]) {
    await expect(card).toContainText(text);
  }
  await rigger.untilQuiet();
  const facts = await readJournal(page);
  const count = (kind: string): number => facts.filter((fact) => fact.body.kind === kind).length;
  expect(count('restarted')).toBe(Number(seen.killed));
  expect(count('holdReturned')).toBe(Number(seen.returned));
  expect(count('signed')).toBe(1);
  expect(count('inspected')).toBe(assembly.components.length);
  for (const kind of ['toolIssued', 'toolAccounted', 'toolReturned']) expect(count(kind)).toBe(procedure.tools.length);
  expect(count('itemsAccounted')).toBe(2);
  expect(facts.slice(-3).map(({ body }) => body.kind)).toEqual(['inspectorPresent', 'holdReleased', 'packClosed']);
  const refusals = facts.flatMap(({ body }) => (body.kind === 'scanRefused' ? [body.where.split(':')[0]] : []));
  expect(refusals).toEqual([...(seen.other ? ['identify'] : []), ...(seen.own ? ['hold', 'hold'] : [])]);
  const signed = facts.find((fact) => fact.body.kind === 'signed');
  if (signed?.body.kind !== 'signed') throw new Error('not signed');
  const { record } = signed.body;
  expect(record.nextDue).toBe(lastGoodDay(rule, today));
  expect(record.packedOn).toBe(today);
  expect(record.holds.map(({ title }) => title)).toEqual(
    procedure.stages.flatMap(({ hold: one }) => (one === null ? [] : [one.title])),
  );
  expect(new Set(record.holds.map((one) => one.inspector))).toEqual(new Set([inspector.name]));
  expect(record.tools.map(({ issued, returned }) => issued === returned)).not.toContain(false);
  expect(record.temporaryItems.map(({ placed, removed }) => placed === removed)).not.toContain(false);
  if (seen.returned) expect(record.defects.length).toBeGreaterThan(0);
}

/** Back to the stage before the hold and to nothing else: what a return voids is played through by scanner elsewhere. */
function isPlainRework({ id, number }: Stage, backTo: string): boolean {
  return number > 2 && id === backTo;
}

/** White noise at about -20 dB, always the same. */
function noise(seconds: number): Float32Array {
  let seed = 7;
  return Float32Array.from({ length: Math.round(seconds * 16_000) }, () => {
    seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
    return (seed / 1_073_741_824 - 1) * 0.17;
  });
}
