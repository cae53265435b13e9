/** Names and certificate numbers on a record: the verifier knows from the journal alone whose they are. */
import { describe, expect, it } from 'vitest';
import type { Fact } from '../../../../src/domain/fact';
import type { LogRecord } from '../../../../src/domain/log-record';
import { findingsOf, STORY } from '../remade-story';

const onRecord =
  (change: (record: LogRecord) => LogRecord) =>
  (fact: Fact): Fact =>
    fact.body.kind === 'signed' ? { ...fact, body: { ...fact.body, record: change(fact.body.record) } } : fact;

const onPeople =
  (change: (person: { nameDigest?: string | undefined }) => object) =>
  (fact: Fact): Fact =>
    fact.body.kind === 'peopleInForce'
      ? ({ ...fact, body: { ...fact.body, people: fact.body.people.map(change) } } as Fact)
      : fact;

describe('names on a record', () => {
  it('are in the journal beside a digest for each person, and nothing is found', async () => {
    expect(STORY).toContain('"nameDigest":"');
    expect(await findingsOf((fact) => fact)).toEqual([]);
  });

  it('of another signer are found, and whose they should be is told', async () => {
    const found = await findingsOf(
      onRecord((record) => ({ ...record, packers: record.packers.map((one) => ({ ...one, name: 'Nora Pell' })) })),
    );
    expect(found.length).toBeGreaterThan(0);
    for (const detail of found) expect(detail).toMatch(/^The record calls [a-z-]+ “Nora Pell”, which is not the name/);
  });

  it('of another inspector are found', async () => {
    const found = await findingsOf(
      onRecord((record) => ({ ...record, holds: record.holds.map((one) => ({ ...one, inspector: 'tomas veller' })) })),
    );
    expect(found).toContainEqual(expect.stringContaining('calls tomas-veller “tomas veller”'));
  });

  it('with another certificate number are found', async () => {
    const found = await findingsOf(
      onRecord((record) => ({ ...record, packers: record.packers.map((one) => ({ ...one, certificate: 'X-1' })) })),
    );
    expect(found).toContainEqual('The record’s packers is not what the facts amount to.');
  });

  it('of two people exchanged are found, since a digest belongs to one person', async () => {
    let first: string | undefined;
    const found = await findingsOf(onPeople((person) => ({ ...person, nameDigest: (first ??= person.nameDigest) })));
    expect(found).toContainEqual(expect.stringContaining('which is not the name in the people file'));
  });

  it('cannot be compared where there is no digest, which only packs of edition 1 may lack', async () => {
    const found = await findingsOf(
      onPeople((person) => Object.fromEntries(Object.entries(person).filter(([key]) => key !== 'nameDigest'))),
    );
    expect(found.length).toBeGreaterThan(0);
    for (const detail of found) expect(detail).toMatch(/^Fact \d+ has no name digest of /);
  });
});
