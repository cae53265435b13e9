/** Asks for a file: by a control, or by a place where one can be dropped. */
import { useRef, useState, type DragEvent, type ReactElement } from 'react';
import type { GivenFile } from '../contract/records-view';

interface ChooserProps {
  readonly label: string;
  readonly hint: string;
  readonly onFile: (file: GivenFile) => void;
}

/** A button that asks for a file, on a place where one can be dropped. */
export function FileChooser({ label, hint, onFile }: ChooserProps): ReactElement {
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
