/** What a pack is told of the journal when it is opened: its own facts, serials elsewhere, and what others did last. */
import { describe, expect, it } from 'vitest';
import { openPackInput } from '../../../src/kiosk/pack/open-pack-input';
import { createFakeDisk, createFakeLedger } from '../../fakes/ledger';
import { countDraft } from '../../fakes/ledger-facts';

async function journalOf(packs: readonly string[]) {
  const ledger = createFakeLedger(createFakeDisk());
  const opened = await ledger.open();
  if (!opened.ok) throw new Error(opened.detail);
  const drafts = packs.map((pack, index) => countDraft(pack, index));
  const appended = drafts.length === 0 ? null : await ledger.append(opened.value, drafts);
  if (appended?.ok === false) throw new Error(appended.detail);
  return ledger;
}

describe('a pack that is opened', () => {
  it.each([
    { name: 'new, in an empty journal', packs: [], opening: {}, own: [], elsewhere: [] },
    { name: 'new, beside others', packs: ['b', 'c', 'b'], opening: {}, own: [], elsewhere: [0, 1, 2] },
    { name: 'taken up again', packs: ['a', 'b', 'a', 'c'], opening: null, own: [0, 2], elsewhere: [1, 3] },
  ])('$name', async ({ packs, opening, own, elsewhere }) => {
    const input = await openPackInput(await journalOf(packs), 'a', opening);
    if (!input.ok) throw new Error(input.detail);
    expect(input.value.facts.map(({ seq }) => seq)).toEqual(own);
    expect(input.value.elsewhere.map(({ seq }) => seq)).toEqual(elsewhere);
  });

  it('of others hears the last five hundred facts', async () => {
    const ledger = await journalOf(Array.from({ length: 620 }, () => 'b'));
    const input = await openPackInput(ledger, 'a', {});
    expect(input.ok && input.value.elsewhere.map(({ seq }) => seq)[0]).toBe(120);
  });

  it('is refused whole where the journal cannot be read', async () => {
    const ledger = await journalOf(['b']);
    ledger.close();
    expect(await openPackInput(ledger, 'a', {})).toMatchObject({ ok: false, reason: 'unavailable' });
  });
});
