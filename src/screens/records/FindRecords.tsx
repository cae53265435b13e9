/** Finds records by the serial of a component, to be printed again. */
import { useState, type FormEvent, type ReactElement } from 'react';
import type { RecordActs, ReprintView } from '../contract/records-view';

interface ReprintProps {
  readonly reprint: ReprintView | null;
  readonly acts: RecordActs;
}

/** Records by serial: scanned or typed, each to be printed again as a marked copy. */
export function FindRecords({ reprint, acts }: ReprintProps): ReactElement {
  const [serial, setSerial] = useState('');
  const find = (event: FormEvent): void => {
    event.preventDefault();
    acts.find?.(serial);
  };
  return (
    <section className="panel" aria-label="Print a record again">
      <form className="find-records" onSubmit={find}>
        <label htmlFor="find-serial">Print a record again: scan a component, or type its serial</label>
        <input id="find-serial" value={serial} onChange={(event) => setSerial(event.target.value)} />
        <button type="submit" className="small-button">
          Find its records
        </button>
      </form>
      {reprint === null ? null : <FoundRecords reprint={reprint} acts={acts} />}
    </section>
  );
}

function FoundRecords({ reprint, acts }: { readonly reprint: ReprintView; readonly acts: RecordActs }): ReactElement {
  const { serial, found, trouble } = reprint;
  if (trouble !== null) return <p role="alert">{trouble}</p>;
  if (found.length === 0) return <p role="status">No record in this journal names serial {serial}.</p>;
  return (
    <ul className="record-lines" aria-label={`Records of serial ${serial}`}>
      {found.map(({ pack, packedOn, assembly, isClosed }) => (
        <li key={pack}>
          <button type="button" className="small-button" onClick={() => acts.openCopy?.(pack)}>
            {packedOn}, {assembly}
            {isClosed ? '' : ', final inspection to come'}
          </button>
        </li>
      ))}
    </ul>
  );
}
