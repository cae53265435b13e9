import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { createStore } from '../../src/record/store/store';
import { createFakeDisk, createFakeLedger } from '../fakes/ledger';
import { LEDGER_CASES, runLedgerCases, type LedgerSubject } from './ledger';

let journals = 0;
const SUBJECTS: readonly (readonly [string, () => LedgerSubject])[] = [
  [
    'the fake ledger',
    () => {
      const disk = createFakeDisk();
      return { page: () => createFakeLedger(disk) };
    },
  ],
  [
    'the store, on IndexedDB in memory',
    () => {
      journals += 1;
      const name = `conformance-${journals}`;
      return { page: () => createStore({ name }) };
    },
  ],
];

describe.each(SUBJECTS)('%s', (_, makeSubject) => {
  it.each(LEDGER_CASES)('$name', ({ run }) => run(makeSubject()));
});

describe('the suite itself', () => {
  it('finds a ledger that forgets to compare', async () => {
    const broken = (): LedgerSubject => {
      const disk = createFakeDisk();
      return {
        page: () => {
          const ledger = createFakeLedger(disk);
          const careless = async (_: unknown, drafts: Parameters<typeof ledger.append>[1]) => {
            const head = await ledger.head();
            return head.ok ? ledger.append(head.value, drafts) : head;
          };
          return { ...ledger, append: careless };
        },
      };
    };
    const faults = (await runLedgerCases(broken)).filter(({ fault }) => fault !== null);
    expect(faults.map(({ name }) => name)).toContain('turns a second page away until it looks again');
  });
});
