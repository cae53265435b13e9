/** Identify: bag, container and canopy are scanned in any order, spoken back, and affirmed one by one. */
import type { Serial } from '../../../domain/ids';
import { COMPONENT_KINDS, componentOfSerial } from '../../../domain/component/component';
import type { FoundItem } from '../../../domain/component/component-mark';
import { itemOfMark } from '../../../domain/component/component-mark';
import type { Fact } from '../../../domain/fact';
import type { Loft } from '../../../domain/loft';
import { procedureById } from '../../../domain/loft';
import type { Result } from '../../../domain/result';
import { ok, refused } from '../../../domain/result';
import { assemblyById } from './check-in';
import type { Here, PackContext, Remark } from '../../machine/context';
import type { Decision } from '../../machine/decision';
import { answer, readBackOf, remarkOn } from '../../machine/decision';
import { phraseOf } from '../../machine/legal';
import { demonstrationWords } from '../../words/notices';
import type { Scan } from '../../badge/scan-refused';
import { refuseScan } from '../../badge/scan-refused';
import { capital, joinWords, serialWords, words } from '../../words/words';

export type IdentifyRefusal =
  | 'unreadable'
  | 'badge-here'
  | 'replayed'
  | 'unknown-serial'
  | 'marks-disagree'
  | 'scanned-twice'
  | 'other-assembly'
  | 'in-open-pack'
  | 'kind-already-identified';

/** The component that was scanned, if it can be taken now. */
function componentScanned(context: PackContext, scan: Scan): Result<FoundItem, IdentifyRefusal> {
  const { meaning, id } = scan.sighting;
  if (meaning.kind === 'refused') return refused('unreadable', `${meaning.detail} Scan a component label.`);
  if (meaning.kind !== 'component') return refused('badge-here', 'That is a badge. Scan a component label.');
  if (context.seen.includes(id)) return refused('replayed', 'That scan has been used already. Scan the label again.');
  const found = itemOfMark(context.loft.assemblies, meaning);
  if (found.kind === 'conflict') return refused('marks-disagree', found.detail);
  if (found.kind === 'unknown') {
    return refused('unknown-serial', 'The loft does not know this serial. Take another component, or ask the lead.');
  }
  return mayIdentify(context, found);
}

function mayIdentify(context: PackContext, found: FoundItem): Result<FoundItem, IdentifyRefusal> {
  const { identified } = context.state;
  const { kind, serial } = found.component;
  const taken = [...identified.values()];
  if (taken.includes(serial)) {
    return refused('scanned-twice', `This ${kind} has been identified already. Scan another component.`);
  }
  const first = taken[0];
  const begun = first === undefined ? null : (componentOfSerial(context.loft.assemblies, first)?.assembly ?? null);
  if (begun !== null && begun.id !== found.assembly.id) {
    const detail = `This ${kind} belongs to ${found.assembly.name}, but this pack has begun with ${begun.name}.`;
    return refused('other-assembly', `${detail} Take the right ${kind}.`);
  }
  const table = found.assembly.openAt;
  if (table !== null) {
    return refused('in-open-pack', `${found.assembly.name} is being packed at ${table}. Take another assembly.`);
  }
  if (context.openElsewhere.includes(serial)) {
    return refused('in-open-pack', `This ${kind} lies in another open pack. Finish that one first, or take another.`);
  }
  if (identified.has(kind)) {
    return refused(
      'kind-already-identified',
      `A ${kind} has been identified already. Say ${phraseOf('correction')} to change it.`,
    );
  }
  return ok(found);
}

/** The kind whose other mark this is, if the component has been identified by a different one; null otherwise. */
function otherMarkOf({ context }: Here, { sighting }: Scan): string | null {
  const { meaning, payloadDigest, id } = sighting;
  if (meaning.kind !== 'component' || context.seen.includes(id)) return null;
  const found = itemOfMark(context.loft.assemblies, meaning);
  if (found.kind !== 'found') return null;
  const { kind, serial } = found.component;
  if (context.state.identified.get(kind) !== serial) return null;
  const bodies = context.facts.map(({ body }) => body);
  const scanned = bodies.some(
    (body) => body.kind === 'componentIdentified' && body.serial === serial && body.payloadDigest === payloadDigest,
  );
  return scanned ? null : kind;
}

/**
 * A scan while a serial is being read back. Another mark of the same item says nothing new; one that contradicts the
 * books is kept, since it may hang on this very item; null for everything that is none of this.
 */
export function scanWhileReadBack(here: Here, scan: Scan, asked: Serial): Decision | 'same' | null {
  const { meaning } = scan.sighting;
  if (meaning.kind !== 'component') return null;
  const found = itemOfMark(here.context.loft.assemblies, meaning);
  if (found.kind === 'conflict') return refuseScan(here, { scan, by: null }, refused('marks-disagree', found.detail));
  return found.kind === 'found' && found.component.serial === asked ? 'same' : null;
}

/** A scan while identifying: read back, or refused. */
export function identifyScan(here: Here, scan: Scan): Decision {
  const other = otherMarkOf(here, scan);
  if (other !== null) return remarkOn(here, answer(words`The other mark of this ${other} agrees.`));
  const result = componentScanned(here.context, scan);
  if (!result.ok) return refuseScan(here, { scan, by: here.context.state.packer }, result);
  const { kind, serial } = result.value.component;
  const { payloadDigest, reader } = scan.sighting;
  return readBackOf(here, words`${capital(kind)}, serial ${serialWords(serial)}.`, {
    kind: 'store',
    by: here.context.state.packer,
    bodies: [{ kind: 'componentIdentified', component: kind, serial, payloadDigest, reader }],
    remark: null,
  });
}

/** The kinds that are still to be scanned. */
export function missingKinds(state: PackContext['state']): readonly string[] {
  return COMPONENT_KINDS.filter((kind) => !state.identified.has(kind));
}

/** Said once all three agree and every check has passed: what it is, and which procedure and revision apply, and whether nobody may pack by it. */
export function agreedRemark(loft: Loft, facts: readonly Fact[]): Remark | null {
  const agreed = facts.map(({ body }) => body).find((body) => body.kind === 'assemblyAgreed');
  if (agreed === undefined || !facts.some(({ body }) => body.kind === 'checkInPassed')) return null;
  const name = assemblyById(loft, agreed.assembly)?.name ?? agreed.assembly;
  const procedure = procedureById(loft, agreed.procedure);
  const title = procedure?.title ?? agreed.procedure;
  const what = words`This is ${name}. Procedure: ${title}, revision ${agreed.revision}. Every check has passed.`;
  return answer(joinWords([what, demonstrationWords(procedure)]));
}
