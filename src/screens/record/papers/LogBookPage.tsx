/** The log book page: the whole record, for the book that stays with the parachute for life. */
import type { ReactElement } from 'react';
import type { LogRecord } from '../../../domain/log-record';
import { certified, defectsText, sealText, usesText, WORK_MARKS } from './paper-words';
import { CopyMark, Entry, FinalEntry, moment, Proof, Rows } from './paper-parts';
import type { PaperProps } from './paper-props';

function usesOf({ uses = [] }: LogRecord, serial: string): string {
  const known = uses.find((one) => one.serial === serial);
  return known === undefined ? '' : usesText(known.uses);
}

function Tables({ record }: Pick<PaperProps, 'record'>): ReactElement {
  return (
    <>
      <Rows
        title="Components"
        columns={['Kind', 'Model', 'Serial', 'Uses']}
        rows={record.serials.map(({ kind, model, serial }) => [kind, model, serial, usesOf(record, serial)])}
      />
      <Rows
        title="Stages completed by"
        columns={['Packer', 'Certificate', 'Stages']}
        rows={(record.stagesBy ?? []).map(({ name, certificate, stages }) => [name, certificate, stages])}
      />
      <Rows
        title="Holds released"
        columns={['Hold', 'Inspector', 'Certificate', 'When']}
        rows={record.holds.map(({ title, inspector, certificate, at }) => [title, inspector, certificate, moment(at)])}
      />
      <div className="card-pair">
        <Rows
          title="Values"
          columns={['Stage', 'What', 'Value']}
          rows={record.values.map(({ stage, what, value }) => [stage, what, value])}
        />
        <Rows
          title="Tools"
          columns={['Tool', 'Issued', 'Returned']}
          rows={record.tools.map(({ name, issued, returned }) => [name, String(issued), String(returned)])}
        />
        <Rows
          title="Temporary items"
          columns={['Item', 'Placed', 'Removed']}
          rows={record.temporaryItems.map(({ name, placed, removed }) => [name, String(placed), String(removed)])}
        />
      </div>
    </>
  );
}

/** Every field of the record, in the order in which a rigger reads a page. */
export function LogBookPage({ record, final, proof, copyOf }: PaperProps): ReactElement {
  const seal = sealText(record);
  return (
    // eslint-disable-next-line jsx-a11y/no-noninteractive-tabindex
    <article className="card log-book-page" aria-label="Log book page" tabIndex={0}>
      <h2>Log book page</h2>
      <CopyMark madeAt={copyOf} />
      <p className="card-notice">{record.notice}</p>
      <dl className="entries">
        <Entry name="Type and make">{record.typeAndMake}</Entry>
        <Entry name="Assembly">{record.assembly}</Entry>
        <Entry name="Work done">
          {record.workKind === undefined
            ? ''
            : `${WORK_MARKS[record.workKind].whole} (${WORK_MARKS[record.workKind].short}). `}
          {record.work}
        </Entry>
        <Entry name="Procedure">
          {record.procedure}, revision {record.revision}
        </Entry>
        <Entry name="Packed on">{record.packedOn}</Entry>
        <Entry name="Place">{record.place}</Entry>
        <Entry name="Owner">
          {record.owner.name}, {record.owner.address}
        </Entry>
        <Entry name="Last day of use">
          <strong>{record.nextDue}</strong> ({record.repackRule})
        </Entry>
        <Entry name="Defects found at inspection">{defectsText(record)}</Entry>
        {record.materialDefects === undefined || record.defects.length === 0 ? null : (
          <Entry name="Put right in process">{record.defects.join('; ')}</Entry>
        )}
        {record.reopened === undefined ? null : (
          <Entry name="Reopened">{record.reopened.map(({ stage, name }) => `${stage}, by ${name}`).join('; ')}</Entry>
        )}
        {seal === '' ? null : <Entry name="Seal mark">{seal}</Entry>}
        <Entry name="Drop tests">{record.dropTests}</Entry>
      </dl>
      <Tables record={record} />
      <dl className="entries">
        {record.packers.map((packer, index) => (
          <Entry key={index} name={index === record.packers.length - 1 ? 'Signed by' : 'Packed by'}>
            {certified(packer)}
          </Entry>
        ))}
        {record.clock === undefined ? null : <Entry name="Clock">{record.clock.join(' ')}</Entry>}
        <Entry name="Signed at">{moment(record.signedAt)}</Entry>
        <FinalEntry final={final} />
        <Entry name="Pack">
          <span className="code">{record.pack}</span>
        </Entry>
      </dl>
      {proof === null ? null : <Proof proof={proof} />}
    </article>
  );
}
