/** The records: how many there are, how they are kept, and everything that can be done with them. */
import { useRef, useState, type DragEvent, type FormEvent, type ReactElement } from 'react';
import { PAPERS } from '../../domain/log-record';
import type { Acts } from '../contract/acts';
import type {
  GivenFile,
  RecordActs,
  RecordCopy,
  RecordsOutcome,
  RecordsView,
  ReprintView,
  RestoringView,
} from '../contract/records-view';
import { Papers } from '../record/papers/Papers';
import { PAPER_WORDS } from '../record/papers/paper-words';
import { PassMark, PendingMark, TagMark } from '../parts/Shapes';
import { Sheet } from '../parts/Sheet';

interface RecordsScreenProps {
  readonly records: RecordsView;
  readonly acts: Acts;
}

const MARKS: Readonly<Record<RecordsOutcome['tone'], () => ReactElement>> = {
  good: PassMark,
  bad: TagMark,
  busy: PendingMark,
};

function Outcome({ outcome }: { readonly outcome: RecordsOutcome }): ReactElement {
  const OutcomeMark = MARKS[outcome.tone];
  return (
    <section className={`panel outcome outcome-${outcome.tone}`} aria-label="What came of it">
      <h2>
        <OutcomeMark /> {outcome.heading}
        {outcome.tone === 'busy' ? ' …' : ''}
      </h2>
      {outcome.lines.length === 0 ? null : (
        <ul>
          {outcome.lines.map((line, index) => (
            <li key={index}>{line}</li>
          ))}
        </ul>
      )}
    </section>
  );
}

interface ChooserProps {
  readonly label: string;
  readonly hint: string;
  readonly onFile: (file: GivenFile) => void;
}

/** A button that asks for a file, on a place where one can be dropped. */
function FileChooser({ label, hint, onFile }: ChooserProps): ReactElement {
  const input = useRef<HTMLInputElement>(null);
  const [over, setOver] = useState(false);
  const take = (files: FileList | null): void => {
    const file = files?.[0];
    if (file !== undefined) onFile(file);
  };
  const drop = (event: DragEvent): void => {
    event.preventDefault();
    setOver(false);
    take(event.dataTransfer.files);
  };
  const hover = (event: DragEvent): void => {
    event.preventDefault();
    setOver(true);
  };
  return (
    <div
      className={`drop ${over ? 'drop-over' : ''}`}
      onDrop={drop}
      onDragOver={hover}
      onDragLeave={() => setOver(false)}
    >
      <button type="button" className="command record-act" onClick={() => input.current?.click()}>
        <span className="command-label">{label}</span> <span className="command-phrase">{hint}</span>
      </button>
      <input
        ref={input}
        type="file"
        accept=".jsonl,.json,.txt"
        hidden
        aria-label={label}
        onChange={(event) => {
          take(event.target.files);
          // The same file can be chosen again.
          event.target.value = '';
        }}
      />
    </div>
  );
}

function WhatToDo({ records, acts }: { readonly records: RecordsView; readonly acts: RecordActs }): ReactElement {
  return (
    <div className="record-acts">
      <button type="button" className="command record-act" onClick={() => acts.exportAll()}>
        <span className="command-label">Export everything</span>{' '}
        <span className="command-phrase">one signed file, readable in any text editor</span>
      </button>
      <FileChooser
        label="Check a file"
        hint="or drop it here: says whether it is sound, or what was altered"
        onFile={(file) => acts.verify(file)}
      />
      {records.canChooseFolder ? (
        <button type="button" className="command record-act" onClick={() => acts.chooseFolder()}>
          <span className="command-label">Choose the folder for copies</span>{' '}
          <span className="command-phrase">for example on a USB stick</span>
        </button>
      ) : null}
      {records.empty && typeof records.offered === 'string' ? (
        <button type="button" className="command record-act" onClick={() => acts.restoreOffered?.()}>
          <span className="command-label">Restore from the folder</span>{' '}
          <span className="command-phrase">{records.offered}</span>
        </button>
      ) : null}
      {records.empty ? (
        <FileChooser
          label="Restore from a file"
          hint="or drop it here: only while this kiosk has no records"
          onFile={(file) => acts.restore(file)}
        />
      ) : null}
      <p className="aside">
        To check a data card or a log book page, hold its code in front of the camera, on this page or at the start.
      </p>
    </div>
  );
}

interface ReprintProps {
  readonly reprint: ReprintView | null;
  readonly acts: RecordActs;
}

/** Records by serial: scanned or typed, each to be printed again as a marked copy. */
function FindRecords({ reprint, acts }: ReprintProps): ReactElement {
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

/** One record as a marked copy, and nothing else on the page. */
function CopyOfRecord({ copy, acts }: { readonly copy: RecordCopy; readonly acts: Acts }): ReactElement {
  const { record, final, proof, madeAt } = copy;
  const waits = proof.state === 'making';
  return (
    <main className="body">
      <Sheet look="record" side={<Papers record={record} final={final} proof={proof} copyOf={madeAt} />}>
        <h1>Copy</h1>
        <p>
          {record.assembly}, packed on {record.packedOn}. Both papers are marked as copies.
        </p>
      </Sheet>
      <section className="commands" aria-label="Commands">
        <div className="commands-main">
          {PAPERS.map((paper) => (
            <button
              key={paper}
              type="button"
              className="command command-main"
              disabled={waits}
              onClick={() => acts.print(paper)}
            >
              <span className="command-label">Print the {PAPER_WORDS[paper]}</span>
            </button>
          ))}
          <button type="button" className="command command-tall" onClick={() => acts.records?.closeCopy?.()}>
            <span className="command-label">Back to the records</span>
          </button>
        </div>
      </section>
    </main>
  );
}

interface RestoringProps {
  readonly restoring: RestoringView;
  readonly acts: RecordActs;
}

/** A file that waits for the badge of a lead. */
function Waiting({ restoring, acts }: RestoringProps): ReactElement {
  const { prompt, behind } = restoring;
  return (
    <section className="panel outcome" aria-label="Restoring">
      <h2 role="alert">
        <PendingMark /> {behind === null ? prompt : 'This copy is older than the seals of this kiosk'}
      </h2>
      {behind === null ? null : (
        <>
          <p>{behind}</p>
          <button type="button" className="command record-act" onClick={() => acts.restoreAllTheSame?.()}>
            <span className="command-label">Restore all the same</span>{' '}
            <span className="command-phrase">then the badge of a lead</span>
          </button>
        </>
      )}
      <button type="button" className="command record-act" onClick={() => acts.cancelRestore?.()}>
        <span className="command-label">Do not restore</span>
      </button>
    </section>
  );
}

/** The page; nothing on it can change a record. */
export function RecordsScreen({ records, acts }: RecordsScreenProps): ReactElement {
  const { facts, root, key, keeping, warning, backup, outcome, restoring = null, reprint = null } = records;
  const side = acts.records === undefined ? null : <WhatToDo records={records} acts={acts.records} />;
  const copy = reprint?.copy ?? null;
  if (copy !== null) return <CopyOfRecord copy={copy} acts={acts} />;
  return (
    <main className="body">
      <Sheet look="records" side={side}>
        <h1>Records</h1>
        {outcome === null ? null : <Outcome outcome={outcome} />}
        {restoring === null || acts.records === undefined ? null : (
          <Waiting restoring={restoring} acts={acts.records} />
        )}
        {acts.records === undefined || records.empty ? null : <FindRecords reprint={reprint} acts={acts.records} />}
        {warning === null ? null : (
          <p className="record-warning" role="alert">
            <TagMark /> {warning}
          </p>
        )}
        <dl className="facts">
          <div>
            <dt>Facts recorded</dt>
            <dd>{String(facts)}</dd>
          </div>
        </dl>
        <ul className="record-lines">
          <li>{backup}</li>
          {keeping.map((line) => (
            <li key={line}>{line}</li>
          ))}
          <li>
            Root of the journal: <span className="code">{root ?? 'cannot be read'}</span>
          </li>
          <li>
            Key of this kiosk:{' '}
            <span className="code">{key ?? 'none, this browser cannot sign; checkpoints are marked as unsigned'}</span>
          </li>
        </ul>
      </Sheet>
      <section className="commands" aria-label="Commands">
        <div className="commands-main">
          <button type="button" className="command command-main" onClick={() => acts.leave()}>
            <span className="command-label">Back</span>
          </button>
        </div>
      </section>
    </main>
  );
}
