/** Lies about a journal that was put back from a copy, signed with the right key. */
import type { Fact, FactBody } from '../../domain/fact';
import { LOFT_STREAM } from '../../domain/fact';
import { remakeText } from './remake';
import type { Sound, Tamper } from './tamper';

type Restored = Extract<FactBody, { kind: 'restored' }>;

/** The story, put back at its end by this person. */
function restoredBy(by: string, change: Partial<Restored>): (sound: Sound) => Promise<string> {
  return ({ file, signer }) => {
    const facts = file.facts.map(({ fact }) => fact);
    const [last, people] = [facts.at(-1), facts.findLast(({ body }) => body.kind === 'peopleInForce')];
    if (last === undefined || people === undefined) throw new Error('the story has facts and people');
    const at = new Date(Date.parse(last.at) + 3_600_000).toISOString();
    const body: Restored = { kind: 'restored', by, sighting: 'scan-restoring', ...file.head, ...change };
    const behind: readonly Fact[] = [
      { pack: LOFT_STREAM, at, by, seq: facts.length, body },
      { pack: LOFT_STREAM, at, by: null, seq: facts.length + 1, body: people.body },
    ];
    return remakeText([...facts, ...behind], signer);
  };
}

export const RESTORE_TAMPERS: readonly Tamper[] = [
  {
    name: 'restored-by-rigger',
    done: 'The journal was put back from a copy by a rigger who is no lead.',
    finds: 'who',
    make: restoredBy('hazel-orrin', {}),
  },
  {
    name: 'restored-other-root',
    done: 'The fact of restoring states the root of another copy than the one that was put back.',
    finds: 'restore',
    make: (sound) => restoredBy(leadOf(sound), { root: '0f'.repeat(32) })(sound),
  },
];

function leadOf({ file }: Sound): string {
  const bodies = file.facts.map(({ fact }) => fact.body);
  const people = bodies.flatMap((body) => (body.kind === 'peopleInForce' ? body.people : []));
  return people.findLast(({ roles }) => roles.includes('lead'))?.id ?? '';
}
