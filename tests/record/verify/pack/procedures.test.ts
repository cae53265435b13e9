/** One id and revision has one content: the verifier recomputes the digest that was agreed, and compares packs. */
import { describe, expect, it } from 'vitest';
import type { Fact } from '../../../../src/domain/fact';
import { canonicalText } from '../../../../src/record/verify/bytes/canonical';
import { makeCanonicalJson } from '../../../../src/record/chain/canonical-json';
import { findingsOf } from '../remade-story';

const retitled = (fact: Fact): Fact => {
  const { body } = fact;
  if (body.kind !== 'procedureInForce' || body.procedure === null) return fact;
  return { ...fact, body: { ...body, procedure: { ...body.procedure, models: [...body.procedure.models, 'X'] } } };
};

describe('a procedure that is not the one that was agreed', () => {
  it('is found by its digest', async () => {
    const found = await findingsOf((fact) => (fact.pack === 'pack-0002' ? retitled(fact) : fact));
    expect(found).toContainEqual(expect.stringMatching(/another procedure than the one whose digest was agreed/));
  });

  it('is found in another pack, even where the digest was made to fit by leaving it out', async () => {
    const found = await findingsOf((fact) => {
      if (fact.pack !== 'pack-0003') return fact;
      if (fact.body.kind !== 'assemblyAgreed') return retitled(fact);
      const { kind, assembly, procedure, revision } = fact.body;
      return { ...fact, body: { kind, assembly, procedure, revision } };
    });
    expect(found).toContainEqual(expect.stringMatching(/is something else in fact \d+ than in \d+/));
  });
});

describe('canonical text', () => {
  it.each([{ b: 1, a: [true, null, 'é\n"'], '': -0, z: { y: 1e21, x: 0.1 } }, [], {}, 'text', [1, [2, [3]]]])(
    'is the writer’s, made another way: %j',
    (value) => {
      const text = makeCanonicalJson(value);
      expect(text.ok && text.value).toBe(canonicalText(value));
    },
  );

  it('is none for what is nested too deep', () => {
    let value: unknown = 1;
    for (let level = 0; level < 5_000; level += 1) value = [value];
    expect(canonicalText(value)).toBeNull();
  });
});
