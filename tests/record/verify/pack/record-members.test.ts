/** What a record says of inspection, kind of work, seal and uses: the verifier works it out anew. */
import { describe, expect, it } from 'vitest';
import type { FactBody } from '../../../../src/domain/fact';
import type { LogRecord } from '../../../../src/domain/log-record';
import { findingsOf } from '../remade-story';

const withRecord = (change: Partial<LogRecord>) =>
  findingsOf((fact) => {
    const { body } = fact;
    return body.kind === 'signed' ? { ...fact, body: { ...body, record: { ...body.record, ...change } } } : fact;
  });

describe('a record', () => {
  it.each<[string, Partial<LogRecord>, string]>([
    ['that says nobody was asked for defects', { materialDefects: null }, 'defects of the material'],
    ['with a defect that nobody found', { materialDefects: ['A line is frayed'] }, 'defects of the material'],
    ['of another kind of work', { workKind: 'inspectAndRepack' }, 'kind of work'],
    ['with a seal where the loft uses none', { sealMark: 'QH7' }, 'seal mark'],
    ['with other uses', { uses: [] }, 'uses'],
  ])('%s is found', async (_, change, name) => {
    const found = await withRecord(change);
    expect(found.length).toBeGreaterThan(0);
    for (const detail of found) expect(detail).toBe(`The record’s ${name} is not what the facts amount to.`);
  });
});

describe('a record of this edition', () => {
  it.each(['materialDefects', 'workKind', 'uses'] as const)('that leaves out %s is found', async (member) => {
    const found = await findingsOf((fact) => {
      const { body } = fact;
      if (body.kind !== 'signed') return fact;
      const kept = Object.entries(body.record).filter(([name]) => name !== member);
      return { ...fact, body: { ...body, record: Object.fromEntries(kept) as unknown as LogRecord } };
    });
    expect(found.length).toBeGreaterThan(0);
  });
});

describe('a loft that seals its packs', () => {
  /** The story as such a loft would have it; `mark` is on the records. */
  const sealed = (mark: string | null) =>
    findingsOf((fact) => {
      const { body } = fact;
      const change = (next: FactBody) => ({ ...fact, body: next });
      if (body.kind === 'procedureInForce') return change({ ...body, seals: true });
      if (body.kind === 'peopleInForce') {
        return change({
          ...body,
          people: body.people.map((one) => ({ ...one, sealMark: `QH-${one.id.slice(0, 3)}` })),
        });
      }
      if (body.kind !== 'signed' || mark === null) return fact;
      return change({
        ...body,
        record: { ...body.record, sealMark: mark === '' ? `QH-${body.packer.slice(0, 3)}` : mark },
      });
    });

  it('has the mark of whoever signed on the record', async () => {
    expect(await sealed('')).toEqual([]);
  });

  it.each([
    ['a record without a mark', null],
    ['a mark of somebody else', 'QH-xyz'],
  ])('and %s is found', async (_, mark) => {
    const found = await sealed(mark);
    expect(found.length).toBeGreaterThan(0);
    for (const detail of found) expect(detail).toContain('seal mark');
  });
});
