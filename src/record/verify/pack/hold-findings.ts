/** Judges what was found at a hold, and why a pack was stopped, by the verifier's own copy of the rules. */
import type { Fact } from '../../../domain/fact';
import type { Hold } from '../../../domain/procedure';
import type { BodyOf } from './account';

/** What an inspector can find at any hold beside the procedure's own findings. */
const ALWAYS: Readonly<Record<string, string>> = { other: 'Other', damage: 'Damage' };
const POINT = /^point:([1-9]\d?)$/;

/** The words of a finding on a record; null where the hold has no such finding. */
export function findingWords(hold: Hold, { finding, note }: BodyOf<'holdReturned'>): string | null {
  const written = note === undefined ? '' : `: ${note}`;
  const own = hold.findings.find(({ id }) => id === finding)?.text ?? ALWAYS[finding];
  if (own !== undefined) return own + written;
  const point = hold.inspect[Number(POINT.exec(finding)?.[1] ?? 0) - 1];
  return point === undefined ? null : `Not so: ${point.replace(/\.$/, '')}${written}`;
}

function isDamage(hold: Hold | null, body: Fact['body'] | undefined): body is BodyOf<'holdReturned'> {
  if (body?.kind !== 'holdReturned' || body.finding !== 'damage') return false;
  return hold?.findings.some(({ id }) => id === 'damage') !== true;
}

/** What is wrong with a return's finding; one sentence each. */
export function againstFinding(hold: Hold, body: BodyOf<'holdReturned'>, seq: number): readonly string[] {
  const wrong: string[] = [];
  if (findingWords(hold, body) === null) {
    wrong.push(`Fact ${String(seq)} returns hold ${hold.id} for “${body.finding}”, which is no finding of it.`);
  }
  if (body.note !== undefined && body.finding !== 'other') {
    wrong.push(`Fact ${String(seq)} has a note beside a finding that takes none.`);
  }
  return wrong;
}

interface Before {
  /** The fact ahead of this one in its pack. */
  readonly fact: Fact | undefined;
  /** The hold of that fact, where it is about one. */
  readonly hold: Hold | null;
  readonly edition: number;
  readonly packer: string | null;
  /** Kinds of component that had been identified. */
  readonly identified: ReadonlyMap<string, string>;
}

/** Damage found at a hold ends the pack in the same write; whatever else follows it is wrong. */
export function againstAfterDamage({ fact: before, hold }: Before, { body, seq, at }: Fact): string | null {
  if (!isDamage(hold, before?.body)) return null;
  if (body.kind === 'stopped' && body.cause === 'damage' && before?.at === at) return null;
  return `Fact ${String(seq)} follows damage that was found at a hold, where the pack had to be stopped.`;
}

/** Who stopped the pack, and what was tagged. */
export function againstStop(before: Before, { by, seq }: Fact, body: BodyOf<'stopped'>): readonly string[] {
  const finder = isDamage(before.hold, before.fact?.body) ? before.fact?.by : undefined;
  const wrong: string[] = [];
  if (by !== (finder ?? before.packer)) {
    wrong.push(`Fact ${String(seq)} names ${String(by)}, who could not stop the pack at that time.`);
  }
  if (body.cause === undefined && before.edition >= 2) {
    wrong.push(`Fact ${String(seq)} stops the pack without a cause.`);
  }
  if (body.component !== undefined && !before.identified.has(body.component)) {
    wrong.push(`Fact ${String(seq)} tags the ${body.component}, which had not been identified.`);
  }
  return wrong;
}
