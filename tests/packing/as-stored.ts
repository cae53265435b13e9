/** The facts of a driven pack as the kiosk stores them, with the loft's files in force among them. */
import type { Fact, FactBody } from '../../src/domain/fact';
import type { Loft } from '../../src/domain/loft';
import { peopleInForce, procedureInForce } from '../../src/kiosk/record/in-force';
import { pointing } from '../../src/tools/exports/remake';

/** The files stand behind the opening and the agreement. `loft` is one with digests. */
export function asStored(facts: readonly Fact[], loft: Loft): readonly Fact[] {
  const inForce = ({ body }: Fact): FactBody | null => {
    if (body.kind === 'packOpened') return peopleInForce(loft);
    return body.kind === 'assemblyAgreed' ? procedureInForce(loft, body.assembly) : null;
  };
  const numbers = new Map<number, number>();
  const stored: Fact[] = [];
  for (const fact of facts) {
    numbers.set(fact.seq, stored.length);
    stored.push({ ...fact, seq: stored.length, body: pointing(fact.body, numbers) });
    const body = inForce(fact);
    if (body !== null) stored.push({ ...fact, seq: stored.length, by: null, body });
  }
  return stored;
}
