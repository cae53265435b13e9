/** The data card: goes into the pocket of the packed parachute, and has room for what is written on it later. */
import type { ReactElement } from 'react';
import type { LogRecord } from '../../../domain/log-record';
import { defectsText, sealText, WORK_MARKS } from './paper-words';
import { CopyMark, Entry, FinalEntry, Proof, Rows } from './paper-parts';
import type { PaperProps } from './paper-props';

/** Later entries by hand; so many fit on the same page beside the code. */
const BLANK_ROWS = 6;
const COLUMNS = ['Date', 'Place', 'Work', 'Name', 'Certificate', 'Seal', 'Defects'];

function firstRow(record: LogRecord): readonly string[] {
  const signer = record.packers.at(-1);
  return [
    record.packedOn,
    record.place,
    record.workKind === undefined ? 'packed' : WORK_MARKS[record.workKind].short,
    signer?.name ?? '',
    signer?.certificate ?? '',
    sealText(record),
    defectsText(record),
  ];
}

/** What 14 CFR 65.131(c) wants at the parachute, the last day of use, and lines for later entries. */
export function DataCard({ record, final, proof, copyOf }: PaperProps): ReactElement {
  return (
    // A scrolling region must be reachable by key.
    // eslint-disable-next-line jsx-a11y/no-noninteractive-tabindex
    <article className="card data-card" aria-label="Data card" tabIndex={0}>
      <h2>Data card</h2>
      <CopyMark madeAt={copyOf} />
      <p className="card-notice">{record.notice}</p>
      <dl className="entries">
        <Entry name="Type and make">{record.typeAndMake}</Entry>
        <Entry name="Serials">{record.serials.map(({ kind, serial }) => `${kind} ${serial}`).join(', ')}</Entry>
        <Entry name="Owner">{record.owner.name}</Entry>
        <Entry name="Last day of use">
          <strong>{record.nextDue}</strong> ({record.repackRule})
        </Entry>
        <FinalEntry final={final} />
      </dl>
      <Rows title="Packing entries" columns={COLUMNS} rows={[firstRow(record)]} blank={BLANK_ROWS} />
      {proof === null ? null : <Proof proof={proof} />}
    </article>
  );
}
