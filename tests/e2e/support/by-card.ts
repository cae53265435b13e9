/** A pack worked by scanner alone, as fast as the page takes it: the next act follows from the stored facts and the screen. */
import type { Page } from '@playwright/test';
import type { Assembly } from '../../../src/domain/component/component';
import type { Command } from '../../../src/domain/command';
import type { Fact } from '../../../src/domain/fact';
import type { Person } from '../../../src/domain/person';
import type { Procedure, Stage } from '../../../src/domain/procedure';
import { makeCardPayload } from '../../../src/scan/symbology/card';
import { badgeOf } from './demo-badges';
import { expectedLength } from './packing';

/** What is packed, by whom, and who looks at it. */
export interface PackPlan {
  readonly assembly: Assembly;
  readonly procedure: Procedure;
  readonly packer: Person;
  readonly inspector: Person;
}

/** Where a pack without returns and corrections must stand: the screen, and the title that is to be read on it. */
export interface Place {
  readonly screen: string;
  readonly title: string;
}

/** What the page shows of itself. */
export interface Shown {
  readonly screen: string;
  readonly prompt: string;
  readonly readBack: string;
  /** An inspector is present and may give a verdict. */
  readonly inspecting: boolean;
}

export function shownBy(page: Page): Promise<Shown> {
  return page.evaluate(() => {
    const { screen = '', prompt = '', readBack = '' } = document.documentElement.dataset;
    return { screen, prompt, readBack, inspecting: document.querySelector('[data-command="releaseHold"]') !== null };
  });
}

type Body<K extends Fact['body']['kind']> = Extract<Fact['body'], { kind: K }>;

function bodies<K extends Fact['body']['kind']>(facts: readonly Fact[], kind: K): readonly Body<K>[] {
  return facts.flatMap(({ body }) => (body.kind === kind ? [body as Body<K>] : []));
}

function stowsDone(facts: readonly Fact[], stage: Stage): number {
  return bodies(facts, 'stowed').reduce((sum, body) => sum + (body.stage === stage.id ? body.count : 0), 0);
}

function isDone(facts: readonly Fact[], stage: Stage): boolean {
  const kinds = {
    confirm: 'stageConfirmed',
    stow: 'stageConfirmed',
    count: 'counted',
    measure: 'measured',
    place: 'itemPlaced',
    remove: 'itemRemoved',
  } as const;
  return facts.some(({ body }) => body.kind === kinds[stage.kind] && 'stage' in body && body.stage === stage.id);
}

/** The stage whose work or hold is owed; null when all are done. */
function owedStage({ procedure }: PackPlan, facts: readonly Fact[]): { stage: Stage; atHold: boolean } | null {
  const released = bodies(facts, 'holdReleased').map(({ hold }) => hold);
  for (const stage of procedure.stages) {
    if (!isDone(facts, stage)) return { stage, atHold: false };
    if (stage.hold !== null && !released.includes(stage.hold.id)) return { stage, atHold: true };
  }
  return null;
}

function isTrayOwed({ procedure }: PackPlan, facts: readonly Fact[], before: 'closing' | 'signature'): boolean {
  const seen = bodies(facts, 'itemsAccounted').some((body) => body.before === before);
  return procedure.temporaryItems.length > 0 && !seen;
}

/** The place that follows from the facts of one pack, worked out here and not by the kiosk's own code. */
export function placeAfter(plan: PackPlan, facts: readonly Fact[]): Place {
  const has = (kind: Fact['body']['kind']): boolean => facts.some(({ body }) => body.kind === kind);
  if (!has('packOpened')) return { screen: 'start', title: 'Scan your badge' };
  if (has('packClosed')) return { screen: 'record', title: plan.assembly.typeAndMake };
  if (has('cardPlaced')) return { screen: 'hold', title: plan.procedure.finalHold?.title ?? '' };
  if (has('signed')) return { screen: 'card', title: plan.assembly.typeAndMake };
  if (!has('checkInPassed')) return { screen: 'identify', title: '' };
  if (bodies(facts, 'inspected').length < plan.assembly.components.length) return { screen: 'inspection', title: '' };
  if (bodies(facts, 'toolIssued').length < plan.procedure.tools.length) return { screen: 'checkIn', title: '' };
  const owed = owedStage(plan, facts);
  const { tools, stages } = plan.procedure;
  if (owed !== null) {
    const { stage, atHold } = owed;
    const isClosing = !atHold && stage.id === stages.find(({ closes }) => closes === true)?.id;
    if (isClosing) {
      if (bodies(facts, 'toolAccounted').length < tools.length) return { screen: 'closeUp', title: 'Before closing' };
      if (isTrayOwed(plan, facts, 'closing')) return { screen: 'items', title: 'Before closing' };
    }
    return atHold ? { screen: 'hold', title: stage.hold?.title ?? '' } : { screen: 'stage', title: stage.title };
  }
  if (bodies(facts, 'toolReturned').length < tools.length) return { screen: 'closeUp', title: 'Close up' };
  return isTrayOwed(plan, facts, 'signature') ? { screen: 'items', title: 'Close up' } : { screen: 'sign', title: '' };
}

/** The payload that a person who follows the screen scans next; null when the pack is recorded. */
export function nextScan(plan: PackPlan, facts: readonly Fact[], shown: Shown): string | null {
  if (shown.readBack !== '') return makeCardPayload({ name: 'affirm' });
  const { screen, title } = placeAfter(plan, facts);
  switch (screen) {
    case 'start':
    case 'sign':
      return badgeOf(plan.packer);
    case 'identify': {
      const known = bodies(facts, 'componentIdentified').map(({ serial }) => serial);
      const next = plan.assembly.components.find(({ serial }) => !known.includes(serial));
      if (next === undefined) throw new Error('every component is identified, and the check-in has not passed');
      return next.serial;
    }
    case 'inspection':
      return makeCardPayload({ name: 'nothingFound' });
    case 'items':
      return makeCardPayload({ name: 'itemsSeen' });
    case 'card':
      return makeCardPayload({ name: 'cardPlaced' });
    case 'checkIn':
    case 'closeUp': {
      const again = title === 'Close up' ? 'toolReturned' : 'toolAccounted';
      const counted = bodies(facts, screen === 'checkIn' ? 'toolIssued' : again).map(({ tool }) => tool);
      const next = plan.procedure.tools.find(({ id }) => !counted.includes(id));
      return makeCardPayload({ name: 'count', count: next?.count ?? 0, noun: 'tools' });
    }
    case 'hold':
      return shown.inspecting ? makeCardPayload({ name: 'releaseHold' }) : badgeOf(plan.inspector);
    case 'stage': {
      const stage = owedStage(plan, facts)?.stage;
      if (stage === undefined) throw new Error('no stage is owed');
      return makeCardPayload(workOf(plan, facts, stage));
    }
    default:
      return null;
  }
}

function workOf({ procedure }: PackPlan, facts: readonly Fact[], stage: Stage): Command {
  switch (stage.kind) {
    case 'confirm':
      return { name: 'stageComplete' };
    case 'count':
      return { name: 'count', count: stage.expected, noun: stage.noun };
    case 'stow': {
      const done = stowsDone(facts, stage);
      if (done === 0) return { name: 'stow' };
      const left = stage.plan.stows - done;
      // One by one, then half, then the rest: a stow stage has boundaries of its own.
      const some = done === 1 ? Math.ceil(left / 2) : left;
      return left === 0 ? { name: 'stageComplete' } : { name: 'count', count: some, noun: 'stows' };
    }
    case 'measure': {
      const { value, unit } = expectedLength(procedure, stage);
      return { name: 'measured', value, unit };
    }
    case 'place':
      return { name: 'itemPlaced' };
    case 'remove':
      return { name: 'itemRemoved' };
  }
}

/**
 * The keys of a scanner in one burst, with Enter at the end. Each carries its time, as real ones carry the time at which
 * the computer got them: a test that is held up in between would otherwise make two bursts of one.
 */
export async function burst(page: Page, payload: string): Promise<void> {
  await page.evaluate((text) => {
    const startMs = performance.now();
    for (const [index, key] of [...text, 'Enter'].entries()) {
      const at = document.activeElement ?? document.body;
      for (const kind of ['keydown', 'keyup']) {
        const event = new KeyboardEvent(kind, { key, bubbles: true, cancelable: true });
        Object.defineProperty(event, 'timeStamp', { value: startMs + index });
        at.dispatchEvent(event);
      }
    }
  }, payload);
}

/** Scans it, and waits until the prompt is another one. */
export async function scanOn(page: Page, payload: string): Promise<void> {
  const { prompt } = await shownBy(page);
  await burst(page, payload);
  await page.waitForFunction((before) => document.documentElement.dataset['prompt'] !== before, prompt, {
    polling: 10,
    timeout: 15_000,
  });
}
