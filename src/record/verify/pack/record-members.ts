/** What a record must say since the second edition: inspection, kind of work, seal and uses. */
import type { LogRecord } from '../../../domain/log-record';
import type { Account } from './account';

/** Name of the member, what the record says, and what the facts amount to. */
type Member = readonly [name: string, found: unknown, should: unknown];

/** What records hold since the second edition, and none before did. */
export function sinceEdition2(account: Account, record: LogRecord): readonly Member[] {
  const { edition, work, inspected, people, packer } = account;
  const components = work?.assembly.components ?? [];
  const isNew = edition >= 2;
  const looked = components.map(({ kind }) => inspected.get(kind));
  const found = looked.flatMap((one) => (one?.good === false ? [one.finding ?? ''] : []));
  const defects = looked.every((one) => one !== undefined) ? found : null;
  const isRepack = components.every(({ lastPackedOn }) => lastPackedOn !== null);
  const mark = work?.seals === true ? (people?.get(packer ?? '')?.sealMark ?? 'not on record') : undefined;
  const uses = components.map(({ serial, uses: known }) => ({ serial, uses: known ?? null }));
  return [
    ['defects of the material', record.materialDefects, isNew ? defects : undefined],
    ['kind of work', record.workKind, isNew ? (isRepack ? 'inspectAndRepack' : 'assembleAndPack') : undefined],
    ['seal mark', record.sealMark, mark],
    ['uses', record.uses, isNew ? uses : undefined],
  ];
}
