/** The log record as the card that goes with the parachute; the only thing that is ever printed. */
import type { ReactElement, ReactNode } from 'react';
import type { LogRecord } from '../domain/log-record';
import type { ProofState } from '../packing/app-view';
import type { FinalInspection } from '../packing/view';

interface EntryProps {
  readonly name: string;
  readonly children: ReactNode;
}

function Entry({ name, children }: EntryProps): ReactElement {
  return (
    <div className="entry">
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

interface RowsProps {
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

function Rows({ title, columns, rows }: RowsProps): ReactElement | null {
  if (rows.length === 0) return null;
  return (
    <table className="card-table">
      <caption>{title}</caption>
      <thead>
        <tr>
          {columns.map((column) => (
            <th key={column} scope="col">
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, index) => (
          <tr key={index}>
            {row.map((cell, column) => (
              <td key={column}>{cell}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** "2026-11-25 14:03" with the offset of the table's clock. */
function moment(instant: string): string {
  const offset = /(Z|[+-]\d\d:\d\d)$/.exec(instant)?.[0] ?? '';
  return `${instant.slice(0, 10)} ${instant.slice(11, 16)} ${offset === 'Z' ? 'UTC' : offset}`.trim();
}

function Tables({ record }: { readonly record: LogRecord }): ReactElement {
  return (
    <>
      <Rows
        title="Components"
        columns={['Kind', 'Model', 'Serial']}
        rows={record.serials.map(({ kind, model, serial }) => [kind, model, serial])}
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

/** The code by which the paper proves itself, at its true size on paper. */
function Proof({ proof }: { readonly proof: ProofState }): ReactElement | null {
  if (proof.state === 'making') return <p>The code that proves this data card is being made.</p>;
  if (proof.state === 'failed') return <p>This data card carries no proof: {proof.why}</p>;
  const { picture, text, widthMm } = proof.proof;
  return (
    <div className="card-proof">
      <img
        src={picture}
        width={toPixels(widthMm)}
        height={toPixels(widthMm)}
        alt="Code that proves this data card"
        data-text={text}
      />
      <p>
        Hold this code in front of any kiosk of the loft, or give it to the verifier: it says whether the card is
        genuine, and what it must say.
      </p>
    </div>
  );
}

/** CSS pixels on paper: 96 to the inch. */
function toPixels(mm: number): number {
  return Math.round((mm * 96) / 25.4);
}

interface RecordCardProps {
  readonly record: LogRecord;
  readonly proof: ProofState | null;
  /** `byHand` on the card that goes into the pocket, which is printed before; null for a record that had none. */
  readonly final: FinalInspection | 'byHand' | null;
}

/** Who looked last. The card in the pocket is part of what is inspected, so it is initialled by hand. */
function Final({ final }: Pick<RecordCardProps, 'final'>): ReactElement | null {
  if (final === null) return null;
  if (final !== 'byHand') {
    const { title, inspector, certificate, at } = final;
    return (
      <Entry name="Final inspection">
        {title}: {inspector}, certificate {certificate}, {moment(at)}
      </Entry>
    );
  }
  return (
    <Entry name="Final inspection">
      <span className="card-initials" /> to be initialled by hand by the inspector: this card is printed before the
      final inspection.
    </Entry>
  );
}

/** Every field of the record, in the order in which a rigger reads a card. */
export function RecordCard({ record, proof, final }: RecordCardProps): ReactElement {
  return (
    // A scrolling region must be reachable by key.
    // eslint-disable-next-line jsx-a11y/no-noninteractive-tabindex
    <article className="card" aria-label="Data card" tabIndex={0}>
      <h2>Data card</h2>
      <p className="card-notice">{record.notice}</p>
      <dl className="entries">
        <Entry name="Type and make">{record.typeAndMake}</Entry>
        <Entry name="Assembly">{record.assembly}</Entry>
        <Entry name="Work done">{record.work}</Entry>
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
        <Entry name="Defects found">{record.defects.length === 0 ? 'none found' : record.defects.join('; ')}</Entry>
        {record.reopened === undefined ? null : (
          <Entry name="Reopened">{record.reopened.map(({ stage, name }) => `${stage}, by ${name}`).join('; ')}</Entry>
        )}
        <Entry name="Drop tests">{record.dropTests}</Entry>
      </dl>
      <Tables record={record} />
      <dl className="entries">
        {record.packers.map(({ name, certificate }, index) => (
          <Entry key={index} name={index === record.packers.length - 1 ? 'Signed by' : 'Packed by'}>
            {name}, certificate {certificate}
          </Entry>
        ))}
        {record.clock === undefined ? null : <Entry name="Clock">{record.clock.join(' ')}</Entry>}
        <Entry name="Signed at">{moment(record.signedAt)}</Entry>
        <Final final={final} />
        <Entry name="Pack">
          <span className="code">{record.pack}</span>
        </Entry>
      </dl>
      {proof === null ? null : <Proof proof={proof} />}
    </article>
  );
}
