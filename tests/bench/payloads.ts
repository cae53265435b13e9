/**
 * A million random and mutated payloads through the understanding of payloads: `npm run bench:payloads [-- --count N]`.
 * Tells exceptions, wrong identities and times as JSON; exit code 1 when there was any of the first two.
 */
import { parseArgs } from 'node:util';
import { itemOfMark } from '../../src/domain/component/component-mark';
import { makeBadgePayload } from '../../src/scan/symbology/badge';
import { makeCardPayload } from '../../src/scan/symbology/card';
import { makeEnvelope } from '../../src/scan/symbology/envelope';
import { makeElementString } from '../../src/scan/symbology/gs1';
import { understandPayload, type PayloadMeaning } from '../../src/scan/symbology/understand-payload';
import { percentile } from './append';
import { demoBadges } from '../e2e/support/demo-badges';
import { demoLoft } from '../e2e/support/demo-loft';
import { seeded } from '../scan/pictures';

const random = seeded(20_261_125);
const loft = demoLoft();
const below = (most: number): number => Math.floor(random() * most);
const pick = <T>(all: readonly T[]): T | undefined => all[below(all.length)];

const GOOD: readonly string[] = [
  ...demoBadges().map(({ badge }) => makeBadgePayload(badge)),
  ...loft.assemblies.flatMap(({ components }) =>
    components.flatMap(({ serial, otherMarks }) => [
      serial,
      ...otherMarks,
      `]C1${makeElementString([
        { ai: '01', value: '09501101530003' },
        { ai: '21', value: serial },
      ])}`,
      makeEnvelope([{ format: '06', fields: [`25SD00000${serial}`] }]),
      makeEnvelope([{ format: '12', fields: ['MFR 00000', `SER ${serial}`] }]),
    ]),
  ),
  makeCardPayload({ name: 'affirm' }),
  makeCardPayload({ name: 'count', count: 5, noun: 'stows' }),
  makeCardPayload({ name: 'measured', value: 1.25, unit: 'in' }),
];
const PIECES = [
  'SB',
  'SC:',
  ']C1',
  ']d2',
  ']A0',
  '[)>\u001e',
  '06\u001d',
  '12\u001d',
  '\u001e\u0004',
  '\u001d',
  '01',
  '21',
  '8004',
  '-',
];

const anyCharacter = (): string => String.fromCharCode(random() < 0.9 ? below(128) : below(65_536));

function mutated(payload: string): string {
  const at = below(payload.length + 1);
  switch (below(6)) {
    case 0:
      return payload.slice(0, at) + anyCharacter() + payload.slice(at + 1);
    case 1:
      return payload.slice(0, at) + payload.slice(at + 1);
    case 2:
      return payload.slice(0, at) + anyCharacter() + payload.slice(at);
    case 3:
      return payload.slice(0, at) + payload.charAt(at + 1) + payload.charAt(at) + payload.slice(at + 2);
    case 4:
      return payload.slice(0, at) + (pick(GOOD) ?? '').slice(at);
    default:
      return payload.slice(0, at);
  }
}

function nextPayload(): string {
  const kind = below(10);
  if (kind === 0) return Array.from({ length: below(600) }, anyCharacter).join('');
  if (kind === 1) return Array.from({ length: below(12) }, () => pick(PIECES) ?? '').join('');
  const once = mutated(pick(GOOD) ?? '');
  return kind < 7 ? once : mutated(once);
}

/** What is accepted must stand in the payload, whole: anything else would be an identity that no label carries. */
function isWrong(payload: string, meaning: PayloadMeaning): boolean {
  switch (meaning.kind) {
    case 'badge':
      return !payload.includes(makeBadgePayload(meaning.badge));
    case 'command':
      return !payload.includes(makeCardPayload(meaning.command));
    case 'component': {
      const item = itemOfMark(loft.assemblies, meaning);
      if (!payload.includes(meaning.serial)) return true;
      return (
        item.kind === 'found' &&
        ![item.component.serial, ...item.component.otherMarks].some((mark) => payload.includes(mark))
      );
    }
    case 'refused':
      return meaning.reason === '' || meaning.detail === '';
  }
}

const LIMIT_MS = 1;

/** A payload that took long is timed again: the machine does other things too, and what is asked is the payload's own. */
function bestOf(payload: string): number {
  const again = Array.from({ length: 5 }, () => {
    const startedMs = performance.now();
    understandPayload({ payload, symbology: 'unknown' });
    return performance.now() - startedMs;
  });
  return Math.min(...again);
}

function main(): number {
  const { values } = parseArgs({ options: { count: { type: 'string', default: '1000000' } } });
  const count = Number(values.count);
  const times = new Float64Array(count);
  const kinds: Record<string, number> = {};
  const wrong: string[] = [];
  const thrown: string[] = [];
  for (let turn = 0; turn < count; turn += 1) {
    const payload = nextPayload();
    const startedMs = performance.now();
    try {
      const meaning = understandPayload({ payload, symbology: 'unknown' });
      times[turn] = performance.now() - startedMs;
      if ((times[turn] ?? 0) > LIMIT_MS) times[turn] = bestOf(payload);
      kinds[meaning.kind] = (kinds[meaning.kind] ?? 0) + 1;
      if (isWrong(payload, meaning)) wrong.push(JSON.stringify({ payload, meaning }));
    } catch (error) {
      thrown.push(`${JSON.stringify(payload)}: ${String(error)}`);
    }
  }
  const all = [...times];
  const over = all.filter((ms) => ms > LIMIT_MS).length;
  const us = (percent: number): number =>
    Math.round(
      percentile(
        all.map((ms) => ms * 1000),
        percent,
      ),
    );
  const microseconds = { p50: us(50), p99: us(99), p9999: us(99.99), max: us(100) };
  console.log(
    JSON.stringify({ count, kinds, thrown: thrown.length, wrong: wrong.length, over1ms: over, microseconds }),
  );
  for (const text of [...thrown, ...wrong].slice(0, 20)) console.error(text);
  return thrown.length + wrong.length > 0 ? 1 : 0;
}

process.exitCode = main();
