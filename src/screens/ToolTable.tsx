/** Tools as a table: how many there should be, how many were counted, and which line is being counted now. */
import type { ReactElement } from 'react';
import { NowMark, PassMark, PendingMark, TagMark } from './Shapes';

export interface ToolRow {
  readonly name: string;
  readonly wanted: number;
  readonly counted: number | null;
}

interface ToolTableProps {
  readonly rows: readonly ToolRow[];
  readonly current: number | null;
  /** Heading of the table and of its two number columns. */
  readonly words: { readonly caption: string; readonly wanted: string; readonly counted: string };
}

function RowMark({ row, now }: { readonly row: ToolRow; readonly now: boolean }): ReactElement {
  if (now) return <NowMark />;
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
            <td>{row.wanted}</td>
            <td>{row.counted ?? (index === current ? 'count now' : 'not yet')}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
