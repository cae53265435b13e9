/** How a journal is changed by somebody who holds the right key: facts changed, everything signed anew. */
import type { Fact, FactBody } from '../../domain/fact';
import { remakeText } from './remake';
import type { Tamper } from './tamper';

type Change = (facts: readonly Fact[]) => readonly Fact[];

/** A lie signed with the right key. */
export function insider(what: Omit<Tamper, 'make'>, change: Change): Tamper {
  const make: Tamper['make'] = ({ file, signer }) => remakeText(change(file.facts.map(({ fact }) => fact)), signer);
  return { ...what, make };
}

type BodyOf<K extends FactBody['kind']> = Extract<FactBody, { kind: K }>;

/** Changes the last fact of this kind. */
export function lastOf<K extends FactBody['kind']>(
  kind: K,
  change: (fact: Fact, body: BodyOf<K>) => Fact | null,
): Change {
  return (facts) => {
    const at = facts.findLastIndex(({ body }) => body.kind === kind);
    const fact = facts[at];
    if (fact === undefined) throw new Error(`the story has no ${kind}`);
    const changed = change(fact, fact.body as BodyOf<K>);
    return changed === null ? facts.toSpliced(at, 1) : facts.with(at, changed);
  };
}

/** Lets somebody else have been the inspector of the last hold, scan and all. */
export function inspectedBy(inspector: string): Change {
  return (facts) => {
    const seen = lastOf('inspectorPresent', (fact, body) => ({ ...fact, by: inspector, body: { ...body, inspector } }));
    const released = lastOf('holdReleased', (fact, body) => ({ ...fact, by: inspector, body: { ...body, inspector } }));
    return released(seen(facts));
  };
}

/** So many seconds after this instant. */
export const later = (at: string, seconds: number): string => new Date(Date.parse(at) + seconds * 1000).toISOString();

/** Changes the last record. */
export function recordOf(change: (record: BodyOf<'signed'>['record']) => BodyOf<'signed'>['record']): Change {
  return lastOf('signed', (fact, body) => ({ ...fact, body: { ...body, record: change(body.record) } }));
}

/** Changes every record. */
export function recordsOf(change: (record: BodyOf<'signed'>['record']) => BodyOf<'signed'>['record']): Change {
  return (facts) =>
    facts.map((fact) =>
      fact.body.kind === 'signed' ? { ...fact, body: { ...fact.body, record: change(fact.body.record) } } : fact,
    );
}
