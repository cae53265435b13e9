/** The end of a pack before the verifier: the sound story with its last facts changed, and everything signed anew. */
import { describe, expect, it } from 'vitest';
import type { Fact, FactBody, FactKind } from '../../../../src/domain/fact';
import { findingsOf, verdictOf } from '../remade-story';

type Change = (facts: readonly Fact[]) => readonly Fact[];
type BodyOf<K extends FactKind> = Extract<FactBody, { kind: K }>;

/** Number of the last fact of this kind, or of the one before it. */
function lastAt(facts: readonly Fact[], kind: FactKind, back = 0): number {
  const at = facts.flatMap(({ body }, index) => (body.kind === kind ? [index] : [])).at(-1 - back);
  if (at === undefined) throw new Error(`the story has no ${kind} ${String(back)} before the last`);
  return at;
}

/** Puts a copy of the last fact of one kind, changed, behind the last of another. */
const behind =
  <K extends FactKind>(after: FactKind, kind: K, differing: Partial<BodyOf<K>> = {}): Change =>
  (facts) => {
    const fact = facts[lastAt(facts, kind)];
    if (fact === undefined) throw new Error(`the story has a ${kind}`);
    const body = { ...fact.body, ...differing } as FactBody;
    const place = lastAt(facts, after) + 1;
    const at = facts[place - 1]?.at ?? fact.at;
    return facts.toSpliced(place, 0, { ...fact, at, seq: facts.length, body });
  };

const without =
  (kind: FactKind, back = 0): Change =>
  (facts) =>
    facts.toSpliced(lastAt(facts, kind, back), 1);

const changed =
  <K extends FactKind>(kind: K, change: (body: BodyOf<K>) => Partial<BodyOf<K>>, back = 0): Change =>
  (facts) => {
    const place = lastAt(facts, kind, back);
    return facts.map((fact, index) =>
      index === place ? { ...fact, body: { ...fact.body, ...change(fact.body as BodyOf<K>) } as FactBody } : fact,
    );
  };

/** What a stored text without this member would be read as. */
function omit<T extends object>(from: T, member: keyof T & string): object {
  return Object.fromEntries(Object.entries(from).filter(([name]) => name !== member));
}

async function found(change: Change): Promise<readonly string[]> {
  const { findings } = await verdictOf(change);
  return findings.map(({ detail }) => detail);
}

describe('The end of a pack', () => {
  it('is sound as it lies in the project', async () => {
    expect(await found((facts) => facts)).toEqual([]);
  });

  it.each<[string, Change, RegExp]>([
    [
      'a stage worked after the signature',
      behind('signed', 'stageConfirmed'),
      /comes after the pack was signed and before it was closed/,
    ],
    [
      'a tool counted after the signature',
      behind('signed', 'toolReturned'),
      /comes after the pack was signed and before it was closed/,
    ],
    [
      'the items looked at after the signature',
      behind('signed', 'itemsAccounted'),
      /comes after the pack was signed and before it was closed/,
    ],
    ['a second signature over the first', behind('signed', 'signed'), /comes after the pack was signed/],
    ['a card placed twice', behind('cardPlaced', 'cardPlaced'), /places a card that was not signed, or was placed/],
    ['a card placed before the signature', behind('itemsAccounted', 'cardPlaced'), /places a card that was not signed/],
    [
      'closed without a card in the pocket',
      without('cardPlaced'),
      /closes a pack that is not signed with its card in the pocket/,
    ],
    ['closed without a signature', without('signed'), /closes a pack that is not signed with its card in the pocket/],
    [
      'closed for a signature of another number',
      changed('packClosed', ({ signed }) => ({ signed: signed - 1 })),
      /closes the pack for another signature than the one that stands/,
    ],
    ['closed without a final release', without('holdReleased'), /closes the pack without the release of its final/],
    [
      'closed by another inspector than released it',
      changed('packClosed', () => ({ inspector: 'ines-calloway' })),
      /closes the pack without the release of its final hold/,
    ],
    [
      'closed after another hold than the final one',
      changed('packClosed', () => ({ hold: 'ready-to-close' })),
      /closes the pack without the release of its final hold/,
    ],
    [
      'an item said to lie in the tray that is not known',
      changed('itemsAccounted', ({ out }) => ({ out: [...out, 'other'] })),
      /places the temporary items otherwise than they lay/,
    ],
    [
      'an item left out of the tray before the signature',
      changed('itemsAccounted', ({ out }) => ({ out: out.slice(1) })),
      /places the temporary items otherwise than they lay/,
    ],
    [
      'an item said to be inside before closing',
      changed('itemsAccounted', ({ out }) => ({ out: out.slice(1), inside: out.slice(0, 1) }), 1),
      /places the temporary items otherwise than they lay/,
    ],
    [
      'a tool fewer before closing',
      changed('toolAccounted', ({ count }) => ({ count: count + 1 })),
      /2 of hook were counted, 1 went out/,
    ],
    [
      'closing begun over a tool that was not counted',
      without('toolAccounted'),
      /closes the container before tool hook was counted/,
    ],
    [
      'closing begun over items that nobody looked at',
      without('itemsAccounted', 1),
      /closes the container before the temporary items were looked at/,
    ],
    [
      'signed over items that nobody looked at again',
      without('itemsAccounted'),
      /has temporary items not looked at before the signature/,
    ],
    [
      'a signature that ends the pack by itself',
      (facts) =>
        facts.map((fact, index) => {
          if (index !== lastAt(facts, 'signed') || fact.body.kind !== 'signed') return fact;
          return { ...fact, body: omit(fact.body, 'awaits') as FactBody };
        }),
      /does not await the final inspection/,
    ],
    [
      'a stage reopened where nothing was done',
      behind('toolIssued', 'reopened'),
      /reopens stage static-line-left, where nothing was done/,
    ],
    [
      'work counted before a reopening and not again',
      (facts) => {
        const reopened = facts[lastAt(facts, 'reopened')];
        if (reopened === undefined) throw new Error('the story reopens a stage');
        const place = lastAt(facts, 'itemsAccounted', 1) + 1;
        const { at = reopened.at } = facts[place - 1] ?? {};
        return facts.toSpliced(place, 0, { ...reopened, at, seq: facts.length });
      },
      /closes the container before tool rods was counted/,
    ],
  ])('with %s is found', async (_, change, wrong) => {
    expect((await found(change)).filter((detail) => wrong.test(detail))).not.toEqual([]);
  });

  it('with a return at the final hold behind the release needs a new signature', async () => {
    const returned: Change = (facts) => {
      const release = facts[lastAt(facts, 'holdReleased')];
      if (release?.body.kind !== 'holdReleased') throw new Error('the story releases its final hold');
      const { hold, inspector, sighting, channel } = release.body;
      const body: FactBody = {
        kind: 'holdReturned',
        hold,
        inspector,
        sighting,
        finding: 'card-wrong',
        backTo: 'signature',
        channel,
      };
      return facts.toSpliced(lastAt(facts, 'holdReleased'), 1, { ...release, body });
    };
    const details = await found(returned);
    expect(details).toContainEqual(expect.stringMatching(/closes a pack that is not signed with its card/));
    expect(details).toContainEqual(expect.stringMatching(/closes the pack for another signature than the one that/));
    expect(details).toContainEqual(expect.stringMatching(/closes the pack without the release of its final hold/));
  });
});

describe('A procedure of the present rules', () => {
  const inForce = (change: (procedure: NonNullable<BodyOf<'procedureInForce'>['procedure']>) => object) =>
    findingsOf((fact) => {
      const { body } = fact;
      if (body.kind !== 'procedureInForce' || body.procedure === null) return fact;
      return { ...fact, body: { ...body, procedure: change(body.procedure) } as FactBody };
    });

  it('without a final hold is found', async () => {
    const details = await inForce((procedure) => omit(procedure, 'finalHold'));
    expect(details).toContainEqual(expect.stringMatching(/has no final inspection/));
  });

  it('whose final hold is of another class is found', async () => {
    const details = await inForce(({ finalHold, ...procedure }) => ({
      ...procedure,
      finalHold: { ...finalHold, inspectorClass: 'closing' },
    }));
    expect(details).toContainEqual(expect.stringMatching(/the final inspection is not of class final/));
  });

  it('without a stage that closes the container is found', async () => {
    const details = await inForce(({ stages, ...procedure }) => ({
      ...procedure,
      stages: stages.map((stage) => omit(stage, 'closes')),
    }));
    expect(details).toContainEqual(expect.stringMatching(/no stage of the procedure closes the container/));
  });
});
