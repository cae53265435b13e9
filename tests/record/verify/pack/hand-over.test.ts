/** Who may take a pack over, and go on after a break, judged from the journal alone. */
import { describe, expect, it } from 'vitest';
import type { Fact, FactBody } from '../../../../src/domain/fact';
import { findingsOf } from '../remade-story';

type Of<K extends FactBody['kind']> = Extract<FactBody, { kind: K }>;

const change =
  <K extends FactBody['kind']>(kind: K, by: (body: Of<K>) => FactBody) =>
  (fact: Fact): Fact =>
    fact.body.kind === kind ? { ...fact, body: by(fact.body as Of<K>) } : fact;

const without = (body: FactBody, member: string): FactBody =>
  JSON.parse(JSON.stringify({ ...body, [member]: undefined })) as FactBody;

const editionOne = change('packOpened', (body) => ({ ...body, edition: 1 }));

describe('a hand-over', () => {
  it.each<[string, RegExp, (body: Of<'handedOver'>) => FactBody]>([
    ['without the other badge', /without the badge of whoever left/, (body) => without(body, 'fromSighting')],
    ['on one scan', /one scan for both/, (body) => ({ ...body, fromSighting: body.sighting })],
    ['without a reason', /has no reason/, (body) => without(body, 'reason')],
    ['let go by who is no lead', /is no lead/, (body) => ({ ...body, lead: 'tomas-veller' })],
    ['let go by nobody of the loft', /not in the people file/, (body) => ({ ...body, lead: 'nobody' })],
    ['let go by who took over', /who took over/, (body) => ({ ...body, lead: body.to })],
    ['that looked back at no hold', /looked back at/, (body) => ({ ...body, lookedBack: 'gores-lines' })],
    [
      'that says nothing of a look back where a hold is released',
      /looked back at/,
      (body) => ({ ...body, lookedBack: 'x' }),
    ],
  ])('%s is found', async (_, found, by) => {
    expect(await findingsOf(change('handedOver', by))).toContainEqual(expect.stringMatching(found));
  });

  it('of the first edition needs one badge', async () => {
    const bare = change('handedOver', ({ kind, from, to, sighting }) => ({ kind, from, to, sighting }));
    const found = await findingsOf((fact) => editionOne(bare(fact)));
    expect(found).not.toContainEqual(expect.stringMatching(/hand-over/));
  });
});

describe('going on after a long break', () => {
  const noBadge = change('resumed', (body) => without(body, 'sighting'));

  it('without a badge is found, and in the first edition is not', async () => {
    expect(await findingsOf(noBadge)).toContainEqual(expect.stringMatching(/long break without the badge/));
    const early = await findingsOf((fact) => editionOne(noBadge(fact)));
    expect(early).not.toContainEqual(expect.stringMatching(/long break/));
  });

  it('is measured by the minutes on record', async () => {
    const longer = change('procedureInForce', (body) => ({ ...body, resumeBadgeMinutes: 1_000 }));
    expect(await findingsOf((fact) => longer(noBadge(fact)))).not.toContainEqual(expect.stringMatching(/the badge of/));
    const none = change('procedureInForce', (body) => without(body, 'resumeBadgeMinutes'));
    expect(await findingsOf((fact) => none(noBadge(fact)))).toContainEqual(expect.stringMatching(/the badge of/));
  });

  it('by a restart that does not stand by is found', async () => {
    const found = await findingsOf(change('restarted', (body) => without(body, 'standsBy')));
    expect(found).toContainEqual(expect.stringMatching(/goes on after a long break without standing by/));
  });

  it('on a scan that was used before is found', async () => {
    let used = '';
    const found = await findingsOf((fact) => {
      if (fact.body.kind === 'inspectorPresent') used = fact.body.sighting;
      return change('resumed', (body) => (body.sighting === undefined ? body : { ...body, sighting: used }))(fact);
    });
    expect(found).toContainEqual(expect.stringMatching(/scan that had been used already/));
  });
});
