/** Everything that can be done with the records: export, check, copy, restore. */
import type { ReactElement } from 'react';
import type { RecordActs, RecordsView } from '../contract/records-view';
import { FileChooser } from './FileChooser';

export function WhatToDo({
  records,
  acts,
}: {
  readonly records: RecordsView;
  readonly acts: RecordActs;
}): ReactElement {
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
