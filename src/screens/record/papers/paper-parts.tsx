/** What both papers are made of: entries, tables, the code that proves them, and the mark of a copy. */
import type { ReactElement, ReactNode } from 'react';
import type { ProofState } from '../../contract/proof-view';
import type { FinalInspection } from '../../contract/pack-view';

interface EntryProps {
  readonly name: string;
  readonly children: ReactNode;
}

export function Entry({ name, children }: EntryProps): ReactElement {
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
  /** Empty rows below, to be written by hand. */
  readonly blank?: number;
}

/** A table; none where it has neither rows nor room for any. */
export function Rows({ title, columns, rows, blank = 0 }: RowsProps): ReactElement | null {
  if (rows.length + blank === 0) return null;
  const empty = Array.from({ length: blank }, () => columns.map(() => ''));
  return (
    <table className={blank > 0 ? 'card-table card-table-blank' : 'card-table'}>
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
        {[...rows, ...empty].map((row, index) => (
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
export function moment(instant: string): string {
  const offset = /(Z|[+-]\d\d:\d\d)$/.exec(instant)?.[0] ?? '';
  return `${instant.slice(0, 10)} ${instant.slice(11, 16)} ${offset === 'Z' ? 'UTC' : offset}`.trim();
}

/** CSS pixels on paper: 96 to the inch. */
function toPixels(mm: number): number {
  return Math.round((mm * 96) / 25.4);
}

/** The code by which the paper proves itself, at its true size on paper. */
export function Proof({ proof }: { readonly proof: ProofState }): ReactElement | null {
  if (proof.state === 'making') return <p>The code that proves this paper is being made.</p>;
  if (proof.state === 'failed') return <p>This paper carries no proof: {proof.why}</p>;
  const { picture, text, widthMm } = proof.proof;
  return (
    <div className="card-proof">
      <img
        src={picture}
        width={toPixels(widthMm)}
        height={toPixels(widthMm)}
        alt="Code that proves this paper"
        data-text={text}
      />
      <p>
        Hold this code in front of any kiosk of the loft, or give it to the verifier: it says whether the record is
        genuine, and what it must say.
      </p>
    </div>
  );
}

/** Says on the paper itself that it is none of the first ones; nothing for an original. */
export function CopyMark({ madeAt }: { readonly madeAt: string | null }): ReactElement | null {
  return madeAt === null ? null : (
    <p className="paper-copy">
      COPY <span>printed again at {moment(madeAt)} from the journal; the first print was the original</span>
    </p>
  );
}

/** Who looked last. The data card goes into its pocket before that, so there it is initialled by hand. */
export function FinalEntry({ final }: { readonly final: FinalInspection | 'byHand' | null }): ReactElement | null {
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
