/** Records by serial, years later: which are found, what their copies say, and what is never taken for a record. */
import { describe, expect, it } from 'vitest';
import type { Fact } from '../../../src/domain/fact';
import { parseExportText } from '../../../src/record/chain/export-file';
import { demoLoft } from '../../e2e/support/demo-loft';
import { reprintsOf } from '../../fakes/reprints';
import { STORY } from '../../record/verify/remade-story';

function storyFacts(): readonly Fact[] {
  const file = parseExportText(STORY);
  if (!file.ok) throw new Error(file.detail);
  return file.value.facts.map(({ fact }) => fact);
}

const FACTS = storyFacts();
const signed = FACTS.flatMap(({ pack, body }) => (body.kind === 'signed' ? [{ pack, record: body.record }] : []));
const last = signed.at(-1);
const SERIAL = last?.record.serials[0]?.serial ?? '';

describe('the records of a serial', () => {
  it('are found, one for each pack, the newest first', async () => {
    const reprints = reprintsOf(FACTS);
    await reprints.find(` ${SERIAL} `);
    const packs = [
      ...new Set(
        signed.filter(({ record }) => record.serials.some((one) => one.serial === SERIAL)).map(({ pack }) => pack),
      ),
    ];
    expect(packs.length).toBeGreaterThan(0);
    expect(reprints.view()).toMatchObject({ serial: SERIAL, trouble: null, copy: null });
    expect(reprints.view()?.found.map(({ pack }) => pack)).toEqual(packs.reverse());
  });

  it('are none for a serial that no record names, and that is said', async () => {
    const reprints = reprintsOf(FACTS);
    await reprints.find('NO-SUCH-0000');
    expect(reprints.view()).toEqual({ serial: 'NO-SUCH-0000', found: [], copy: null, trouble: null });
  });

  it('are not looked for without a serial', async () => {
    const reprints = reprintsOf(FACTS);
    await reprints.find('   ');
    expect(reprints.view()).toBeNull();
  });

  it('of a journal that cannot be read to its end are not half told', async () => {
    const reprints = reprintsOf(FACTS, true);
    await reprints.find(SERIAL);
    expect(reprints.view()).toMatchObject({ found: [], trouble: expect.stringContaining('Call the lead') });
  });
});

describe('a copy', () => {
  it('holds what was signed, who released the final hold, and when it was made', async () => {
    const reprints = reprintsOf(FACTS);
    reprints.know(demoLoft().people);
    await reprints.find(SERIAL);
    const pack = reprints.view()?.found[0]?.pack ?? '';
    await reprints.open(pack);
    const copy = reprints.view()?.copy;
    expect(copy?.record).toEqual(signed.filter((one) => one.pack === pack).at(-1)?.record);
    expect(copy?.madeAt).toBe('2026-12-01T10:00:00+00:00');
    const closed = FACTS.find((fact) => fact.pack === pack && fact.body.kind === 'packClosed');
    const inspector = demoLoft().people.find(
      ({ id }) => closed?.body.kind === 'packClosed' && id === closed.body.inspector,
    );
    expect(copy?.final).toMatchObject({
      inspector: inspector?.name,
      certificate: inspector?.certificate,
      at: closed?.at,
    });
    reprints.close();
    expect(reprints.view()).toBeNull();
  });

  it('of a record whose final hold is still to come leaves room for initials', async () => {
    const reprints = reprintsOf(FACTS.filter(({ body }) => body.kind !== 'packClosed'));
    await reprints.find(SERIAL);
    expect(reprints.view()?.found[0]?.isClosed).toBe(false);
    await reprints.open(reprints.view()?.found[0]?.pack ?? '');
    expect(reprints.view()?.copy?.final).toBe('byHand');
  });

  it('of a pack that was never signed is none', async () => {
    const reprints = reprintsOf(FACTS.filter(({ body }) => body.kind !== 'signed'));
    await reprints.find(SERIAL);
    await reprints.open(last?.pack ?? '');
    expect(reprints.view()).toMatchObject({ copy: null, trouble: 'That record cannot be read. Call the lead.' });
  });
});
