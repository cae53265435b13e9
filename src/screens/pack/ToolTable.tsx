/** Tools as a table: how many were counted and, once they were, how many there should be; which line is counted now. */
import type { ReactElement } from 'react';
import { NowMark, PassMark, PendingMark, TagMark } from '../parts/Shapes';

export interface ToolRow {
  readonly name: string;
  /** Null as long as it is not to be told: counting is blind. */
  readonly wanted: number | null;
  readonly counted: number | null;
}

interface ToolTableProps {
  readonly rows: readonly ToolRow[];
  readonly current: number | null;
  /** Heading of the table and of its two number columns. */
  readonly words: { readonly caption: string; readonly wanted: string; readonly counted: string };
}

function RowMark({ row, now }: { readonly row: ToolRow; readonly now: boolean }): ReactElement {
  if (now) return row.counted === null ? <NowMark /> : <TagMark />;
  if (row.counted === null) return <PendingMark />;
  return row.counted === row.wanted ? <PassMark /> : <TagMark />;
}

export function ToolTable({ rows, current, words }: ToolTableProps): ReactElement {
  return (
    <table className="tools">
      <caption>{words.caption}</caption>
      <thead>
        <tr>
          <th scope="col">Tool</th>
          <th scope="col">{words.wanted}</th>
          <th scope="col">{words.counted}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row, index) => (
          <tr
            key={index}
            className={index === current ? 'tool-now' : ''}
            {...(index === current ? { 'aria-current': 'step' } : {})}
          >
            <th scope="row">
              <RowMark row={row} now={index === current} /> {row.name}
            </th>
            <td>{row.wanted ?? ''}</td>
            <td>{row.counted ?? (index === current ? 'count now' : 'not yet')}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
